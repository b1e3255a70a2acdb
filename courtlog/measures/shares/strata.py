"""Like-for-like: later against earlier on the same kinds of ball.

A stratum is one kind of ball (rung, feed, routine or tough) of one player, stroke and cue. A kind
seen on one day only says nothing about change: it is left out, and the share of balls used is told.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import hypot, sqrt
from typing import Literal

from courtlog.measures.common.arguments import finite, made_of_seen
from courtlog.measures.common.chances import normal_quantile
from courtlog.measures.shares.proportions import Difference, wilson_limits


@dataclass(frozen=True, slots=True)
class Stratum:
    """Made and seen balls of one kind, later and earlier."""

    made_late: int
    seen_late: int
    made_early: int
    seen_early: int

    def __post_init__(self) -> None:
        made_of_seen(self.made_late, self.seen_late)
        made_of_seen(self.made_early, self.seen_early)


@dataclass(frozen=True, slots=True, kw_only=True)
class LikeForLike:
    """Later minus earlier share on the same mix of balls."""

    value: float
    """The difference of the two shares, -1 to 1."""
    low: float
    """The lower end of its interval."""
    high: float
    """The upper end of its interval."""
    method: Literal["Klingenberg", "MOVER", "Newcombe"]
    """How the interval was made."""
    standard_late: float
    """The later share on that mix."""
    standard_early: float
    """The earlier share on that mix."""
    share_used: float
    """The shared balls' part of all balls."""
    strata_used: int
    """Kinds of ball seen both times."""
    balls_late: int
    """Shared balls, later."""
    balls_early: int
    """Shared balls, earlier."""
    se: float
    """The standard error of Sato; 0 where every kind was all made or all missed."""


@dataclass(frozen=True, slots=True)
class Standardised:
    """Both shares on the earlier day's mix of shared balls, each with its standard error."""

    late: float
    late_se: float
    early: float
    early_se: float


def shared(strata: Iterable[Stratum]) -> list[Stratum]:
    """The kinds of ball seen on both days."""
    return [stratum for stratum in strata if stratum.seen_late and stratum.seen_early]


def like_for_like(strata: Sequence[Stratum], confidence: float = 0.95) -> LikeForLike | None:
    """Mantel-Haenszel difference of shares with its interval; None when no kind is shared.

    Interval: Klingenberg B 2014, Stat Med 33, on the variance of Sato T 1989, Biometrics 45 (both
    formulas as in the SAS procedure FREQ); `mover` where that collapses (every kind all made or all
    missed) and for a single kind, where it is Newcombe's method 10.
    """
    z = normal_quantile(confidence)
    kept = shared(strata)
    if not kept:
        return None
    weight = late = early = p_sum = q_sum = 0.0
    balls_late = balls_early = 0
    for stratum in kept:
        x1, n1 = stratum.made_late, stratum.seen_late
        x2, n2 = stratum.made_early, stratum.seen_early
        n = n1 + n2
        weight += n1 * n2 / n
        late += n2 * x1 / n
        early += n1 * x2 / n
        p_sum += (n1 * n1 * x2 - n2 * n2 * x1 + n1 * n2 * (n2 - n1) / 2) / (n * n)
        q_sum += (x1 * (n2 - x2) + x2 * (n1 - x1)) / (2 * n)
        balls_late += n1
        balls_early += n2
    value = (late - early) / weight
    variance = max(value * p_sum + q_sum, 0.0) / (weight * weight)
    method: Literal["Klingenberg", "MOVER", "Newcombe"] = "Klingenberg"
    if len(kept) == 1 or not q_sum:
        method = "Newcombe" if len(kept) == 1 else "MOVER"
        weights = [s.seen_late * s.seen_early / (s.seen_late + s.seen_early) for s in kept]
        limits = mover(kept, weights, confidence)
        low, high = limits.low, limits.high
    else:
        middle = value + z * z * p_sum / (2 * weight * weight)
        root = middle * middle - value * value + z * z * q_sum / (weight * weight)
        half = sqrt(max(root, 0.0))
        low, high = max(middle - half, -1.0), min(middle + half, 1.0)
    balls = sum(s.seen_late + s.seen_early for s in strata)
    return LikeForLike(
        value=value,
        low=low,
        high=high,
        method=method,
        standard_late=late / weight,
        standard_early=early / weight,
        share_used=(balls_late + balls_early) / balls,
        strata_used=len(kept),
        balls_late=balls_late,
        balls_early=balls_early,
        se=sqrt(variance),
    )


def mover(
    strata: Sequence[Stratum], weights: Sequence[float], confidence: float = 0.95
) -> Difference:
    """Weighted difference of shares with limits recovered from each kind's Wilson interval.

    Every kind must be seen on both days; weights are positive and need not sum to one. Source: Zou
    GY and Donner A 2008, Stat Med 27.
    """
    z = normal_quantile(confidence)
    if len(shared(strata)) != len(weights) or not weights:
        raise ValueError("Each weight needs a kind of ball seen on both days.")
    if any(finite(weight, "A weight") <= 0 for weight in weights):
        raise ValueError("A weight must be more than zero.")
    total = sum(weights)
    value, below, above = 0.0, [], []
    for stratum, weight in zip(strata, weights, strict=True):
        part = weight / total
        late = stratum.made_late / stratum.seen_late
        early = stratum.made_early / stratum.seen_early
        late_low, late_high = wilson_limits(stratum.made_late, stratum.seen_late, z)
        early_low, early_high = wilson_limits(stratum.made_early, stratum.seen_early, z)
        value += part * (late - early)
        below += [part * (late - late_low), part * (early_high - early)]
        above += [part * (late_high - late), part * (early - early_low)]
    return Difference(value, value - hypot(*below), value + hypot(*above))


def on_the_early_mix(strata: Sequence[Stratum]) -> Standardised | None:
    """Both days' shares weighted by the earlier day's shared balls, for the plain sentence.

    None when no kind is shared. Source: direct standardisation as in the SAS procedure STDRATE.
    """
    kept = shared(strata)
    total = sum(stratum.seen_early for stratum in kept)
    if not total:
        return None
    late = early = late_variance = early_variance = 0.0
    for stratum in kept:
        part = stratum.seen_early / total
        p1 = stratum.made_late / stratum.seen_late
        p2 = stratum.made_early / stratum.seen_early
        late += part * p1
        early += part * p2
        late_variance += part * part * p1 * (1 - p1) / stratum.seen_late
        early_variance += part * part * p2 * (1 - p2) / stratum.seen_early
    return Standardised(late, sqrt(late_variance), early, sqrt(early_variance))
