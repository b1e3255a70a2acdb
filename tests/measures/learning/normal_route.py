"""The second route to a skill curve: normal filter, smoother and EM, written from the paper.

Smith AC et al. 2004, J Neurosci 24(2):447-461, equations A.6 to A.16. Shares no code with courtlog.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import exp, inf, log
from statistics import NormalDist

NORMAL = NormalDist()
CUTS = (-1.2, 0.0)


def logistic(x: float) -> float:
    return 1 / (1 + exp(-x))


def yes_no(seen: int, eta: float) -> tuple[float, float]:
    """Slope and curvature of the log-likelihood: 1 made, 0 not."""
    p = logistic(eta)
    return seen - p, p * (1 - p)


def three_grades(seen: int, eta: float) -> tuple[float, float]:
    below, above = logistic(CUTS[0] - eta), logistic(CUTS[1] - eta)
    if seen == 0:
        return -(1 - below), below * (1 - below)
    if seen == 1:
        return below + above - 1, below * (1 - below) + above * (1 - above)
    return above, above * (1 - above)


@dataclass
class Smoothed:
    mean: list[float]
    var: list[float]
    lag: list[float]  # covariance of ball k and k + 1
    mu: float

    def share(self, ball: int, quantile: float = 0.5) -> float:
        z = NORMAL.inv_cdf(quantile)
        return logistic(self.mu + self.mean[ball] + z * self.var[ball] ** 0.5)

    def certainty(self, reference: float) -> list[float]:
        odds = log(reference / (1 - reference))
        return [
            NORMAL.cdf((self.mu + m - odds) / v**0.5)
            for m, v in zip(self.mean, self.var, strict=True)
        ]

    def learning_ball(self, reference: float) -> int | None:
        ball = None
        for k, sure in reversed(list(enumerate(self.certainty(reference), 1))):
            if sure < 0.95:
                break
            ball = k
        return ball


def smooth(
    record: list[int | None],
    steps: list[float],
    first_mean: float,
    first_var: float,
    mu: float = 0.0,
    model: Callable[[int, float], tuple[float, float]] = yes_no,
) -> Smoothed:
    """`steps[k]` is the variance added before ball k (the first one is in `first_var`)."""
    mean: list[float] = []
    var: list[float] = []
    before = []
    for k, seen in enumerate(record):
        xp = mean[-1] if k else first_mean
        vp = var[-1] + steps[k] if k else first_var
        before.append((xp, vp))
        x, v = xp, vp
        if seen is not None:
            for _ in range(500):
                slope, curve = model(seen, mu + x)
                change = (x - xp - vp * slope) / (1 + vp * curve)
                x -= max(-2.0, min(2.0, change))
                if abs(change) < 1e-13:
                    break
            v = 1 / (1 / vp + model(seen, mu + x)[1])
        mean.append(x)
        var.append(v)
    lag = [0.0] * (len(record) - 1)
    for k in range(len(record) - 2, -1, -1):
        xp, vp = before[k + 1]
        gain = var[k] / vp
        lag[k] = gain * var[k + 1]
        mean[k] += gain * (mean[k + 1] - xp)
        var[k] += gain * gain * (var[k + 1] - vp)
    return Smoothed(mean, var, lag, mu)


def moves(found: Smoothed) -> list[float]:
    """Expected squared move between neighbouring balls, given all balls."""
    w = [v + m * m for m, v in zip(found.mean, found.var, strict=True)]
    both = zip(found.mean, found.mean[1:], found.lag, strict=False)
    return [w[k + 1] + w[k] - 2 * (c + a * b) for k, (a, b, c) in enumerate(both)]


def em_fixed_start(record: list[int | None], q: float = 0.05) -> tuple[float, int]:
    """Drift per ball by EM with the first ball's prior fixed at mean 0 and variance 2.25."""
    for step in range(1, 20_001):
        step_moves = moves(smooth(record, [q] * len(record), 0.0, 2.25))
        new = max(sum(step_moves) / len(step_moves), 1e-6)
        done, q = abs(new - q) < 1e-8, new
        if done:
            return q, step
    raise AssertionError("EM did not settle")


def em_as_in_the_paper(
    record: list[int | None], chance: float, start: int, q: float = 0.005
) -> tuple[float, int, Smoothed]:
    """Drift by EM with the paper's three ways to treat the skill before the first ball."""
    mu, x0, v0 = log(chance / (1 - chance)), 0.0, q
    last_x0 = inf
    for step in range(1, 2001):
        found = smooth(record, [q] * len(record), x0, v0 + q, mu)
        first, var = found.mean[0], found.var[0]
        total, n = sum(moves(found)), len(record)
        new = [
            (total + first * first + var) / (n + 1),
            (total + first * first / 2 + var) / (n + 1),
            (total + var) / n,
        ][start]
        x0 = [0.0, first / 2, first][start]
        done = abs(new - q) < 1e-8 and abs(x0 - last_x0) < 1e-8 if start else abs(new - q) < 1e-8
        v0 = var if start == 2 else q  # the drift this step began with
        q, last_x0 = new, x0
        if done:
            return q, step, found
    raise AssertionError("EM did not settle")
