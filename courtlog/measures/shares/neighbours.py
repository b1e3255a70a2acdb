"""How far neighbouring balls go alike, and how many independent balls they are worth."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import sqrt

from courtlog.measures.common.arguments import finite, grades_of, whole, within
from courtlog.measures.common.enough import Level, Question, level

MADE = 2
SURE = 2.0
"""Standard errors from none at which neighbours are said to go alike: 1 record in 40 by luck."""
LARGEST = 0.5
"""A correlation beyond it is taken as this one, by which three balls count as one."""
WIDEST = 1 - 1e-12


@dataclass(frozen=True, slots=True)
class Neighbours:
    """Correlation (0 to 1) of a ball with the next one of its round, where it is more than luck."""

    correlation: float

    @property
    def inflation(self) -> float:
        """How much more a share of such balls varies than one of independent balls."""
        return (1 + self.correlation) / (1 - self.correlation)

    def worth(self, balls: int) -> float:
        """Independent balls that these tied ones are worth, n (1 - r) / (1 + r)."""
        return worth_about(balls, self.correlation)


def widened(confidence: float, tie: Neighbours | None) -> float:
    """The confidence for a plain interval over these balls; the same where they are not tied."""
    if tie is None:
        return confidence
    # Only tied balls need them, and the court would load them at every start.
    from courtlog.measures.common.chances import STANDARD_NORMAL, normal_quantile

    quantile = normal_quantile(confidence) * sqrt(tie.inflation)
    return min(2 * STANDARD_NORMAL.cdf(quantile) - 1, WIDEST)


def worth_about(balls: int, correlation: float) -> float:
    """Independent balls that n tied ones are worth, n (1 - r) / (1 + r).

    Never more than n: a negative correlation may not narrow an interval.
    """
    balls, tie = whole(balls, "balls"), within(correlation, "correlation", -1, 1)
    return balls * (1 - tie) / (1 + tie) if tie > 0 else float(balls)


def neighbours(rounds: Iterable[Sequence[int | None]], sure: float = SURE) -> Neighbours | None:
    """Whether neighbours of one round go alike, over grades (0, 1, 2, None) round by round.

    The order of a round's balls is compared with all orders of them (Wald A and Wolfowitz J 1943,
    Ann Math Stat 14:378-388). None below 100 seen balls, or where luck would do.
    """
    together = expected = pairs = seen = 0.0
    for grades in rounds:
        made = [None if grade is None else float(grade == MADE) for grade in grades_of(grades)]
        known = [one for one in made if one is not None]
        seen += len(known)
        beside = [(a, b) for a, b in pairwise(made) if a is not None and b is not None]
        if not beside:
            continue
        mean = sum(known) / len(known)
        spread = sum((one - mean) ** 2 for one in known) / len(known)
        # In a random order two balls of a round correlate by -1 / (n - 1).
        by_order = spread / (len(known) - 1)
        together += sum((a - mean) * (b - mean) + by_order for a, b in beside)
        expected += spread * len(beside)
        pairs += len(beside)
    return tie_of_sums(int(seen), int(pairs), together, expected, sure)


def tie_of_sums(
    seen: int, pairs: int, together: float, expected: float, sure: float = SURE
) -> Neighbours | None:
    """The same from the sums over all rounds: seen balls, neighbours both seen, and two more.

    `together` is by how much neighbours go with one another beyond a random order. `expected` is
    what it would be if each ball were as the one before.
    """
    if level(Question.NEIGHBOURS, seen) is Level.REFUSE or not expected:
        return None
    tie = together / expected
    if tie <= finite(sure, "sure") / sqrt(pairs):
        return None
    return Neighbours(min(tie, LARGEST))
