"""Which wheels of a folder a system needs, and which requirements none of them meets.

pip takes markers as they are where it runs, so that what Windows needs besides is worked out here.
"""

from __future__ import annotations

import zipfile
from collections.abc import Iterable
from dataclasses import dataclass
from email.message import Message
from email.parser import BytesHeaderParser
from pathlib import Path

from packaging.requirements import Requirement
from packaging.specifiers import SpecifierSet
from packaging.utils import NormalizedName, canonicalize_name, parse_wheel_filename
from packaging.version import Version

from tests.kit.systems import System


@dataclass(frozen=True, slots=True)
class Closure:
    """What a requirement needs in all."""

    wheels: tuple[Path, ...]
    unmet: tuple[str, ...]  # requirements as they are written, sorted


def closure(root: str, wheels: Iterable[Path], system: System, python: str) -> Closure:
    """What `root` needs on a system, out of these wheels.

    pip looks at markers as they are where it runs, so that what only Windows needs would be missed.
    """
    fitting = _fitting(wheels, system, python)
    met: dict[Path, None] = {}
    unmet: set[str] = set()
    done: set[str] = set()
    open_ = [Requirement(root)]
    while open_:
        wanted = open_.pop()
        if str(wanted) in done:
            continue
        done.add(str(wanted))
        version, wheel = fitting.get(canonicalize_name(wanted.name), (None, None))
        if version is None or wheel is None or not wanted.specifier.contains(version, True):
            unmet.add(f"{wanted.name}{wanted.specifier}")
            continue
        met[wheel] = None
        open_ += _required(wheel, wanted.extras, system.markers(python))
    return Closure(tuple(sorted(met)), tuple(sorted(unmet)))


def _fitting(
    wheels: Iterable[Path], system: System, python: str
) -> dict[NormalizedName, tuple[Version, Path]]:
    taken = set(system.tags(python))
    found = {}
    for wheel in wheels:
        name, version, _, tags = parse_wheel_filename(wheel.name)
        if tags & taken and python in _pythons(wheel):
            found[name] = (version, wheel)
    return found


def _pythons(wheel: Path) -> SpecifierSet:
    return SpecifierSet(_metadata(wheel)["Requires-Python"] or "")


def _required(wheel: Path, extras: set[str], markers: dict[str, str]) -> list[Requirement]:
    """What a wheel requires under these markers, with these extras."""
    written = [Requirement(line) for line in _metadata(wheel).get_all("Requires-Dist", [])]
    return [
        requirement
        for requirement in written
        if requirement.marker is None
        or any(requirement.marker.evaluate(markers | {"extra": extra}) for extra in ("", *extras))
    ]


def _metadata(wheel: Path) -> Message:
    with zipfile.ZipFile(wheel) as opened:
        (name,) = (n for n in opened.namelist() if n.endswith(".dist-info/METADATA"))
        return BytesHeaderParser().parsebytes(opened.read(name))
