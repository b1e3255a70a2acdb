"""Courtlog as a folder with a program of its own, for a laptop that has no Python.

It runs on the kind of system that it was built on.
"""

from __future__ import annotations

import shutil
import stat
import sys
import sysconfig
import tomllib
import venv
import zipfile
from pathlib import Path

from courtlog import __version__
from tests.kit.wheelhouse import FOLDER, ROOT, quietly

_KERNEL = (".so", ".dylib", ".dll")
"""How plotext's compiled part ends: it lies among sources, where PyInstaller does not look."""

_README = """courtlog {version} for {system}. Nothing needs to be installed, Python neither.

Unpack the whole zip and start `{starter}` in the folder courtlog.
In a terminal, `{starter} --help` lists all commands; `{starter} demo` opens an invented clinic.
The book lies in your own user's folder, not in here.
"""


def build_program(wheel: Path, folder: Path) -> Path:
    """The zipped program for this system. Raises KitError."""
    environment = folder / "environment"
    python = make_environment(wheel, environment)
    packages = Path(
        sysconfig.get_path("purelib", vars={"base": str(environment), "platbase": str(environment)})
    )
    (kernel,) = (
        path for path in (packages / "plotext").rglob("kernel.*") if path.suffix in _KERNEL
    )
    work = folder / "work"
    work.mkdir(exist_ok=True)
    quietly(
        *(python, "-m", "PyInstaller", "--noconfirm", "--clean", "--log-level", "WARN"),
        *("--onedir", "--name", "courtlog", "--specpath", work, "--workpath", work),
        *("--distpath", folder / "program"),
        *("--collect-submodules", "courtlog", "--collect-data", "courtlog"),
        *("--collect-submodules", "textual", "--collect-data", "textual"),
        *("--collect-data", "tzdata"),
        *("--add-binary", f"{kernel}:{kernel.parent.relative_to(packages)}"),
        packages / "courtlog" / "__main__.py",
        folder=work,  # elsewhere it would find the courtlog of this checkout
    )
    system = sysconfig.get_platform()
    starter = "courtlog.exe" if sys.platform == "win32" else "./courtlog"
    readme = _README.format(version=__version__, system=system, starter=starter)
    made = folder / "program" / FOLDER
    (made / "README.txt").write_text(readme, encoding="utf-8")
    zip_file = folder / f"courtlog-{__version__}-program-{system}.zip"
    zip_folder(made, zip_file)
    return zip_file


def zip_folder(made: Path, zip_file: Path) -> None:
    """Zip a folder. Links stay links, or the largest libraries would be in it twice."""
    with zipfile.ZipFile(zip_file, "w", zipfile.ZIP_DEFLATED, compresslevel=6) as out:
        for path in sorted(made.rglob("*")):
            name = path.relative_to(made.parent)
            if path.is_symlink():
                entry = zipfile.ZipInfo(name.as_posix())
                entry.create_system = 3  # UNIX, so that the mode counts
                entry.external_attr = (stat.S_IFLNK | 0o777) << 16
                out.writestr(entry, str(path.readlink()))
            else:
                out.write(path, name)


def make_environment(wheel: Path, folder: Path) -> Path:
    """The Python of an environment with courtlog, what it runs on, and PyInstaller alone.

    From the folder of the wheel, since what is installed by its path keeps that path.
    """
    if folder.exists():
        shutil.rmtree(folder)
    venv.create(folder, with_pip=False, symlinks=sys.platform != "win32")
    place = ("Scripts", "python.exe") if sys.platform == "win32" else ("bin", "python")
    python = folder.joinpath(*place)
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    wanted = [*project["dependencies"], *project["optional-dependencies"]["kit"]]
    install = (sys.executable, "-m", "pip", "--python", python, "install", "--quiet")
    quietly(*install, "--no-compile", "--only-binary=:all:", *wanted)
    quietly(
        *(*install, "--no-compile", "--no-index", "--no-deps", "--find-links", wheel.parent),
        f"courtlog=={__version__}",
    )
    return python
