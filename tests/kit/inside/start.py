"""Starts courtlog from this folder. The first time it is installed here, without a network.

`--fits` only tells by its exit code whether this Python can do so. An old one fails over the
lines below, which is a no as well.
"""

from __future__ import annotations

import os
import subprocess
import sys
import sysconfig
from collections.abc import Sequence
from pathlib import Path

HERE = Path(__file__).absolute().parent
WHEELS = HERE / "wheels"
PROGRAM = HERE / "program"
LOG = HERE / "install.txt"


def say(words: str) -> None:
    """Tell the coach, beside what the program prints."""
    print(words, file=sys.stderr, flush=True)


def pins() -> Path:
    """The list of what is installed for this Python; it is there only if the wheels fit."""
    if sys.platform == "win32":
        system = sysconfig.get_platform()
    else:
        system = f"{sys.platform}-{os.uname().machine}"
    threads = "t" if sysconfig.get_config_var("Py_GIL_DISABLED") else ""
    return WHEELS / f"{system}-{sys.version_info[0]}.{sys.version_info[1]}{threads}.txt"


def program_python() -> Path:
    """The Python in the folder of the installed program."""
    place = ("Scripts", "python.exe") if sys.platform == "win32" else ("bin", "python")
    return PROGRAM.joinpath(*place)


def made_of() -> str:
    """What an installation hangs on: this Python and these wheels, by their hashes."""
    return f"{sys.base_prefix}\n{pins().name}\n{pins().read_text(encoding='utf-8')}"


def is_installed(note: Path) -> bool:
    """Whether the whole program is there; the note is written when it is."""
    return note.is_file() and note.read_text(encoding="utf-8") == made_of()


def install() -> bool:
    """Make the program's folder anew. Raises OSError where nothing can be written."""
    import venv  # only needed once

    say("courtlog is being installed in this folder. That takes a minute or two, once.")
    LOG.write_text("", encoding="utf-8")
    venv.create(PROGRAM, clear=True, symlinks=sys.platform != "win32")
    (pip,) = WHEELS.glob("pip-*.whl")
    command: list[str | Path] = [
        *(program_python(), "-I", pip / "pip", "--isolated", "install", "--no-index", "--no-deps"),
        *("--no-compile", "--find-links", WHEELS, "--requirement", pins()),
    ]
    with LOG.open("wb") as log:
        done = subprocess.run(
            command,
            env={**os.environ, "PIP_CONFIG_FILE": os.devnull},
            stdin=subprocess.DEVNULL,
            stdout=log,
            stderr=subprocess.STDOUT,
            check=False,
        )
    return done.returncode == 0


def run(words: Sequence[str]) -> int:
    """Run the program; its exit code."""
    command = [str(program_python()), "-I", "-m", "courtlog", *words]
    if sys.platform != "win32":
        os.execv(command[0], command)
    with subprocess.Popen(command) as program:
        while True:
            try:
                return program.wait()
            except KeyboardInterrupt:
                continue  # the program has an answer of its own to Ctrl+C


def main(words: Sequence[str]) -> int:
    """Install if need be, then start."""
    if not pins().is_file():
        return 1
    if words == ["--fits"]:
        return 0
    note = PROGRAM / "installed.txt"
    try:
        if not is_installed(note):
            if not install():
                say(f"courtlog could not be installed; {LOG} says why. Unpack the zip anew.")
                return 1
            note.write_text(made_of(), encoding="utf-8")
    except OSError as error:
        say(f"Nothing can be installed in {HERE} ({error.strerror}).")
        say("Copy this folder to the laptop's own disk, and start it there.")
        return 1
    return run(words)


if __name__ == "__main__":
    try:
        sys.exit(main(sys.argv[1:]))
    except KeyboardInterrupt:
        sys.exit(130)
