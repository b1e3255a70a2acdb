"""The program as a user starts it: a home of its own, a pipe at each end, and what it said."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import courtlog
from courtlog import locations

PROJECT = Path(courtlog.__file__).parents[1]
HARBOUR = locations.shipped_samples() / "harbour-week.txt"
WEEKEND = locations.shipped_samples() / "two-court-weekend.txt"
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
            "PYTHONPATH": str(PROJECT),
            "PYTHONDONTWRITEBYTECODE": "1",
            "LC_ALL": "C.UTF-8",
            "TZ": "UTC",
            **more,
        }

    def run(
        self, *args: str | Path, program: Sequence[str] = PROGRAM, stdin: str = "", **env: str
    ) -> Said:
        """Run the program in its home, standard output and standard error being pipes."""
        done = subprocess.run(
            [*program, *map(str, args)],
            cwd=self.folder,
            env=self.environment(**env),
            input=stdin.encode(),
            capture_output=True,
            check=False,
            timeout=60,
        )
        return Said(done.returncode, done.stdout.decode("utf-8"), done.stderr.decode("utf-8"))

    def files(self) -> dict[str, bytes]:
        """Every file under the home, with its bytes."""
        return {
            str(path.relative_to(self.folder)): path.read_bytes()
            for path in sorted(self.folder.rglob("*"))
            if path.is_file()
        }


def home_with(folder: Path, *sheets: Path) -> Home:
    """A home whose book holds these sheets."""
    home = Home(folder)
    for sheet in sheets:
        assert home.run("sheet", "in", sheet).lines
    return home
