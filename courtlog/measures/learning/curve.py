"""The skill curve: where a player stood on each ball, how sure that is, and when it clicked.

Model: Smith AC, Frank LM, Wirth S and others 2004, "Dynamic analysis of learning in behavioral
experiments", J Neurosci 24(2):447-461. It is solved exactly on a grid, not by their normal
approximation, so that a record of only makes or only misses works too. It is averaged over several
drifts, as forty balls cannot tell which one is right.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field
from math import log

import numpy as np

from courtlog.measures.common.arguments import inside
from courtlog.measures.learning.grid import (
    POINTS,
    USUAL,
    Array,
    SkillDrift,
    chain_of,
    logistic,
    weights_of,
)

CERTAIN = 0.95
LOW, MEDIAN, HIGH = 0.05, 0.5, 0.95


@dataclass(frozen=True, slots=True, eq=False)
class SkillCurve:
    """Chance of a made ball at each ball of a record, given the whole record (hindsight).

    `low`, `median` and `high` hold the 5, 50 and 95 % points, one value a ball. `log_likelihood`
    tells how well the model foresaw the balls. `below` is the chance of a skill below each point of
    the grid (ball, point).
    """

    low: Array
    median: Array
    high: Array
    log_likelihood: float
    below: Array = field(repr=False)

    def certainty_above(self, reference: float) -> Array:
        """For each ball, the chance that the skill is better than this share (0..1)."""
        return _above(self.below, reference)

    def learning_ball(self, reference: float, certainty: float = CERTAIN) -> int | None:
        """First ball (from 1) from which the skill beats the reference surely to the end.

        None means "not yet", which is not "no": the rule is careful. Later balls can move it.
        No page prints it: over mixed drills it is early far more often than `certainty` says.
        """
        unsure = np.flatnonzero(self.certainty_above(reference) < inside(certainty, "certainty"))
        first = int(unsure[-1]) + 1 if len(unsure) else 0
        return first + 1 if first < len(self.median) else None


def skill_curve(
    grades: Sequence[int | None],
    breaks: Collection[int] = (),
    graded: bool = False,
    drift: SkillDrift = USUAL,
) -> SkillCurve:
    """The curve of one cue over a record of balls: 0 missed, 1 near, 2 made, None not seen.

    `breaks` are the balls (from 1) that came first after a night. Yes/no counts a near as not made;
    `graded` lets it count as near. An empty record gives empty arrays.
    """
    chain = chain_of(grades, breaks, graded, drift)
    if chain is None:
        empty = np.empty(0)
        return SkillCurve(empty, empty, empty, 0.0, np.empty((0, len(POINTS))))
    chances, logs = chain.both_ways()
    weights = weights_of(logs)
    below = _below(np.matmul(weights, chances))
    low, median, high = (_quantile(below, share) for share in (LOW, MEDIAN, HIGH))
    for array in (below, low, median, high):
        array.flags.writeable = False
    return SkillCurve(low, median, high, _together(logs), below)


def _together(logs: Array) -> float:
    return float(logs.max() + np.log(np.exp(logs - logs.max()).mean()))


def _below(chances: Array) -> Array:
    """For each ball, the chance below each grid point: half of the point's own counts."""
    below: Array = np.cumsum(chances, axis=1) - chances / 2
    return below


def _quantile(below: Array, share: float) -> Array:
    """The chance of a made ball below which lies this share, straight lines between points."""
    after = np.clip((below < share).sum(axis=1), 1, len(POINTS) - 1)
    balls = np.arange(len(below))
    left, right = below[balls, after - 1], below[balls, after]
    part = np.clip((share - left) / (right - left), 0.0, 1.0)
    return logistic(POINTS[after - 1] + part * (POINTS[after] - POINTS[after - 1]))


def _above(below: Array, reference: float) -> Array:
    odds = log(inside(reference, "reference") / (1 - reference))
    after = int(np.clip(np.searchsorted(POINTS, odds), 1, len(POINTS) - 1))
    part = min(max((odds - POINTS[after - 1]) / (POINTS[after] - POINTS[after - 1]), 0.0), 1.0)
    above: Array = 1.0 - (below[:, after - 1] + part * (below[:, after] - below[:, after - 1]))
    return above
