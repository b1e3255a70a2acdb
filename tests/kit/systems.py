"""The systems and the Pythons that a kit is made for."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from dataclasses import dataclass

from packaging import tags

PYTHONS = ("3.11", "3.12", "3.13", "3.14", "3.15")
"""Nobody knows which Python a borrowed laptop has; only two packages differ by it."""

_LINUX = ("manylinux_2_28", "manylinux_2_27", "manylinux_2_17", "manylinux2014", "manylinux1")
"""glibc 2.28 is of 2018; numpy has no wheels any more for an earlier one."""


_PYTHON_ORG = "It is free, at python.org, its own site; the installer fits on a stick."


@dataclass(frozen=True, slots=True, kw_only=True)
class System:
    """A kind of computer, as packages and as people name it."""

    name: str  # in the name of the zip
    words: str
    seen_as: str  # what the kit's start.py finds there
    platforms: tuple[str, ...]  # platform tags of wheels that run there, the best first
    sys_platform: str
    platform_system: str
    machine: str
    starter: str  # the file to double-click
    typed: str  # the same in a terminal
    unpacking: str  # what to do with the zip, a sentence
    where_python: str  # where Python is to be had, a sentence
    more: str  # one thing more to know there, a sentence

    def markers(self, python: str) -> dict[str, str]:
        """The values of environment markers there.

        Source: PyPA, Dependency specifiers, section Environment Markers.
        """
        return {
            "implementation_name": "cpython",
            "implementation_version": f"{python}.0",
            "os_name": "nt" if self.sys_platform == "win32" else "posix",
            "platform_machine": self.machine,
            "platform_python_implementation": "CPython",
            "platform_release": "",
            "platform_system": self.platform_system,
            "platform_version": "",
            "python_full_version": f"{python}.0",
            "python_version": python,
            "sys_platform": self.sys_platform,
            "extra": "",
        }

    def tags(self, python: str) -> Iterator[tags.Tag]:
        """Every tag of a wheel that this Python takes there."""
        version = tuple(map(int, python.split(".")))
        interpreter = f"cp{python.replace('.', '')}"
        yield from tags.cpython_tags(version, [interpreter], self.platforms)
        yield from tags.compatible_tags(version, interpreter, self.platforms)


def _mac(machine: str, words: str) -> System:
    return System(
        name=f"macos-{machine}",
        words=f"macOS 11 or later, {words}",
        seen_as=f"darwin-{machine}",
        platforms=tuple(tags.mac_platforms((11, 0), machine)),
        sys_platform="darwin",
        platform_system="Darwin",
        machine=machine,
        starter="courtlog.command",
        typed="./courtlog.command",
        unpacking="Double-click the zip on the laptop's own disk.",
        where_python=_PYTHON_ORG,
        more="If macOS refuses it: System Settings, Privacy & Security, Open Anyway.",
    )


SYSTEMS = (
    System(
        name="windows-amd64",
        words="Windows, 64 bit",
        seen_as="win-amd64",
        platforms=("win_amd64",),
        sys_platform="win32",
        platform_system="Windows",
        machine="AMD64",
        starter="courtlog.bat",
        typed="courtlog.bat",
        unpacking="Right-click the zip, Extract All, to the laptop's own disk.",
        where_python=_PYTHON_ORG,
        more="Built on Windows by `python -m tests.kit`, the program zip needs no Python.",
    ),
    _mac("arm64", "Apple chip"),
    _mac("x86_64", "Intel chip"),
    System(
        name="linux-x86_64",
        words="Linux, 64 bit, glibc 2.28 or later",
        seen_as="linux-x86_64",
        platforms=tuple(f"{name}_x86_64" for name in _LINUX),
        sys_platform="linux",
        platform_system="Linux",
        machine="x86_64",
        starter="courtlog.sh",
        typed="./courtlog.sh",
        unpacking="Unpack the zip on the laptop's own disk.",
        where_python="The packages of your system have it.",
        more="If a double-click does nothing: in a terminal in this folder, `sh courtlog.sh`.",
    ),
)


def this_python() -> str:
    """The Python that runs, like `3.11`."""
    return f"{sys.version_info[0]}.{sys.version_info[1]}"
