"""The program as a user starts it: a home of its own, a pipe at each end, and what it said.

Most runs take place in this process, which saves the half second a start of Python costs; what a
process alone can show (streams, exits, other programs around it) is run as a program.
"""

from __future__ import annotations

import gc
import io
import os
import signal
import subprocess
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from unittest import mock

import courtlog
from courtlog import locations
from courtlog.cli import start
from courtlog.cli.entry import main

PROJECT = Path(courtlog.__file__).parents[1]
HARBOUR = locations.shipped_samples() / "harbour-week.txt"
WEEKEND = locations.shipped_samples() / "two-court-weekend.txt"
_ANSWERED = [
    getattr(signal, name) for name in ("SIGINT", "SIGTERM", "SIGHUP") if hasattr(signal, name)
]
PROGRAM = (sys.executable, "-m", "courtlog")


@dataclass(frozen=True, slots=True)
class Said:
    """How a run ended."""

    code: int
    out: str
    err: str

    @property
    def lines(self) -> list[str]:
        """Lines on standard output; the run went well and said nothing on the other stream."""
        assert (self.code, self.err) == (0, ""), self.err
        return self.out.splitlines()


@dataclass(frozen=True, slots=True)
class Home:
    """A folder that holds the book, the settings and the own drills of nobody."""

    folder: Path

    @property
    def book(self) -> Path:
        """Where the program looks for the book."""
        return self.folder / "book.db"

    @property
    def settings(self) -> Path:
        """Where the program looks for the settings."""
        return self.folder / "settings.json"

    @property
    def drills(self) -> Path:
        """Where the program looks for the own drills."""
        return self.folder / "drills"

    def environment(self, **more: str) -> dict[str, str]:
        """Only what the program needs, so that no run depends on this machine."""
        kept = {name: os.environ[name] for name in ("PATH", "SYSTEMROOT") if name in os.environ}
        return kept | {
            "HOME": str(self.folder),
            "COURTLOG_BOOK": str(self.book),
            "COURTLOG_SETTINGS": str(self.settings),
            "COURTLOG_DRILLS": str(self.drills),
            "COURTLOG_SOUNDS": "",
            "PYTHONPATH": str(PROJECT),
            "PYTHONDONTWRITEBYTECODE": "1",
            "LC_ALL": "C.UTF-8",
            "TZ": "UTC",
            "WT_SESSION": "a terminal of Windows that has every sign",
            **more,
        }

    def run(
        self,
        *args: str | Path,
        program: Sequence[str] = (),
        stdin: str = "",
        terminal: str = "",
        **env: str,
    ) -> Said:
        """Run the command in its home, both streams being pipes: in this process, or as a program.

        With `terminal`, an encoding, what it says goes to a terminal of that encoding.

        Only a new program sees another locale, time zone or interpreter setting.
        """
        if not program and not any(name.startswith(("PYTHON", "LC_", "TZ")) for name in env):
            return self._run_here([str(arg) for arg in args], stdin, terminal, env)
        done = subprocess.run(
            [*(program or PROGRAM), *map(str, args)],
            cwd=self.folder,
            env=self.environment(**env),
            input=stdin.encode(),
            capture_output=True,
            check=False,
            timeout=60,
        )
        return Said(done.returncode, done.stdout.decode("utf-8"), done.stderr.decode("utf-8"))

    def _run_here(self, args: list[str], stdin: str, terminal: str, env: dict[str, str]) -> Said:
        out, err = (_Terminal(terminal) if terminal else _pipe() for _ in range(2))
        code = 0
        with (
            _as_at_the_start(self.folder),
            mock.patch.dict(os.environ, self.environment(**env), clear=True),
            mock.patch.multiple(
                sys, argv=["courtlog", *args], stdin=_pipe(stdin), stdout=out, stderr=err
            ),
        ):
            try:
                main()
            except SystemExit as end:
                code = end.code if isinstance(end.code, int) else int(end.code is not None)
        return Said(code, _said(out), _said(err))

    def files(self) -> dict[str, bytes]:
        """Every file under the home, with its bytes."""
        return {
            str(path.relative_to(self.folder)): path.read_bytes()
            for path in sorted(self.folder.rglob("*"))
            if path.is_file()
        }


def _pipe(text: str = "") -> io.TextIOWrapper:
    return io.TextIOWrapper(io.BytesIO(text.encode()), encoding="utf-8", newline="")


class _Terminal(io.TextIOWrapper):
    """What looks like a terminal of an encoding."""

    def __init__(self, encoding: str) -> None:
        super().__init__(io.BytesIO(), encoding=encoding, newline="")

    def isatty(self) -> bool:
        return True


def _said(pipe: io.TextIOWrapper) -> str:
    pipe.flush()
    said = pipe.buffer
    assert isinstance(said, io.BytesIO)
    return said.getvalue().decode(pipe.encoding)


@contextmanager
def _as_at_the_start(folder: Path) -> Iterator[None]:
    """In this folder; the mask for new files and signals are put back.

    The program stops the sweeping of memory for its short life, which here goes on for all tests.
    """
    here, mask = Path.cwd(), os.umask(0o022)
    answers = {number: signal.getsignal(number) for number in _ANSWERED}
    os.umask(mask)
    os.chdir(folder)
    try:
        with mock.patch.object(start, "gc", mock.Mock(spec=gc)):
            yield
    finally:
        os.chdir(here)
        os.umask(mask)
        for number, answer in answers.items():
            signal.signal(number, answer)


def home_with(folder: Path, *sheets: Path) -> Home:
    """A home whose book holds these sheets."""
    home = Home(folder)
    for sheet in sheets:
        assert home.run("sheet", "in", sheet).lines
    return home
