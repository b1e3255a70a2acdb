"""The trend within kinds of ball, against statsmodels (one kind; two days) and scipy (any)."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.stats import multivariate_hypergeom
from statsmodels.stats.contingency_tables import StratifiedTable

from courtlog.measures.shares.trend import DayCounts, cochran_armitage, mantel
from tests.measures.steady import ONE_SENTENCE, steady

Kind = list[DayCounts]


def kinds(days: st.SearchStrategy[float], least: int = 1) -> st.SearchStrategy[list[Kind]]:
    """Some kinds of ball, each with its days in order."""
    day = st.integers(1, 20).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n), days))
    kind = st.lists(day, min_size=least, max_size=5, unique_by=lambda counts: counts[2])
    return st.lists(kind, min_size=1, max_size=4)


DAYS = st.integers(1, 5).map(float)


@steady
@given(kinds(DAYS, 2))
def test_one_kind_is_the_test_of_cochran_and_armitage_with_one_ball_less(one: list[Kind]) -> None:
    """That test is itself held against statsmodels."""
    kind = one[0]
    found, other = mantel([kind]), cochran_armitage(*map(list, zip(*kind, strict=True)))
    assert (found is None) is (other is None)
    if found is not None and other is not None:
        balls = sum(seen for _, seen, _ in kind)
        assert found.z == pytest.approx(other.z * ((balls - 1) / balls) ** 0.5)
        assert found.slope == pytest.approx(other.slope)


@steady
@given(kinds(DAYS, 2))
def test_with_two_days_it_is_the_test_of_mantel_and_haenszel(all_kinds: list[Kind]) -> None:
    two = [[(x, n, t) for (x, n, _), t in zip(kind, (1, 2), strict=False)] for kind in all_kinds]
    found = mantel(two)
    assume(found is not None)
    assert found is not None
    tables = [np.array([[x, n - x] for x, n, _ in kind], dtype=float) for kind in two]
    other = StratifiedTable(tables, shift_zeros=False).test_null_odds(correction=False)
    assert found.z**2 == pytest.approx(other.statistic)
    assert found.p == pytest.approx(other.pvalue)


@steady
@given(kinds(DAYS))
def test_the_sum_of_scores_has_the_middle_and_the_spread_of_scipy(all_kinds: list[Kind]) -> None:
    found = mantel(all_kinds)
    rise = variance = 0.0
    for kind in all_kinds:
        made, seen, scores = (np.array(side) for side in zip(*kind, strict=True))
        if seen.sum() > 1:
            chances = multivariate_hypergeom(m=seen, n=made.sum())
            rise += scores @ (made - chances.mean())
            variance += scores @ chances.cov() @ scores
    if found is None:
        assert variance == pytest.approx(0, abs=1e-9)
    else:
        assert found.z == pytest.approx(rise / variance**0.5, abs=1e-9)


def test_a_harder_drill_later_is_no_fall() -> None:
    """Pooled, the same share of each drill on each day looks like a fall, and is none."""
    easy, hard = [(16, 20, 1), (8, 10, 2), (4, 5, 3)], [(2, 5, 1), (4, 10, 2), (8, 20, 3)]
    found = mantel([easy, hard])
    assert found is not None
    assert (found.slope, found.z, found.p) == pytest.approx((0, 0, 1), abs=1e-9)
    pooled = cochran_armitage([18, 12, 12], [25, 20, 25])
    assert pooled is not None
    assert pooled.z < -1.5


@pytest.mark.parametrize("nothing", [[], [[]], [[(3, 9, 1)]], [[(0, 9, 1), (0, 9, 2)]]])
def test_what_says_nothing_has_no_trend(nothing: list[Kind]) -> None:
    assert mantel(nothing) is None


@pytest.mark.parametrize("day", [(3, 2, 1.0), (-1, 2, 1.0), (1, 2, float("nan"))])
def test_bad_counts_end_in_one_sentence(day: DayCounts) -> None:
    with pytest.raises(ValueError, match=ONE_SENTENCE):
        mantel([[day, (1, 2, 2.0)]])
