"""A zip for each system: courtlog and all it needs as wheels, and a file to double-click.

Each is for several Pythons, since nobody knows which of them a borrowed laptop has. Only numpy and
pydantic-core differ by it.
"""

from __future__ import annotations

import hashlib
import stat
import subprocess
import sys
import zipfile
from collections.abc import Sequence
from functools import cache
from pathlib import Path

from packaging.utils import parse_wheel_filename

from courtlog import __version__
from tests.kit.closure import Closure, closure
from tests.kit.systems import System

ROOT = Path(__file__).parents[2]
INSIDE = Path(__file__).with_name("inside")
FOLDER = "courtlog"
"""The one folder in a zip."""

_YEAR_ZERO = (1980, 1, 1, 0, 0, 0)
"""The earliest moment that a zip can hold, so that the same wheels make the same zip."""


class KitError(Exception):
    """What could not be built, in a sentence."""


def build_wheel(folder: Path) -> Path:
    """Courtlog's own wheel. Raises KitError."""
    folder.mkdir(parents=True, exist_ok=True)
    for old in folder.glob("courtlog-*.whl"):
        old.unlink()
    quietly(*(sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", folder, ROOT))
    (wheel,) = folder.glob("courtlog-*.whl")
    return wheel


def build_zip(system: System, pythons: Sequence[str], wheel: Path, folder: Path) -> Path:
    """The zip of a system for these Pythons, from the package index. Raises KitError."""
    lists: dict[str, str] = {}
    wheels: set[Path] = set()
    for python in pythons:
        place = folder / "wheels" / f"{system.name}-{python}"
        found = _download(system, python, wheel, place)
        lists[f"{system.seen_as}-{python}.txt"] = _pins(found)
        wheels |= {*found.wheels, *place.glob("pip-*.whl")}
    zip_file = folder / f"courtlog-{__version__}-{system.name}.zip"
    with zipfile.ZipFile(zip_file, "w") as out:
        for name, text in {**texts(system, pythons), **lists}.items():
            inner = f"wheels/{name}" if name in lists else name
            _add(out, inner, text.encode(), 0o755 if name == system.starter else 0o644)
        for path in {each.name: each for each in sorted(wheels)}.values():
            _add(out, f"wheels/{path.name}", path.read_bytes(), 0o644)
    return zip_file


def _download(system: System, python: str, wheel: Path, folder: Path) -> Closure:
    """Fetch what is needed, and again with what pip could not know of (see `closure`)."""
    folder.mkdir(parents=True, exist_ok=True)
    for old in folder.glob("*.whl"):
        old.unlink()
    name, version, _, _ = parse_wheel_filename(wheel.name)
    wanted = [str(wheel), "pip"]
    platforms = [word for platform in system.platforms for word in ("--platform", platform)]
    while True:
        quietly(
            *(sys.executable, "-m", "pip", "download", "--quiet", "--only-binary=:all:"),
            *("--implementation", "cp", "--python-version", python, *platforms),
            *("--dest", str(folder), *wanted),
        )
        found = closure(f"{name}=={version}", folder.glob("*.whl"), system, python)
        missing = [each for each in found.unmet if each not in wanted]
        if not missing:
            break
        wanted += missing
    if found.unmet:
        raise KitError(f"{system.name}, Python {python}: no wheel for {', '.join(found.unmet)}.")
    return found


def _pins(found: Closure) -> str:
    """What pip installs, each with the hash of its one wheel."""
    lines = []
    for wheel in found.wheels:
        name, version, _, _ = parse_wheel_filename(wheel.name)
        lines.append(f"{name}=={version} --hash=sha256:{_digest(wheel)}\n")
    return "".join(lines)


@cache
def _digest(wheel: Path) -> str:
    return hashlib.sha256(wheel.read_bytes()).hexdigest()


def texts(system: System, pythons: Sequence[str]) -> dict[str, str]:
    """The files beside the wheels by name, with the ends of lines that the system has."""
    first, last = pythons[0], pythons[-1]
    some = f"Python {first} to {last}" if first != last else f"Python {first}"
    values = {
        "@VERSION@": __version__,
        "@WORDS@": system.words,
        "@UNPACKING@": system.unpacking,
        "@STARTER@": system.starter,
        "@TYPED@": system.typed,
        "@PYTHON@": system.where_python,
        "@NO_PYTHON@": _no_python(system, some),
        "@PYTHONS@": " ".join(reversed(pythons)),
        "@SOME@": some,
        "@MORE@": system.more,
    }
    source = "courtlog.bat" if system.sys_platform == "win32" else "courtlog.sh"
    texts = {
        "README.txt": (INSIDE / "README.txt").read_text(encoding="utf-8"),
        "start.py": (INSIDE / "start.py").read_text(encoding="utf-8"),
        system.starter: (INSIDE / source).read_text(encoding="utf-8"),
    }
    for name, text in texts.items():
        for mark, value in values.items():
            text = text.replace(mark, value)
        texts[name] = text.replace("\n", "\r\n") if system.sys_platform == "win32" else text
    return texts


def _no_python(system: System, some: str) -> str:
    """What is said where no Python fits, and what to do."""
    missing = f"Courtlog needs a 64-bit {some}, and there is none here."
    return f"{missing} {system.where_python} Install it, then start courtlog again."


def _add(out: zipfile.ZipFile, name: str, data: bytes, mode: int) -> None:
    entry = zipfile.ZipInfo(f"{FOLDER}/{name}", _YEAR_ZERO)
    entry.create_system = 3  # UNIX, so that the mode counts
    entry.external_attr = (0o100000 | mode) << 16
    entry.compress_type = zipfile.ZIP_STORED if name.endswith(".whl") else zipfile.ZIP_DEFLATED
    out.writestr(entry, data)


def unpack(zip_file: Path, folder: Path) -> Path:
    """The one folder of a zip, unpacked with the rights of its files."""
    folder.mkdir(parents=True)
    with zipfile.ZipFile(zip_file) as opened:
        for entry in opened.infolist():
            mode, path = entry.external_attr >> 16, folder / entry.filename
            if stat.S_ISLNK(mode):
                path.parent.mkdir(parents=True, exist_ok=True)
                path.symlink_to(opened.read(entry).decode())
            else:
                Path(opened.extract(entry, folder)).chmod(mode & 0o777)
    return folder / FOLDER


def quietly(*command: str | Path, folder: Path | None = None) -> None:
    """Run a command; what it says is heard where it fails. Raises KitError."""
    done = subprocess.run([*map(str, command)], cwd=folder, capture_output=True, check=False)
    if done.returncode:
        words = (done.stdout + done.stderr).decode(errors="replace")
        raise KitError(f"{Path(command[0]).name} {command[2]} failed.\n{words}")
