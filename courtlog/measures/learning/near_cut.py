"""Where a near ends and a miss begins, for one clinic: the only part of the curve ever fitted."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace

import numpy as np

from courtlog.measures.learning.grid import USUAL, Drift, chain_of

FEWEST_BALLS = 60
"""Below this many graded balls the usual cut is better than a fitted one."""
CUTS = tuple(round(-0.4 - 0.1 * step, 1) for step in range(37))


def fitted_near_cut(
    records: Sequence[tuple[Sequence[int | None], Collection[int]]],
    drift: Drift = USUAL,
    cuts: Sequence[float] = CUTS,
) -> float:
    """The likeliest of `cuts` over records of (grades, breaks); the usual one below 60 balls."""
    if sum(grade is not None for grades, _ in records for grade in grades) < FEWEST_BALLS:
        return drift.near_cut
    return max(cuts, key=lambda cut: _log_likelihood(records, replace(drift, near_cut=cut)))


def _log_likelihood(
    records: Sequence[tuple[Sequence[int | None], Collection[int]]], drift: Drift
) -> float:
    total = 0.0
    for grades, breaks in records:
        chain = chain_of(grades, breaks, True, drift)
        if chain is not None:
            total += float(np.logaddexp.reduce(chain.forward()[1]))
    return total
