"""Is it rising day by day, and do the grades rise: trends and graded comparisons.

A trend over practice rounds is one of performance, not of learning: use each day's first round.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

import numpy as np

from courtlog.measures.common.arguments import finite, made_of_seen
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


@dataclass(frozen=True, slots=True)
class Jonckheere:
    """Pairs in rising order across the groups, what luck alone gives, z and two-sided p."""

    statistic: float
    mean: float
    variance: float
    z: float
    p: float


@dataclass(frozen=True, slots=True)
class Dominance:
    """How much more often a later ball beats an earlier one than the reverse, -1..1.

    `u` is the Mann-Whitney count, z and p are corrected for ties and by one half.
    """

    delta: float
    u: float
    z: float
    p: float


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


def jonckheere(groups: Sequence[Sequence[float]]) -> Jonckheere | None:
    """Ordered trend of grades over three or more days, ties allowed; empty days drop out.

    None with fewer than two days left or when all grades are one. Source: Jonckheere AR 1954,
    Biometrika 41:133-145; Terpstra TJ 1952 (both from memory); the same p as Kendall's tau-b.
    """
    kept = [sorted(finite(v, "A grade") for v in group) for group in groups if len(group)]
    statistic = sum(
        _wins(later, earlier) for place, earlier in enumerate(kept) for later in kept[place + 1 :]
    )
    sizes = [len(group) for group in kept]
    ties = list(Counter(value for group in kept for value in group).values())
    n = sum(sizes)
    mean = (n * n - sum(size * size for size in sizes)) / 4

    def cubes(counts: Sequence[int]) -> int:
        return sum(c * (c - 1) * (2 * c + 5) for c in counts)

    def triples(counts: Sequence[int]) -> int:
        return sum(c * (c - 1) * (c - 2) for c in counts)

    def doubles(counts: Sequence[int]) -> int:
        return sum(c * (c - 1) for c in counts)

    variance = (cubes([n]) - cubes(sizes) - cubes(ties)) / 72
    if n > 2:
        variance += triples(sizes) * triples(ties) / (36 * n * (n - 1) * (n - 2))
        variance += doubles(sizes) * doubles(ties) / (8 * n * (n - 1))
    if len(kept) < 2 or len(ties) < 2:
        return None
    z = (statistic - mean) / sqrt(variance)
    return Jonckheere(statistic, mean, variance, z, normal_two_sided(z))


def cliffs_delta(late: Sequence[float], early: Sequence[float]) -> Dominance | None:
    """Graded comparison of two sets of balls; None when either is empty.

    All grades alike give 0 and p = 1. Equals Somers' d of grade on day. Sources: Cliff N 1993,
    Psychol Bull 114:494-509; Mann HB and Whitney DR 1947 (both from memory).
    """
    a, b = ([finite(v, "A grade") for v in side] for side in (late, early))
    if not a or not b:
        return None
    u = _wins(a, b)
    pairs, n = len(a) * len(b), len(a) + len(b)
    ties = sum(t**3 - t for t in Counter([*a, *b]).values())
    variance = pairs / 12 * ((n + 1) - ties / (n * (n - 1)))
    off = u - pairs / 2
    z = 0.0
    if variance > 0:
        z = max(abs(off) - 0.5, 0.0) / sqrt(variance) * (1 if off > 0 else -1)
    return Dominance(2 * u / pairs - 1, u, z, normal_two_sided(z))


def _wins(a: Sequence[float], b: Sequence[float]) -> float:
    """Pairs in which a's value is higher, a tie counting one half."""
    counts_a, counts_b = Counter(a), Counter(b)
    return sum(
        times_a * times_b * (1.0 if x > y else 0.5)
        for x, times_a in counts_a.items()
        for y, times_b in counts_b.items()
        if x >= y
    )
