"""Shares and differences in words: parts of the balls, and balls in every 100.

People read counts and natural frequencies better than percentages (Gigerenzer G, Hoffrage U 1995,
Psychol Rev 102:684-704). A word for a chance needs its number beside it (Budescu DV, Por HH,
Broomell SB 2012, Clim Change 113:181-200).
"""

from __future__ import annotations

from courtlog.measures.common.hundredths import hundredths
from courtlog.plain_text import many

_PARTS = (
    (3, "hardly any"),
    (7, "a twentieth"),
    (15, "a tenth"),
    (22, "a fifth"),
    (29, "a quarter"),
    (36, "a third"),
    (44, "two fifths"),
    (55, "half"),
    (63, "three fifths"),
    (70, "two thirds"),
    (77, "three quarters"),
    (85, "four fifths"),
    (96, "nine tenths"),
    (100, "all"),
)
"""Each part of the balls is named up to this many hundredths, so that the nearest name is told."""


def balls_of(made: int, seen: int) -> str:
    """`6 of 19 balls`, `1 of 1 ball`."""
    return f"{made} of {many(seen, 'ball')}"


def part(share: float) -> str:
    """A share of 0 to 1 as the nearest part: `a fifth`."""
    whole = hundredths(share)
    return next(name for most, name in _PARTS if whole <= most)


def between_parts(low: float, high: float) -> str:
    """Two shares as a range: `between a fifth and three quarters of the balls`."""
    first, last = part(low), part(high)
    if first == last:
        return f"about {first} of the balls"
    return f"between {first} and {last} of the balls"


def more_or_fewer(change: float) -> str:
    """`53 more`, `4 fewer`, or `as many`."""
    whole = hundredths(change)
    return f"{abs(whole)} {'more' if whole > 0 else 'fewer'}" if whole else "as many"
