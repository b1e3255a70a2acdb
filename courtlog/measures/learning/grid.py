"""The grid that carries a skill from ball to ball: a hidden Markov chain, solved exactly.

Skill is a log-odds value on a fixed grid; from one ball to the next it drifts by a normal step. The
variance of that step is not known, so several are carried side by side and weighed by how well they
foresaw the balls. Nothing is approximated but the grid itself.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from courtlog.measures.common.arguments import finite, grades_of, whole

Array = NDArray[np.float64]

EDGE, STEP = 8.0, 0.1
POINTS: Array = np.round(np.arange(-EDGE, EDGE + STEP / 2, STEP), 10)
SMALLEST_VARIANCE = round(STEP * STEP, 10)
"""A drift finer than one step would fall between the points."""
FAR = 6.0
"""Standard deviations beyond which a drift is taken as impossible."""
RESCALE_EVERY = 8
"""Balls between rescalings: chances shrink by at most 1e-4 a ball, far from underflow."""


@dataclass(frozen=True, slots=True)
class SkillDrift:
    """What is assumed of a skill before any ball, all on the log-odds scale.

    `variances`: candidate drifts per ball, equally likely at first. `overnight`: variance added by
    a night. `near_cut`: where a near ends and a miss begins (a made begins at 0). `mean` and
    `variance`: the first ball's skill.
    """

    variances: tuple[float, ...] = (0.01, 0.02, 0.05, 0.1, 0.2)
    overnight: float = 0.5
    near_cut: float = -1.2
    mean: float = 0.0
    variance: float = 2.25

    def __post_init__(self) -> None:
        narrowest = min((finite(v, "A drift variance") for v in self.variances), default=0.0)
        if narrowest < SMALLEST_VARIANCE or finite(self.variance, "variance") < SMALLEST_VARIANCE:
            raise ValueError(f"A variance must be at least {SMALLEST_VARIANCE:g}, one grid step.")
        if finite(self.overnight, "overnight") < 0 or not -EDGE < finite(self.mean, "mean") < EDGE:
            raise ValueError("A night cannot take variance away, and the mean must be on the grid.")
        if not -EDGE < finite(self.near_cut, "near_cut") < 0:
            raise ValueError("near_cut must lie on the grid below 0, where a made begins.")


USUAL = SkillDrift()


def logistic(log_odds: Array) -> Array:
    """Chance for each log-odds value."""
    chances: Array = 1.0 / (1.0 + np.exp(-log_odds))
    return chances


@lru_cache(maxsize=8)
def _kernels(variances: tuple[float, ...], extra: float) -> tuple[Array, Array]:
    """Symmetric drift weights (variance, from, to) and the row sums that make them chances."""
    apart = (POINTS[:, None] - POINTS[None, :]) ** 2
    each = []
    for variance in (v + extra for v in variances):
        weights = np.where(apart > FAR * FAR * variance, 0.0, np.exp(-apart / (2 * variance)))
        each.append(weights / weights.sum(axis=1).max())
    kernels = np.array(each)
    return kernels, kernels.sum(axis=2)


@lru_cache(maxsize=8)
def _seen(near_cut: float, graded: bool) -> tuple[Array, Array, Array, Array]:
    """Chance of what was seen at each grid point: missed, near, made, and nothing."""
    made, nothing = logistic(POINTS), np.ones_like(POINTS)
    if not graded:
        return 1.0 - made, 1.0 - made, made, nothing
    missed = logistic(near_cut - POINTS)
    return missed, logistic(-POINTS) - missed, made, nothing


class Chain:
    """A checked record on the grid; `nights` are the balls (from 0) that came first after one."""

    def __init__(
        self, grades: Sequence[int | None], nights: frozenset[int], graded: bool, drift: SkillDrift
    ) -> None:
        self._nights = nights
        self._day = _kernels(drift.variances, 0.0)
        self._night = _kernels(drift.variances, drift.overnight)
        prior = np.exp(-((POINTS - drift.mean) ** 2) / (2 * drift.variance))
        self._prior = np.tile(prior / prior.sum(), (len(drift.variances), 1))
        seen = _seen(drift.near_cut, graded)
        last = len(grades) - 1
        tables: dict[tuple[int, bool | None], Array] = {}
        self._gains: list[Array] = []
        for ball, grade in enumerate(grades):
            key = (3 if grade is None else grade, None if ball == last else ball + 1 in nights)
            if key not in tables:
                sums = 1.0 if key[1] is None else (self._night if key[1] else self._day)[1]
                tables[key] = seen[key[0]] / sums * np.ones_like(self._prior)
            self._gains.append(tables[key])

    def both_ways(self) -> tuple[Array, Array]:
        """Skill at each ball given all balls (ball, variance, point), and each log-likelihood.

        The backward recursion is the forward one from the other end, once the row sums are divided
        into what was seen. Each ball's own sight, then counted twice, is taken out once.
        """
        there, back, logs = self._walks()
        there *= back
        there /= np.array(self._gains)
        there /= there.sum(axis=2, keepdims=True)
        return there, logs

    def _walks(self) -> tuple[Array, Array, Array]:
        last = len(self._gains) - 1
        there = np.empty((last + 1, *self._prior.shape))
        back = np.empty_like(there)
        there[0], back[last] = self._prior * self._gains[0], self._gains[last]
        logs = self._walk(there[0].copy(), range(1, last + 1), 0, there)
        self._walk(back[last].copy(), range(last - 1, -1, -1), 1, back)
        return there, back, logs + np.log(there[last].sum(axis=1))

    def _kernels_into(self, ball: int) -> Array:
        return (self._night if ball in self._nights else self._day)[0]

    def _walk(self, state: Array, balls: range, later: int, kept: Array) -> Array:
        """Moves `state` in place through these balls; returns the logs of what rescaling took.

        The step at a ball crosses the night before it (`later` 0) or before the next one (1).
        """
        logs = np.zeros(len(state))
        moved = np.empty_like(state)
        row, row_moved = state[:, None, :], moved[:, None, :]
        for count, ball in enumerate(balls, 1):
            np.matmul(row, self._kernels_into(ball + later), out=row_moved)
            np.multiply(moved, self._gains[ball], out=state)
            if count % RESCALE_EVERY == 0:
                logs += _rescale(state)
            kept[ball] = state
        return logs


def _rescale(state: Array) -> Array:
    """Makes each row sum to one, in place; returns the logs of what it divided by."""
    sums = state.sum(axis=1)
    state /= sums[:, None]
    logs: Array = np.log(sums)
    return logs


def chain_of(
    grades: Sequence[int | None], breaks: Collection[int], graded: bool, drift: SkillDrift
) -> Chain | None:
    """The chain of a record, `breaks` counted from 1; None for an empty one."""
    record = grades_of(grades)
    nights = frozenset(whole(ball, "A break", 1) - 1 for ball in breaks)
    if nights and max(nights) >= len(record):
        raise ValueError(f"A break at ball {max(nights) + 1} is beyond the {len(record)} balls.")
    return Chain(record, nights, graded, drift) if record else None


def weights_of(logs: Array) -> Array:
    """The belief in each drift after the balls, all being equal before them."""
    likely: Array = np.exp(logs - logs.max())
    likely /= likely.sum()
    return likely
