"""The kits as a laptop gets them, with `--kit`: unpacked, installed without an index, and used."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
import tempfile
import zipfile
from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest

from tests.cli.program import HARBOUR, Home
from tests.kit.closure import closure
from tests.kit.program import build_program
from tests.kit.systems import PYTHONS, SYSTEMS, System, this_python
from tests.kit.wheelhouse import build_wheel, build_zip, unpack

pytestmark = pytest.mark.kit

PLACE = "Kürs 1 (b) & Ko"
"""A name of a folder that a starter might trip over."""

OTHERS = [system for system in SYSTEMS if system.sys_platform != sys.platform]


@pytest.fixture
def folder(request: pytest.FixtureRequest) -> Iterator[Path]:
    """A folder for what is built, gone afterwards: a kit is a hundred megabytes."""
    if not request.config.getoption("--kit"):
        pytest.skip("building the kits takes two minutes: --kit")
    with tempfile.TemporaryDirectory(prefix="courtlog-kit-") as scratch:
        _skip_without("pip", Path(scratch))
        yield Path(scratch)


@pytest.fixture
def home(tmp_path: Path) -> Home:
    """A coach's own folders, empty."""
    return Home(tmp_path)


def _skip_without(package: str, folder: Path) -> None:
    command = [sys.executable, "-m", "pip", "download", "--quiet", "--no-deps", package]
    done = subprocess.run(command, cwd=folder, capture_output=True, check=False)
    if done.returncode:
        pytest.skip(f"no package index has {package} here")


def _hosts() -> set[bytes]:
    """The hosts of this machine's own index, and of its way to it."""
    command = [sys.executable, "-m", "pip", "config", "list"]
    said = subprocess.run(command, capture_output=True, check=True).stdout.decode()
    ways = [value for name, value in os.environ.items() if name.lower().endswith("_proxy")]
    hosts = set(re.findall(r"https?://(?:[^/@\s']*@)?([\w.-]+)", "\n".join([said, *ways])))
    return {host.encode() for host in hosts} - {b"pypi.org", b"localhost", b"127.0.0.1"}


def _told_hosts(folder: Path) -> list[tuple[str, bytes]]:
    """Files that hold one of them."""
    hosts = _hosts()
    return [
        (path.name, host)
        for path in folder.rglob("*")
        if path.is_file()
        for host in hosts
        if host in path.read_bytes()
    ]


def test_a_zip_of_wheels_is_installed_without_an_index_and_then_just_starts(
    folder: Path, home: Home
) -> None:
    system = next((s for s in SYSTEMS if s.sys_platform == sys.platform), None)
    if system is None or this_python() not in PYTHONS or sys.platform == "win32":
        pytest.skip("no starter for this system can be run")
    made = build_zip(system, [this_python()], build_wheel(folder), folder)
    place = unpack(made, folder / PLACE)
    assert _told_hosts(place) == []
    half = place / "program" / "half"
    half.mkdir(parents=True)  # a first start that was broken off
    program = (str(place / system.starter),)
    assert os.access(program[0], os.X_OK)
    nothing = {"PIP_INDEX_URL": "http://127.0.0.1:9", "PYTHONPATH": str(half)}
    first = home.run("demo", program=program, **nothing)
    assert first.code == 0, (place / "install.txt").read_text(encoding="utf-8")
    assert first.err.startswith("courtlog is being installed in this folder.")
    assert not half.exists()
    second = home.run("demo", program=program)
    assert second == home.run("demo")
    assert second.out == first.out
    assert second.lines[0].startswith("Harbour Week · day 3")


@pytest.mark.parametrize("system", OTHERS, ids=lambda system: system.name)
def test_a_zip_for_another_system_lacks_nothing(folder: Path, system: System) -> None:
    """pip judges tags and hashes; it takes markers as they are here, so `closure` judges those."""
    python = PYTHONS[-1]
    made = build_zip(system, [python], build_wheel(folder), folder)
    place = unpack(made, folder / PLACE)
    wheels = [*(place / "wheels").glob("*.whl")]
    assert closure("courtlog", wheels, system, python).unmet == ()
    names = [path.name.partition("-")[0] for path in wheels]
    assert ("colorama" in names) == (system.sys_platform == "win32")
    assert "plotext" in names
    assert _told_hosts(place) == []
    with zipfile.ZipFile(made) as opened:
        mode = opened.getinfo(f"courtlog/{system.starter}").external_attr >> 16
    assert mode & 0o111
    platforms = [word for name in system.platforms for word in ("--platform", name)]
    done = subprocess.run(
        [
            *(sys.executable, "-m", "pip", "download", "--no-index", "--no-deps"),
            *("--only-binary=:all:", "--implementation", "cp", "--python-version", python),
            *(
                *platforms,
                "--dest",
                str(folder / "target"),
                "--find-links",
                str(place / "wheels"),
            ),
            *("--requirement", str(place / "wheels" / f"{system.seen_as}-{python}.txt")),
        ],
        capture_output=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr.decode()


SAID = (["doctor"], ["trend", "maren"], ["day"], ["drills", "check"], ["manual"])


def test_the_program_needs_no_python(folder: Path, home: Home) -> None:
    if sys.platform == "win32":
        pytest.skip("the screen is tried on a POSIX terminal")
    _skip_without("pyinstaller", folder)
    made = build_program(build_wheel(folder), folder)
    place = unpack(made, folder / PLACE)
    assert _told_hosts(place) == []
    program = (str(place / "courtlog"),)
    shutil.rmtree(folder / "environment")
    assert home.run("demo", program=program).lines[0].startswith("Harbour Week · day 3")
    usage, *commands = home.run("--help", program=program).lines
    assert usage.startswith("Usage: courtlog [OPTIONS] ")
    assert commands == home.run("--help").lines[1:]  # in a test the program has another name
    assert home.run("sheet", "in", HARBOUR, program=program).code == 0
    for words in SAID:
        assert home.run(*words, program=program) == home.run(*words)
    _rate_a_ball([*program, "demo"], home)
    _try_without_kernel(place, home)


def _rate_a_ball(argv: Sequence[str], home: Home) -> None:
    """On a terminal: the demo court opens, a ball is rated and counted, and the program is left."""
    # Windows has no such terminals, and no modules for them.
    from tests.bench.machine import installed
    from tests.terminal.console import Console

    with Console(argv, installed(home.folder)) as console:
        console.wait_for("? help")
        console.press(b"'")
        console.wait_for("next up")
        console.press(b" ")
        console.wait_for("taken: turn made, spacing made, finish made")  # or tough, by the draw
        assert console.quit() == 0


def _try_without_kernel(place: Path, home: Home) -> None:
    """On a system that plotext has no compiled part for, only the charts are missing."""
    (kernel,) = (path for path in place.rglob("kernel.*") if path.suffix != ".cpp")
    chart = home.run("trend", "maren").lines
    kernel.unlink()
    program = (str(place / "courtlog"),)
    said = home.run("trend", "maren", program=program).lines
    assert [line for line in said if line not in chart] == []
    assert any("┤" in line for line in chart)
    assert not any("┤" in line for line in said)
    assert home.run("doctor", program=program).lines[1].startswith("No charts are drawn here")
