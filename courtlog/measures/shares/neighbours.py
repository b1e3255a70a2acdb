"""The correlation of neighbouring balls, and how many independent balls they are worth.

No page prints it yet.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from courtlog.measures.common.arguments import grades_of, whole, within
from courtlog.measures.common.enough import Level, Question, level


@dataclass(frozen=True, slots=True)
class Neighbours:
    """Correlation of a ball with the next one beyond the curve, and "treat as about N balls"."""

    correlation: float
    worth: float


def worth_about(balls: int, correlation: float) -> float:
    """Independent balls that n tied ones are worth, n (1 - r) / (1 + r).

    Never more than n: a negative correlation may not narrow an interval.
    """
    balls, tie = whole(balls, "balls"), within(correlation, "correlation", -1, 1)
    return balls * (1 - tie) / (1 + tie) if tie > 0 else float(balls)


def neighbours(grades: Sequence[int | None], shares: Sequence[float]) -> Neighbours | None:
    """Lag-one correlation of what the curve (`shares`, one a ball) leaves over.

    A pair counts when both balls were seen. None below 40 seen balls, or when nothing is left over.
    """
    record = grades_of(grades)
    if len(record) != len(shares):
        raise ValueError(f"{len(record)} balls need as many shares, not {len(shares)}.")
    left = [None if g is None else (g == 2) - float(p) for g, p in zip(record, shares, strict=True)]
    seen = [value for value in left if value is not None]
    if level(Question.NEIGHBOURS, len(seen)) is Level.REFUSE:
        return None
    pairs = [(a, b) for a, b in pairwise(left) if a is not None and b is not None]
    spread = sum(value * value for value in seen) / len(seen)
    if not pairs or not spread:
        return None
    tie = sum(a * b for a, b in pairs) / len(pairs) / spread
    tie = max(-1.0, min(1.0, tie))
    return Neighbours(tie, worth_about(len(seen), tie))
