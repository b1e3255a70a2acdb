"""The three grades of a cue on a ball, and the one table of how each is written and drawn."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum


class Grade(IntEnum):
    """Missed, near or made. Not seen is the absence of a grade, never a miss."""

    MISSED = 0
    NEAR = 1
    MADE = 2


@dataclass(frozen=True, slots=True)
class GradeLook:
    """A grade as a word, as a shape (never a colour alone), in letters, and on a sheet."""

    word: str
    mark: str
    letter_mark: str
    digit: str


LOOKS: dict[Grade | None, GradeLook] = {
    Grade.MISSED: GradeLook("missed", "○", "x", "0"),
    Grade.NEAR: GradeLook("near", "◐", "~", "1"),
    Grade.MADE: GradeLook("made", "●", "#", "2"),
    None: GradeLook("not seen", "·", ".", "-"),
}

DIGITS: dict[str, Grade | None] = {look.digit: grade for grade, look in LOOKS.items()}
