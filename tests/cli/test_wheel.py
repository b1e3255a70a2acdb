"""The wheel carries drills, samples, manual and scripts of pages: built, installed, and run."""

from __future__ import annotations

import subprocess
import sys
import sysconfig
import venv
from pathlib import Path

import pytest

from tests.cli.program import PROJECT, Home, Said

pytestmark = pytest.mark.wheel


def quietly(*command: str | Path) -> None:
    done = subprocess.run([*map(str, command)], capture_output=True, check=False, timeout=300)
    assert done.returncode == 0, (done.stdout + done.stderr).decode()


@pytest.fixture(scope="module")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A clean environment's folder of programs; only the dependencies come from this one."""
    folder = tmp_path_factory.mktemp("wheel")
    quietly(
        *(sys.executable, "-m", "build", "--wheel", "--no-isolation"),
        *("--outdir", folder / "dist", PROJECT),
    )
    (wheel,) = (folder / "dist").glob("courtlog-*.whl")
    home = folder / "venv"
    venv.create(home, with_pip=False)
    scheme = sysconfig.get_preferred_scheme("prefix")
    paths = sysconfig.get_paths(scheme, vars={"base": str(home), "platbase": str(home)})
    python = Path(paths["scripts"]) / Path("python").with_suffix(Path(sys.executable).suffix)
    quietly(
        *(sys.executable, "-m", "pip", "--python", python),
        *("install", "--no-deps", "--no-index", "--no-compile", wheel),
    )
    # After the install, so that it cannot take a courtlog of this environment for its own. Folders
    # named in a .pth file come last, and .pth files inside them are not read: no editable install.
    beside = Path(paths["purelib"]) / "beside.pth"
    beside.write_text(sysconfig.get_path("purelib") + "\n", encoding="utf-8")
    return Path(paths["scripts"])


def run(home: Home, program: Path, *args: str) -> Said:
    return home.run(*args, program=(str(program),), PYTHONPATH="")


def test_courtlog_itself_comes_from_the_wheel(home: Home, installed: Path) -> None:
    look = "import courtlog, courtlog.locations as l; print(courtlog.__file__, l.shipped_drills())"
    (line,) = run(home, installed / "python", "-c", look).lines
    assert all(str(installed.parent) in path for path in line.split())
    assert str(PROJECT / "courtlog") not in line


def test_the_drill_library_ships(home: Home, installed: Path) -> None:
    said = run(home, installed / "courtlog", "drills", "check")
    assert said == home.run("drills", "check")
    assert "no mistakes" in said.lines[0]


def test_the_manual_ships(home: Home, installed: Path) -> None:
    assert run(home, installed / "courtlog", "manual", "care") == home.run("manual", "care")


def test_the_script_of_pages_with_videos_ships(home: Home, installed: Path) -> None:
    look = "from courtlog.reports.stage import stage_page as page; print(page.stage_script()[:12])"
    assert run(home, installed / "python", "-c", look).lines == ['"use strict"']


def test_the_samples_ship(home: Home, installed: Path) -> None:
    said = run(home, installed / "courtlog", "demo")
    assert said == home.run("demo")
    assert said.lines[0].startswith("Harbour Week · day 3")
    assert home.files() == {}
