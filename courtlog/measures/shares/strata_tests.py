"""Tests over kinds of ball: no change in any, and whether the change is the same in all.

No page prints them yet; they are checked against a general library.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, inf, log, sqrt

from courtlog.measures.common.chances import chi_square_tail, normal_quantile, normal_two_sided
from courtlog.measures.shares.strata import Stratum, shared


@dataclass(frozen=True, slots=True)
class OddsRatio:
    """Common odds ratio; without limits when it is 0 or infinite."""

    value: float
    low: float | None
    high: float | None


@dataclass(frozen=True, slots=True)
class CommonTest:
    """Chi-square of one degree of freedom, without and with the correction by one half."""

    statistic: float
    p: float
    corrected: float


@dataclass(frozen=True, slots=True)
class Homogeneity:
    """Whether the change is alike in all kinds: Tarone's statistic, and the one he corrected."""

    statistic: float
    df: int
    p: float
    breslow_day: float


def odds_ratio(strata: Sequence[Stratum], confidence: float = 0.95) -> OddsRatio | None:
    """Mantel-Haenszel odds ratio; None when it is undefined (everything made, or missed).

    Sources: Mantel N and Haenszel W 1959, JNCI 22:719-748; variance of Robins J, Breslow N and
    Greenland S 1986, Biometrics 42:311-323.
    """
    z = normal_quantile(confidence)
    r = s = pr = ps_qr = qs = 0.0
    for stratum in shared(strata):
        a, c = stratum.made_late, stratum.made_early
        b, d = stratum.seen_late - a, stratum.seen_early - c
        n = a + b + c + d
        r_here, s_here = a * d / n, b * c / n
        p_here, q_here = (a + d) / n, (b + c) / n
        r += r_here
        s += s_here
        pr += p_here * r_here
        ps_qr += p_here * s_here + q_here * r_here
        qs += q_here * s_here
    if not r and not s:
        return None
    if not r or not s:
        return OddsRatio(inf if r else 0.0, None, None)
    half = z * sqrt(pr / (2 * r * r) + ps_qr / (2 * r * s) + qs / (2 * s * s))
    middle = log(r / s)
    return OddsRatio(r / s, exp(middle - half), exp(middle + half))


def common_test(strata: Sequence[Stratum]) -> CommonTest | None:
    """Cochran-Mantel-Haenszel test of no change in any kind; None when nothing can vary."""
    off = variance = 0.0
    for stratum in shared(strata):
        n1, n2 = stratum.seen_late, stratum.seen_early
        n, made = n1 + n2, stratum.made_late + stratum.made_early
        off += stratum.made_late - n1 * made / n
        variance += n1 * n2 * made * (n - made) / (n * n * (n - 1))
    if not variance:
        return None
    statistic = off * off / variance
    corrected = max(abs(off) - 0.5, 0.0) ** 2 / variance
    return CommonTest(statistic, normal_two_sided(sqrt(statistic)), corrected)


def same_in_all(strata: Sequence[Stratum]) -> Homogeneity | None:
    """Breslow-Day test with Tarone's correction; None with fewer than two kinds that can vary.

    Worth a word only below p = 0.10: the change is not the same in every drill. Sources: Breslow NE
    and Day NE 1980, Statistical Methods in Cancer Research 1; Tarone RE 1985, Biometrika 72:91-95
    (both from memory).
    """
    common = odds_ratio(strata)
    varied = [
        stratum
        for stratum in shared(strata)
        if 0 < stratum.made_late + stratum.made_early < stratum.seen_late + stratum.seen_early
    ]
    if common is None or common.value in (0.0, inf) or len(varied) < 2:
        return None
    breslow_day = off = variance = 0.0
    for stratum in varied:
        n1, n2 = stratum.seen_late, stratum.seen_early
        made = stratum.made_late + stratum.made_early
        expected = _expected_made(n1, n2, made, common.value)
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
