"""Players and voices that are small shell scripts on a PATH of their own; none makes a sound."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

WELL = "exit 0"
FAILS = "exit 1"
HANGS = 'read -r never <> "$FOLDER/never"'
HANGS_WITH_A_CHILD = '(read -r never <> "$FOLDER/never") & wait'
PRINTS_MUCH = (
    'i=0; while [ $i -lt 20000 ]; do printf "%0100d" 0; printf "%0100d" 0 >&2; i=$((i+1)); done'
)
WAITS = 'echo "$$" > "$FOLDER/begun"; read -r go < "$FOLDER/go"'
HEARS_ALL = (
    'while read -r line || [ -n "$line" ]; do printf "%s\\n" "$line" >> "$FOLDER/heard"; done'
)
CANNOT_START = None
"""What a program does once it has written down that it was called; None starts nowhere."""

MOST_LOOKS = 100_000


@dataclass(frozen=True, slots=True)
class FakePrograms:
    """A folder of programs, and what they wrote down of each call."""

    folder: Path

    @classmethod
    def in_folder(cls, folder: Path) -> FakePrograms:
        """No program yet, in a new folder."""
        (folder / "bin").mkdir(parents=True)
        if sys.platform == "win32":
            pytest.skip("a script is no program there")
        for pipe in ("never", "go", "begun"):
            os.mkfifo(folder / pipe)
        return cls(folder)

    def put(self, name: str, does: str | None) -> None:
        """A program of this name on the PATH."""
        path = self.folder / "bin" / name
        if does is None:
            path.write_text("#!/no/such/interpreter\n")
        else:
            note = f'echo "$$ {name} $*" >> "$FOLDER/calls"'
            path.write_text(f'#!/bin/sh\nFOLDER="{self.folder}"\n{note}\n{does}\n')
        path.chmod(0o700)

    @property
    def calls(self) -> list[str]:
        """Each call: the program's name and the file that it was to play, or its options."""
        lines = [line.split(" ", 1)[1] for line in self._calls()]
        return [line.replace(f"{self.folder}/sounds/", "").strip() for line in lines]

    @property
    def left(self) -> list[int]:
        """Those called that are still there, running or unreaped, by their numbers."""
        numbers = [int(line.split()[0]) for line in self._calls()]
        return [number for number in numbers if _is_there(number)]

    def hangs(self) -> bool:
        """Whether anything still waits for what never comes; what was killed gets time to go."""
        if sys.platform == "win32":
            pytest.skip("a script is no program there")
        for _ in range(MOST_LOOKS):
            try:
                os.close(os.open(self.folder / "never", os.O_WRONLY | os.O_NONBLOCK))
            except OSError:  # nobody reads at the other end
                return False
            os.sched_yield()
        return True

    def heard(self) -> str:
        """What voices that hear all got on their input."""
        path = self.folder / "heard"
        return path.read_text() if path.exists() else ""

    def wait_until_one_plays(self) -> None:
        """Come back when a player that waits was started."""
        (self.folder / "begun").read_text()

    def let_play_on(self) -> None:
        """Let the player that waits come to its end."""
        (self.folder / "go").write_text("go\n")

    def _calls(self) -> Iterator[str]:
        path = self.folder / "calls"
        yield from path.read_text().splitlines() if path.exists() else ()


def _is_there(number: int) -> bool:
    try:
        os.kill(number, 0)
    except ProcessLookupError:
        return False
    return True
