"""The trend of the made share, day by day.

A trend over practice rounds is one of performance, not of learning: use uncoached rounds. Days on
which other drills were played differ in drills, so pages print `mantel`, never the pooled
`cochran_armitage`, which is its check.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import sqrt

import numpy as np

from courtlog.measures.common.arguments import finite, made_of_seen, within
from courtlog.measures.common.chances import normal_two_sided

SCALES = (1, 2, 4, 10, 100)
MOST_WORK = 200_000_000
"""Additions an exact p-value may cost, a tenth of a second or so."""


@dataclass(frozen=True, slots=True)
class Trend:
    """Change of the made share per score step (per day), its z, and two-sided p-values.

    `p_exact` is None where the counts are too large to need it; prefer it where it is given.
    """

    slope: float
    z: float
    p: float
    p_exact: float | None


def cochran_armitage(
    made: Sequence[int], seen: Sequence[int], scores: Sequence[float] | None = None
) -> Trend | None:
    """Linear trend of the made share over days, in order; scores default to 1, 2, 3 ...

    Days without a seen ball drop out. None with fewer than two days left, or when all or none were
    made. Sources: Cochran WG 1954, Biometrics 10:417-451; Armitage P 1955, Biometrics 11:375-386.
    """
    given = list(range(1, len(made) + 1)) if scores is None else list(scores)
    if not len(made) == len(seen) == len(given):
        raise ValueError("made, seen and scores must be equally long.")
    days = [
        (*made_of_seen(x, n), finite(t, "A score"))
        for x, n, t in zip(made, seen, given, strict=True)
        if made_of_seen(x, n)[1]
    ]
    all_made, all_seen = sum(x for x, _, _ in days), sum(n for _, n, _ in days)
    if len(days) < 2 or not 0 < all_made < all_seen:
        return None
    middle = sum(n * t for _, n, t in days) / all_seen
    spread = sum(n * (t - middle) ** 2 for _, n, t in days)
    if not spread:
        return None
    rise = sum(x * (t - middle) for x, _, t in days)
    share = all_made / all_seen
    z = rise / sqrt(share * (1 - share) * spread)
    return Trend(rise / spread, z, normal_two_sided(z), _exact(days, all_made, share))


DayCounts = tuple[int, int, float]
"""Made, seen, and the day's score."""


def mantel(kinds: Iterable[Sequence[DayCounts]], inflation: float = 1.0) -> Trend | None:
    """The linear trend within kinds of ball, summed over kinds; each kind is a list of days.

    A kind seen on one day only, or all made, or all missed, says nothing. None when no kind says
    anything. Source: Mantel N 1963, J Am Stat Assoc 58:690-700; with one kind it is the test of
    Cochran and Armitage with N - 1 for N. `slope` is the common one by least squares.
    `inflation` is how much more balls vary that go as their neighbours do.
    """
    rise = spread = variance = 0.0
    for kind in kinds:
        days = [(*made_of_seen(x, n), finite(t, "A score")) for x, n, t in kind]
        seen, made = sum(n for _, n, _ in days), sum(x for x, _, _ in days)
        if seen < 2:
            continue
        middle = sum(n * t for _, n, t in days) / seen
        around = sum(n * (t - middle) ** 2 for _, n, t in days)
        rise += sum(x * (t - middle) for x, _, t in days)
        spread += around
        variance += made * (seen - made) / (seen * (seen - 1)) * around
    if not variance:
        return None
    z = rise / sqrt(variance * within(inflation, "inflation", 1, 100))
    return Trend(rise / spread, z, normal_two_sided(z), None)


def _exact(days: Sequence[tuple[int, int, float]], all_made: int, share: float) -> float | None:
    """Chance, total makes held fixed, of a score sum at least as far from the middle one.

    Convolves the days' binomial chances over (makes, score sum); the common share cancels.
    """
    lowest = min(t for _, _, t in days)
    scale = next(
        (s for s in SCALES if all(abs(t * s - round(t * s)) < 1e-9 for _, _, t in days)), None
    )
    if scale is None:
        return None
    steps = [round((t - lowest) * scale) for _, _, t in days]
    width = all_made * max(steps) + 1
    if width * sum(min(n, all_made) + 1 for _, n, _ in days) * (all_made + 1) > MOST_WORK:
        return None
    chances = np.zeros((all_made + 1, width))
    chances[0, 0] = 1.0
    for (_, seen, _), step in zip(days, steps, strict=True):
        after = np.zeros_like(chances)
        weight = (1 - share) ** seen
        for made in range(min(seen, all_made) + 1):
            shift = made * step
            after[made:, shift:] += weight * chances[: all_made + 1 - made, : width - shift]
            weight *= (seen - made) / (made + 1) * share / (1 - share)
        chances = after
    sums = np.arange(width)
    middle = (
        all_made
        * sum(n * step for (_, n, _), step in zip(days, steps, strict=True))
        / sum(n for _, n, _ in days)
    )
    here = abs(sum(x * step for (x, _, _), step in zip(days, steps, strict=True)) - middle)
    far = np.abs(sums - middle) >= here - 1e-9
    return float(min(chances[all_made][far].sum() / chances[all_made].sum(), 1.0))
