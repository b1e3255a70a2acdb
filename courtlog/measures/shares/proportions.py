"""The interval of one share, and of the difference of two.

Counts are of seen balls; a ball not seen belongs to no count. Zero seen balls give None, never 0 %.
`newcombe` is what `strata.mover` comes to for one kind of ball: each is the check of the other.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot, sqrt

from courtlog.measures.common.arguments import made_of_seen, whole
from courtlog.measures.common.chances import normal_quantile

UNSEEN_WORTH_PRINTING = 0.20
"""With a larger share of balls not seen, the bounds are printed beside the rate."""


@dataclass(frozen=True, slots=True)
class Interval:
    """The lowest and highest share the balls allow, 0..1."""

    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Difference:
    """Later share minus earlier share, with its interval, all in -1..1."""

    value: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class UnseenBounds:
    """Balls made had every unseen one been missed (least) or made (most), and their shares."""

    least: int
    most: int
    low: float
    high: float
    worth_printing: bool


def wilson(made: int, seen: int, confidence: float = 0.95) -> Interval | None:
    """Score interval of a share; None when nothing was seen.

    Source: Wilson EB 1927, J Am Stat Assoc 22:209-212; method 3 of Newcombe RG 1998, Stat Med
    17:857-872.
    """
    made, seen = made_of_seen(made, seen)
    z = normal_quantile(confidence)
    return Interval(*wilson_limits(made, seen, z)) if seen else None


def wilson_limits(made: int, seen: int, z: float) -> tuple[float, float]:
    """The limits alone, for checked counts (seen > 0) and a normal quantile z."""
    squared = z * z
    centre = (made + squared / 2) / (seen + squared)
    half = z / (seen + squared) * sqrt(made * (seen - made) / seen + squared / 4)
    return (centre - half if made else 0.0), (centre + half if made < seen else 1.0)


def unseen_bounds(made: int, not_made: int, unseen: int) -> UnseenBounds | None:
    """The range of the true share when some balls were not seen; None without any ball."""
    made, missed = whole(made, "made"), whole(not_made, "not_made")
    unseen = whole(unseen, "unseen")
    balls = made + missed + unseen
    if not balls:
        return None
    share = unseen / balls
    most = made + unseen
    return UnseenBounds(made, most, made / balls, most / balls, share > UNSEEN_WORTH_PRINTING)


def newcombe(
    made_late: int, seen_late: int, made_early: int, seen_early: int, confidence: float = 0.95
) -> Difference | None:
    """Hybrid score interval of later minus earlier share; None when either day saw nothing.

    Source: method 10 of Newcombe RG 1998, Stat Med 17:873-890. For balls of different days, which
    are not paired.
    """
    made_late, seen_late = made_of_seen(made_late, seen_late)
    made_early, seen_early = made_of_seen(made_early, seen_early)
    z = normal_quantile(confidence)
    if not seen_late or not seen_early:
        return None
    late, early = made_late / seen_late, made_early / seen_early
    late_low, late_high = wilson_limits(made_late, seen_late, z)
    early_low, early_high = wilson_limits(made_early, seen_early, z)
    value = late - early
    return Difference(
        value,
        value - hypot(late - late_low, early_high - early),
        value + hypot(late_high - late, early - early_low),
    )
