"""Second ratings from a text file, a ball a line. Mistakes are values.

A line is `09:31:07 Maren 212`, or `7 212` for a clip of a blind page.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import time
from typing import TypeVar

from courtlog.errors import LibraryError, Problem
from courtlog.library import sheet_values

Line = TypeVar("Line")


@dataclass(frozen=True, slots=True)
class SecondLine:
    """One line: its number, when the ball was hit by the clock, whose it was, and its token."""

    number: int
    clock: time
    player: str
    token: str


@dataclass(frozen=True, slots=True)
class BlindLine:
    """One line: its number, the number of a clip on a blind page, and the ball's token."""

    number: int
    clip: int
    token: str


def read_seconds(text: str, file: str) -> list[SecondLine]:
    """Every line that is not blank. Raises LibraryError with every mistake."""
    return _read(text, file, _line)


def read_blind(text: str, file: str) -> list[BlindLine]:
    """The same of a blind page's paper. Raises LibraryError with every mistake."""
    return _read(text, file, _blind_line)


def _read(text: str, file: str, line_of: Callable[[int, list[str]], Line]) -> list[Line]:
    lines, problems = [], []
    for number, line in enumerate(text.splitlines(), 1):
        try:
            if line.strip():
                lines.append(line_of(number, line.split()))
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


def _blind_line(number: int, words: list[str]) -> BlindLine:
    if len(words) != 2 or not re.fullmatch("[0-9]{1,4}", words[0]):
        raise ValueError("a line is the number of a clip and a ball, like 7 212")
    return BlindLine(number, int(words[0]), words[1])
