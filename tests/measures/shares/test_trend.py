"""Trends over days, against printed values, scipy and statsmodels."""

from __future__ import annotations

from collections.abc import Callable
from itertools import product
from math import comb

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from statsmodels.stats.contingency_tables import Table

from courtlog.measures.shares.trend import cochran_armitage
from tests.measures.steady import ONE_SENTENCE, fewer, steady

PAIN = ([6, 7, 9, 14, 23], [32, 33, 32, 32, 32])
ALCOHOL = ([48, 38, 5, 1, 1], [17114, 14502, 793, 127, 38])
CLINIC = ([9, 12, 15, 17], [20, 20, 20, 20])

# z and p with statsmodels (whose z is smaller by sqrt((N - 1) / N)); exact p by convolution. The
# pain data are an example of SAS (z printed as -4.7918, from memory); the alcohol data are printed
# for StatXact: p .0078, exact .0159 with the last score 8; p .1765, exact .1792 with scores 1 to 5.
KNOWN = [
    (PAIN, [0, 1, 2, 3, 4], 4.79181, 1.65e-6, 1.324e-6, 0.12887),
    (ALCOHOL, [0, 0.5, 1.5, 4, 7], 2.56323, 0.0103704, 0.01725, 0.0016712),
    (ALCOHOL, [0, 0.5, 1.5, 4, 8], 2.6606, 0.00780, 0.01588, None),
    (ALCOHOL, [1, 2, 3, 4, 5], 1.3520, 0.1764, 0.1790, None),
    (CLINIC, [0, 1, 2, 3], 2.85499, 0.0043039, 0.00571, 0.135),
    (CLINIC, None, 2.85499, 0.0043039, 0.00571, 0.135),
]


@pytest.mark.parametrize(("counts", "scores", "z", "p", "exact", "slope"), KNOWN)
def test_known_trends(
    counts: tuple[list[int], list[int]],
    scores: list[float] | None,
    z: float,
    p: float,
    exact: float,
    slope: float | None,
) -> None:
    found = cochran_armitage(*counts, scores)
    assert found is not None
    assert found.z == pytest.approx(z, abs=5e-5)
    assert found.p == pytest.approx(p, rel=2e-3)
    assert found.p_exact == pytest.approx(exact, rel=1e-3)
    assert slope is None or found.slope == pytest.approx(slope, rel=1e-5)


def test_no_trend_where_there_is_nothing_to_trend() -> None:
    assert cochran_armitage([0, 0], [10, 10]) is None
    assert cochran_armitage([10, 10], [10, 10]) is None
    assert cochran_armitage([5, 0], [10, 0]) is None
    assert cochran_armitage([5, 6], [10, 10], [1, 1]) is None
    assert cochran_armitage([], []) is None


def test_a_day_without_balls_keeps_its_place_in_time() -> None:
    assert cochran_armitage([3, 0, 9], [10, 0, 10]) == cochran_armitage([3, 9], [10, 10], [1, 3])


def test_scores_off_every_lattice_have_no_exact_value() -> None:
    found = cochran_armitage([3, 5, 9], [10, 10, 10], [0, 2**0.5, 3**0.5])
    assert found is not None
    assert found.p_exact is None


def days(most: int, kinds: int = 5) -> st.SearchStrategy[list[tuple[int, int]]]:
    day = st.integers(1, most).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n)))
    return st.lists(day, min_size=2, max_size=kinds)


@steady
@given(days(30))
def test_trend_agrees_with_statsmodels(record: list[tuple[int, int]]) -> None:
    made, seen = (list(side) for side in zip(*record, strict=True))
    found = cochran_armitage(made, seen)
    assume(found is not None)
    assert found is not None
    table = Table(np.array([[x, n - x] for x, n in record], dtype=float), shift_zeros=False)
    other = table.test_ordinal_association(
        row_scores=np.arange(1, len(record) + 1), col_scores=np.array([1, 0])
    )
    n = sum(seen)
    assert found.z * ((n - 1) / n) ** 0.5 == pytest.approx(other.zscore, abs=1e-9)


@fewer
@given(days(4, 4))
def test_exact_trend_equals_every_outcome(record: list[tuple[int, int]]) -> None:
    made, seen = (list(side) for side in zip(*record, strict=True))
    found = cochran_armitage(made, seen)
    assume(found is not None)
    assert found is not None
    total, n = sum(made), sum(seen)
    middle = total * sum(k * size for k, size in enumerate(seen)) / n
    here = abs(sum(k * x for k, x in enumerate(made)) - middle)
    far = every = 0
    for outcome in product(*(range(size + 1) for size in seen)):
        if sum(outcome) == total:
            ways = int(np.prod([comb(size, x) for size, x in zip(seen, outcome, strict=True)]))
            every += ways
            off = abs(sum(k * x for k, x in enumerate(outcome)) - middle)
            far += ways if off >= here - 1e-9 else 0
    assert found.p_exact == pytest.approx(far / every, abs=1e-9)


@steady
@given(days(20))
def test_trend_turns_with_the_days_and_with_the_grades(record: list[tuple[int, int]]) -> None:
    made, seen = (list(side) for side in zip(*record, strict=True))
    missed = [n - x for x, n in record]
    here, turned = cochran_armitage(made, seen), cochran_armitage(made[::-1], seen[::-1])
    reflected = cochran_armitage(missed, seen)
    assume(here is not None)
    assert here is not None
    assert turned is not None
    assert reflected is not None
    for other in (turned, reflected):
        assert (other.slope, other.z) == pytest.approx((-here.slope, -here.z), abs=1e-9)
        assert other.p_exact == pytest.approx(here.p_exact, abs=1e-9)


DAYS = [
    [0, 0, 1, 0, 1, 1, 2, 0, 1, 0],
    [1, 0, 1, 2, 1, 1, 2, 0, 1, 2],
    [2, 1, 2, 2, 1, 2, 2, 1, 2, 0],
]


NAN = float("nan")


@pytest.mark.parametrize(
    "call",
    [
        lambda: cochran_armitage([1], [1, 2]),
        lambda: cochran_armitage([3, 1], [2, 2]),
        lambda: cochran_armitage([-1, 1], [2, 2]),
        lambda: cochran_armitage([1, 1], [2, 2], [1, NAN]),
        lambda: cochran_armitage([1, 1], [2, 2], [1]),
    ],
)
def test_bad_arguments_end_in_one_sentence(call: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=ONE_SENTENCE):
        call()
