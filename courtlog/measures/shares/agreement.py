"""Agreement of two ratings of the same balls, by two coaches or by one coach twice."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from math import comb, sqrt
from typing import Literal

from courtlog.measures.common.arguments import finite, grades_of, whole
from courtlog.measures.common.chances import normal_quantile

Weights = Literal["linear", "quadratic"]

KEYS = 3
"""Missed, near, made."""
FEWEST_CHANGES = 6
"""Fewer changed balls cannot reach 0.05 in an exact test."""
DOUBT = 0.05
LEAST_KAPPA, LEAST_AC2 = 0.4, 0.9
"""Below both of these a cue is not seen the same way twice, and bears no verdict.

Kappa alone doubts a pair that sees 8 balls of 10 in a quarter of goes where 95% are made. AC2 alone
is low for a good pair where half are made. `python -m tests.claims --world raters` has the table.
"""

_WORDS = ((0.8, "very good"), (0.6, "good"), (0.4, "moderate"), (0.2, "fair"))


@dataclass(frozen=True, slots=True)
class Agreement:
    """Agreement beyond luck, at most 1, with its interval and standard error; `balls` rated twice.

    `observed` is the plain share of balls rated alike (or nearly, as weighted).
    """

    value: float
    low: float
    high: float
    se: float
    observed: float
    balls: int


@dataclass(frozen=True, slots=True)
class Drift:
    """Balls rated stricter and looser the second time, with exact p and mid-p that both are luck.

    `enough` is False below six changes: no drift seen, too few changes to tell.
    """

    stricter: int
    looser: int
    p: float
    mid_p: float
    direction: Literal["stricter", "looser"] | None
    enough: bool

    @property
    def drifted(self) -> bool:
        """Whether the rating moved, by the exact p."""
        return self.enough and self.p < DOUBT


def raw_agreement(a: Sequence[int | None], b: Sequence[int | None]) -> float | None:
    """Share of balls seen by both and rated alike; None when there is none."""
    both = _both_seen(a, b)
    return sum(x == y for x, y in both) / len(both) if both else None


def kappa(
    a: Sequence[int | None],
    b: Sequence[int | None],
    weights: Weights | None = None,
    categories: int = KEYS,
    confidence: float = 0.95,
) -> Agreement | None:
    """Cohen's kappa of two raters of the same balls, grades 0 .. categories - 1, None not seen.

    None without a ball seen by both, or when both used one and the same key. Sources: Cohen J 1960,
    Educ Psychol Meas 20:37-46, weighted 1968; standard error of Fleiss JL, Cohen J and Everitt BS
    1969, Psychol Bull 72:323-327.
    """
    z, keys = normal_quantile(confidence), range(whole(categories, "categories", 2))
    both = _both_seen(a, b, categories)
    if not both:
        return None
    n = len(both)
    cells = {pair: count / n for pair, count in Counter(both).items()}
    rows = [sum(cells.get((i, j), 0.0) for j in keys) for i in keys]
    columns = [sum(cells.get((i, j), 0.0) for i in keys) for j in keys]
    w = [[_weight(i, j, weights, categories) for j in keys] for i in keys]
    observed = sum(w[i][j] * share for (i, j), share in cells.items())
    by_luck = sum(w[i][j] * rows[i] * columns[j] for i in keys for j in keys)
    if 1 - by_luck < 1e-12:
        return None
    value = (observed - by_luck) / (1 - by_luck)
    row_w = [sum(columns[j] * w[i][j] for j in keys) for i in keys]
    column_w = [sum(rows[i] * w[i][j] for i in keys) for j in keys]
    spread = sum(
        share * (w[i][j] - (row_w[i] + column_w[j]) * (1 - value)) ** 2
        for (i, j), share in cells.items()
    )
    variance = (spread - (value - by_luck * (1 - value)) ** 2) / (n * (1 - by_luck) ** 2)
    return _agreement(value, sqrt(max(variance, 0.0)), z, observed, n)


def gwet_ac(
    a: Sequence[int | None],
    b: Sequence[int | None],
    weights: Weights | None = None,
    categories: int = KEYS,
    confidence: float = 0.95,
) -> Agreement | None:
    """Gwet's AC1, or AC2 with weights: for cues where one key holds most balls and kappa misleads.

    `categories` counts the keys there are, not the keys used. None without a ball seen by both.
    Source: Gwet KL 2008, Br J Math Stat Psychol 61:29-48.
    """
    z, keys = normal_quantile(confidence), range(whole(categories, "categories", 2))
    both = _both_seen(a, b, categories)
    if not both:
        return None
    n = len(both)
    w = [[_weight(i, j, weights, categories) for j in keys] for i in keys]
    share = [sum((x == k) + (y == k) for x, y in both) / (2 * n) for k in keys]
    observed = sum(w[x][y] for x, y in both) / n
    luck = sum(map(sum, w)) / (categories * (categories - 1))
    by_luck = luck * sum(p * (1 - p) for p in share)
    value = (observed - by_luck) / (1 - by_luck)
    variance = 0.0
    for x, y in both:
        luck_here = luck * (2 - share[x] - share[y]) / 2
        here = (w[x][y] - by_luck) / (1 - by_luck)
        here -= 2 * (1 - value) * (luck_here - by_luck) / (1 - by_luck)
        variance += (here - value) ** 2
    se = sqrt(variance / (n * (n - 1))) if n > 1 else 0.0
    return _agreement(value, se, z, observed, n)


def drift(first: Sequence[int | None], again: Sequence[int | None]) -> Drift:
    """The same balls rated twice by one coach: whether the eye has become stricter or looser.

    Exact test of McNemar Q 1947, Psychometrika 12:153-157, on the balls that changed; the mid-p
    counts the observed outcome half (both from memory).
    """
    both = _both_seen(first, again)
    stricter = sum(new < old for old, new in both)
    looser = sum(new > old for old, new in both)
    changed, fewer = stricter + looser, min(stricter, looser)
    ways = [comb(changed, k) for k in range(fewer + 1)]
    p = min(2 * sum(ways) / 2**changed, 1.0)
    mid_p = (2 * sum(ways) - ways[-1]) / 2**changed
    direction: Literal["stricter", "looser"] | None = None
    if stricter != looser:
        direction = "stricter" if stricter > looser else "looser"
    return Drift(stricter, looser, p, mid_p, direction, changed >= FEWEST_CHANGES)


def agreement_word(value: float) -> str:
    """A plain word for kappa: poor, fair, moderate, good, very good.

    After Landis JR and Koch GG 1977, Biometrics 33:159-174.
    """
    number = finite(value, "kappa")
    return next((word for least, word in _WORDS if number >= least), "poor")


def bears_verdicts(weighted_kappa: float, ac2: float) -> bool:
    """Whether a cue is seen alike often enough to bear verdicts, by either of the two numbers."""
    by_kappa = finite(weighted_kappa, "weighted_kappa") >= LEAST_KAPPA
    return finite(ac2, "ac2") >= LEAST_AC2 or by_kappa


def _both_seen(
    a: Sequence[int | None], b: Sequence[int | None], categories: int = KEYS
) -> list[tuple[int, int]]:
    first, second = grades_of(a, categories), grades_of(b, categories)
    if len(first) != len(second):
        raise ValueError(
            f"Two ratings of the same balls, but {len(first)} and {len(second)} of them."
        )
    return [(x, y) for x, y in zip(first, second, strict=True) if x is not None and y is not None]


def _weight(i: int, j: int, weights: Weights | None, categories: int) -> float:
    if weights is None:
        return float(i == j)
    if weights not in ("linear", "quadratic"):
        raise ValueError(f"The weights must be linear, quadratic or None, not {weights!r}.")
    apart = abs(i - j) / (categories - 1)
    return 1 - (apart if weights == "linear" else apart * apart)


def _agreement(value: float, se: float, z: float, observed: float, n: int) -> Agreement:
    low, high = max(value - z * se, -1.0), min(value + z * se, 1.0)
    return Agreement(value, low, high, se, observed, n)
