"""The tail chances that several measures share, in plain Python."""

from __future__ import annotations

import math
from statistics import NormalDist

from courtlog.measures.common.arguments import inside

STANDARD_NORMAL = NormalDist()


def normal_quantile(confidence: float) -> float:
    """z of a two-sided interval: 1.959964 at 0.95."""
    return STANDARD_NORMAL.inv_cdf(0.5 + inside(confidence, "confidence") / 2)


def normal_two_sided(z: float) -> float:
    """Chance of a standard normal value at least as far from zero as z."""
    return math.erfc(abs(z) / math.sqrt(2))


def chi_square_tail(statistic: float, df: int) -> float:
    """Chance of a chi-square value of `df` whole degrees of freedom at least this large.

    The finite sums for odd and even df; Abramowitz M and Stegun IA 1964, 26.4.4 and 26.4.5 (from
    memory).
    """
    half = statistic / 2
    if df % 2:
        total, term = math.erfc(math.sqrt(half)), math.exp(-half) / math.sqrt(math.pi * half or 1)
        steps = [k - 0.5 for k in range(1, (df + 1) // 2)]
    else:
        total, term = math.exp(-half), math.exp(-half)
        steps = [float(k) for k in range(1, df // 2)]
    for step in steps:
        term *= half / step
        total += term
    return min(total, 1.0)
