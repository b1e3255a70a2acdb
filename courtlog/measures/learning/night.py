"""What one night did to a skill, read off the curve: for blocks too unlike to compare plainly."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from math import sqrt

import numpy as np

from courtlog.measures.common.arguments import whole
from courtlog.measures.learning.grid import (
    POINTS,
    USUAL,
    Array,
    Drift,
    chain_of,
    logistic,
    weights_of,
)


@dataclass(frozen=True, slots=True)
class NightShift:
    """Skill on the first ball of the morning minus skill on the last one of the evening.

    In log-odds and as a share of made balls, each with its standard deviation; `chance_up` is how
    likely the skill rose at all.
    """

    log_odds: float
    log_odds_sd: float
    share: float
    share_sd: float
    chance_up: float


def night_shift(
    grades: Sequence[int | None],
    morning: int,
    breaks: Collection[int] = (),
    graded: bool = False,
    drift: Drift = USUAL,
) -> NightShift:
    """The shift before ball `morning` (from 1, at least 2), given the whole record.

    `breaks` are the other balls that came first after a night; the rest as for skill_curve.
    """
    morning = whole(morning, "morning", 2)
    chain = chain_of(grades, {*breaks, morning}, graded, drift)
    if chain is None:
        raise ValueError("An empty record has no night in it.")
    each, logs = chain.across(morning - 1)
    both = np.tensordot(weights_of(logs), each, axes=1)
    log_odds, log_odds_sd = _shift(both, POINTS)
    share, share_sd = _shift(both, logistic(POINTS))
    up = float(np.triu(both, 1).sum() + np.trace(both) / 2)
    return NightShift(log_odds, log_odds_sd, share, share_sd, up)


def _shift(both: Array, scale: Array) -> tuple[float, float]:
    moves = scale[None, :] - scale[:, None]
    mean = float((both * moves).sum())
    return mean, sqrt(max(float((both * moves * moves).sum()) - mean * mean, 0.0))
