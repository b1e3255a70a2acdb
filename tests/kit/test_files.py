"""The files beside the wheels, tried without a package index; no Windows and no macOS is here."""

from __future__ import annotations

import platform
import re
import shutil
import subprocess
import sys
import zipfile
from collections.abc import Sequence
from pathlib import Path

import pytest

from tests.kit.closure import closure
from tests.kit.systems import PYTHONS, SYSTEMS, System
from tests.kit.wheelhouse import INSIDE, texts
from tests.test_sentences import MOST_WORDS, sentences

BY_NAME = {system.name: system for system in SYSTEMS}
WINDOWS, LINUX, MAC = (BY_NAME[name] for name in ("windows-amd64", "linux-x86_64", "macos-arm64"))
posix = pytest.mark.skipif(sys.platform == "win32", reason="needs a POSIX shell")


def wheel(folder: Path, name: str, *lines: str, tags: str = "py3-none-any") -> Path:
    path = folder / f"{name}-1.0-{tags}.whl"
    metadata = [f"Metadata-Version: 2.1\nName: {name}\nVersion: 1.0", *lines]
    with zipfile.ZipFile(path, "w") as out:
        out.writestr(f"{name}-1.0.dist-info/METADATA", "\n".join(metadata) + "\n\n")
    return path


def test_what_only_windows_needs_is_asked_for_there_alone(tmp_path: Path) -> None:
    """The marker is click's own for colorama."""
    root = wheel(tmp_path, "root", 'Requires-Dist: colorama>=0.4; platform_system == "Windows"')
    assert closure("root", [root], LINUX, "3.12").unmet == ()
    assert closure("root", [root], WINDOWS, "3.12").unmet == ("colorama>=0.4",)
    both = [root, wheel(tmp_path, "colorama")]
    assert closure("root", both, WINDOWS, "3.12").wheels == (both[1], both[0])
    assert closure("root", both, LINUX, "3.12").wheels == (root,)


@pytest.mark.parametrize(
    ("tags", "system", "fits"),
    [
        ("cp312-cp312-win_amd64", WINDOWS, True),
        ("cp312-cp312-win_amd64", LINUX, False),
        ("cp313-cp313-win_amd64", WINDOWS, False),
        ("cp39-abi3-macosx_11_0_arm64", MAC, True),
        ("cp312-cp312-macosx_14_0_arm64", MAC, False),
        ("py3-none-macosx_10_13_x86_64", MAC, False),
        ("py3-none-manylinux_2_17_x86_64", LINUX, True),
        ("py3-none-musllinux_1_2_x86_64", LINUX, False),
    ],
)
def test_a_wheel_counts_where_its_tags_fit(
    tmp_path: Path, tags: str, system: System, fits: bool
) -> None:
    root = wheel(tmp_path, "root", "Requires-Dist: part[more]")
    part = wheel(tmp_path, "part", 'Requires-Dist: other; extra == "more"', tags=tags)
    found = closure("root", [root, part], system, "3.12")
    assert found.unmet == (("other",) if fits else ("part",))


def test_a_wheel_counts_for_the_pythons_and_versions_that_it_names(tmp_path: Path) -> None:
    late = wheel(tmp_path, "late", "Requires-Python: >=3.12")
    assert closure("late", [late], LINUX, "3.11").unmet == ("late",)
    assert closure("late", [late], LINUX, "3.12").unmet == ()
    assert closure("late>=2", [late], LINUX, "3.12").unmet == ("late>=2",)


@pytest.mark.parametrize("system", SYSTEMS, ids=lambda system: system.name)
def test_the_readme_is_ten_lines_of_short_sentences(system: System) -> None:
    readme = texts(system, PYTHONS)["README.txt"]
    lines = readme.splitlines()
    assert len(lines) <= 10
    assert max(map(len, lines)) <= 100
    assert "@" not in readme
    assert [s for s in sentences(readme) if len(s.split()) > MOST_WORDS] == []


def test_the_windows_starter_is_as_cmd_reads_it() -> None:
    """Common knowledge of cmd, from memory: one code page, CRLF, paths and brackets quoted."""
    starter = texts(WINDOWS, PYTHONS)["courtlog.bat"]
    assert starter.isascii()
    assert "@P" not in starter
    assert starter.count("\n") == starter.count("\r\n")
    for line in starter.splitlines():
        outside = "".join(line.split('"')[::2])
        assert line.count('"') % 2 == 0
        assert "%~dp0" not in outside
        if line.startswith("    echo"):
            assert not re.search(r"[()&|<>^%]", line)


@posix
@pytest.mark.parametrize("system", [LINUX, MAC], ids=lambda system: system.name)
@pytest.mark.parametrize("shell", ["sh", "bash"])
def test_the_starter_is_shell(shell: str, system: System) -> None:
    starter = texts(system, PYTHONS)[system.starter]
    done = subprocess.run([shell, "-n"], input=starter.encode(), capture_output=True, check=False)
    assert (done.returncode, done.stderr) == (0, b"")
    assert "@P" not in starter


class Laptop:
    """A folder with the starter, and only these Pythons: each is a script of shell."""

    def __init__(self, folder: Path, **pythons: str) -> None:
        self.here = folder / "Kürs 1 (b) & Ko"
        self._programs = folder / "programs"
        self.here.mkdir()
        self._programs.mkdir()
        for name, text in texts(LINUX, PYTHONS).items():
            (self.here / name).write_text(text, encoding="utf-8")
        for tool in ("sh", "dirname", "uname"):
            (self._programs / tool).symlink_to(str(shutil.which(tool)))
        for name, text in pythons.items():
            self.program(name.replace("_", "."), text)

    def program(self, name: str, text: str) -> None:
        path = self._programs / name
        path.write_text(f"#!/bin/sh\n{text}\n", encoding="utf-8")
        path.chmod(0o755)

    def start(self, *words: str, **more: str) -> tuple[int, str, str]:
        done = subprocess.run(
            ["sh", self.here / "courtlog.sh", *words],
            env={"PATH": str(self._programs), "LC_ALL": "C.UTF-8", **more},
            stdin=subprocess.DEVNULL,
            capture_output=True,
            check=False,
        )
        return done.returncode, done.stdout.decode(), done.stderr.decode()


@posix
def test_the_starter_says_what_to_do_where_no_python_fits(tmp_path: Path) -> None:
    laptop = Laptop(tmp_path, python3="exit 1")
    code, out, told = laptop.start()
    assert (code, out) == (1, "")
    assert told == (
        f"Courtlog needs a 64-bit Python {PYTHONS[0]} to {PYTHONS[-1]}, and there is none here."
        " The packages of your system have it. Install it, then start courtlog again.\n"
    )


@posix
def test_the_starter_takes_the_newest_python_that_fits(tmp_path: Path) -> None:
    told = 'for word; do echo "$word"; done'
    laptop = Laptop(tmp_path, python3_14="exit 1", python3_13=told, python3_12="echo older")
    out = laptop.start("day", "a b")[1]
    assert out.splitlines() == [str(laptop.here / "start.py"), "day", "a b"]


@posix
def test_a_double_click_without_a_terminal_opens_one(tmp_path: Path) -> None:
    laptop = Laptop(tmp_path)
    laptop.program("x-terminal-emulator", 'for word; do echo "$word"; done')
    out = laptop.start(DISPLAY=":0")[1]
    assert out.splitlines() == ["-e", "sh", str(laptop.here / "courtlog.sh")]
    assert laptop.start("day", DISPLAY=":0")[1] == ""


def started(folder: Path, *words: str) -> tuple[int, str]:
    command = [sys.executable, str(folder / "start.py"), *words]
    done = subprocess.run(command, capture_output=True, check=False)
    return done.returncode, done.stderr.decode()


def own_list(folder: Path, pythons: Sequence[str]) -> None:
    """Lists for these Pythons, of all systems."""
    (folder / "wheels").mkdir()
    for system in SYSTEMS:
        for python in pythons:
            (folder / "wheels" / f"{system.seen_as}-{python}.txt").touch()


@pytest.mark.skipif(
    platform.machine() not in {system.machine for system in SYSTEMS}, reason="no kit for it"
)
def test_a_python_fits_where_there_is_a_list_for_it(tmp_path: Path) -> None:
    this = f"{sys.version_info[0]}.{sys.version_info[1]}"
    shutil.copy(INSIDE / "start.py", tmp_path)
    own_list(tmp_path, [python for python in PYTHONS if python != this])
    assert started(tmp_path, "--fits")[0] == 1
    shutil.rmtree(tmp_path / "wheels")
    own_list(tmp_path, [this])
    assert started(tmp_path, "--fits") == (0, "")
    (tmp_path / "install.txt").mkdir()
    code, told = started(tmp_path)
    assert code == 1
    assert "Copy this folder to the laptop's own disk, and start it there." in told
