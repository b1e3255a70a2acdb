"""Whether a change is the same in all kinds of ball, and the odds ratio they have in common."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf, sqrt

from courtlog.measures.common.chances import chi_square_tail
from courtlog.measures.shares.strata import Stratum, shared

UNEQUAL = 0.10
"""Below this p-value a change is told to differ; the test finds little in few balls."""


@dataclass(frozen=True, slots=True)
class Homogeneity:
    """Whether the change is alike in all kinds: Tarone's statistic, and the one he corrected."""

    statistic: float
    df: int
    p: float
    breslow_day: float


def odds_ratio(strata: Sequence[Stratum]) -> float | None:
    """Mantel-Haenszel odds ratio; None when it is undefined (everything made, or missed).

    Source: Mantel N and Haenszel W 1959, JNCI 22:719-748.
    """
    rise = fall = 0.0
    for stratum in shared(strata):
        n = stratum.seen_late + stratum.seen_early
        rise += stratum.made_late * (stratum.seen_early - stratum.made_early) / n
        fall += stratum.made_early * (stratum.seen_late - stratum.made_late) / n
    if not fall:
        return inf if rise else None
    return rise / fall


def same_in_all(strata: Sequence[Stratum]) -> Homogeneity | None:
    """Breslow-Day test with Tarone's correction; None with fewer than two kinds that can vary.

    Sources: Breslow NE and Day NE 1980, Statistical Methods in Cancer Research 1; Tarone RE 1985,
    Biometrika 72:91-95 (both from memory).
    """
    common = odds_ratio(strata)
    varied = [
        stratum
        for stratum in shared(strata)
        if 0 < stratum.made_late + stratum.made_early < stratum.seen_late + stratum.seen_early
    ]
    if common in (None, 0.0, inf) or len(varied) < 2:
        return None
    breslow_day = off = variance = 0.0
    for stratum in varied:
        n1, n2 = stratum.seen_late, stratum.seen_early
        made = stratum.made_late + stratum.made_early
        expected = _expected_made(n1, n2, made, common)
        spread = 1 / (
            1 / expected + 1 / (n1 - expected) + 1 / (made - expected) + 1 / (n2 - made + expected)
        )
        breslow_day += (stratum.made_late - expected) ** 2 / spread
        off += stratum.made_late - expected
        variance += spread
    statistic = max(breslow_day - off * off / variance, 0.0)
    df = len(varied) - 1
    return Homogeneity(statistic, df, chi_square_tail(statistic, df), breslow_day)


def _expected_made(n1: int, n2: int, made: int, ratio: float) -> float:
    """Later balls made, totals held fixed, at which the odds ratio of the kind is `ratio`.

    The root of a quadratic that lies within the totals, by the form that loses no digits.
    """
    a, b, c = 1 - ratio, n2 - made + ratio * (n1 + made), -ratio * n1 * made
    root = sqrt(b * b - 4 * a * c)
    return 2 * c / (-b - root) if b > 0 else (root - b) / (2 * a)
