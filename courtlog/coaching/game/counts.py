"""Counts of one cue over some balls, and a share in words."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from courtlog.coaching.game.grades import Grade
from courtlog.measures.common.enough import Level, Question, level
from courtlog.measures.common.hundredths import hundredths


@dataclass(frozen=True, slots=True)
class Counts:
    """How many balls were missed, near, made and not seen on one cue."""

    missed: int = 0
    near: int = 0
    made: int = 0
    unseen: int = 0

    @classmethod
    def of(cls, grades: Iterable[Grade | None]) -> Counts:
        """Counts of these grades."""
        count = list(grades).count
        return cls(count(Grade.MISSED), count(Grade.NEAR), count(Grade.MADE), count(None))

    def __add__(self, other: Counts) -> Counts:
        return Counts(
            self.missed + other.missed,
            self.near + other.near,
            self.made + other.made,
            self.unseen + other.unseen,
        )

    def __sub__(self, other: Counts) -> Counts:
        return Counts(
            self.missed - other.missed,
            self.near - other.near,
            self.made - other.made,
            self.unseen - other.unseen,
        )

    @property
    def seen(self) -> int:
        """Balls with a grade; the denominator of every share."""
        return self.missed + self.near + self.made

    @property
    def share(self) -> float | None:
        """Made of seen, 0 to 1 (near counts as not made); None when nothing was seen."""
        return self.made / self.seen if self.seen else None

    def of_words(self) -> str:
        """`14 of 20`, or `none` when nothing was seen."""
        return f"{self.made} of {self.seen}" if self.seen else "none"

    def percent_words(self) -> str:
        """`70%`, or nothing where the balls are too few to bear a percentage."""
        return _percent_words(self.made, self.seen)

    def words(self) -> str:
        """`14 of 20 (70%)`, `3 of 4`, or `none`."""
        percent = self.percent_words()
        return f"{self.of_words()} ({percent})" if percent else self.of_words()


def total(counts: Iterable[Counts]) -> Counts:
    """The sum of these counts."""
    return sum(counts, Counts())


@lru_cache(512)  # a round comes back to the same counts, and asks with every ball
def _percent_words(made: int, seen: int) -> str:
    if not seen or level(Question.RATE, seen) is Level.REFUSE:
        return ""
    return f"{hundredths(Fraction(made, seen))}%"
