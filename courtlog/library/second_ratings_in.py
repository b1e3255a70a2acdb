"""Second ratings from a text file: `09:31:07 Maren 212`, a ball a line. Mistakes are values."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import time

from courtlog.errors import LibraryError, Problem
from courtlog.library import sheet_values


@dataclass(frozen=True, slots=True)
class SecondLine:
    """One line: its number, when the ball was hit by the clock, whose it was, and its token."""

    number: int
    clock: time
    player: str
    token: str


def read_seconds(text: str, file: str) -> list[SecondLine]:
    """Every line that is not blank. Raises LibraryError with every mistake."""
    lines, problems = [], []
    for number, line in enumerate(text.splitlines(), 1):
        try:
            if line.strip():
                lines.append(_line(number, line.split()))
        except ValueError as error:
            problems.append(Problem(file, str(number), f"{error}."))
    if problems:
        raise LibraryError(
            "The file has mistakes; nothing was written.", problems, "Mend them and read it again."
        )
    return lines


def _line(number: int, words: list[str]) -> SecondLine:
    if len(words) < 3:
        raise ValueError("a line is a time, a player and a ball, like 09:31:07 Maren 212")
    clock, *name, token = words
    return SecondLine(number, sheet_values.clock(clock), " ".join(name), token)
