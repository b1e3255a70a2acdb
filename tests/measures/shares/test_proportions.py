"""Shares and their differences, against printed values and three general libraries."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import binom, binomtest
from statsmodels.stats.proportion import confint_proportions_2indep, proportion_confint

from courtlog.measures.shares.proportions import (
    Difference,
    newcombe,
    unseen_bounds,
    wilson,
)
from tests.measures.steady import ONE_SENTENCE, steady

NEWCOMBE_A = "Newcombe 1998, Stat Med 17:857-872, as quoted by others"
NEWCOMBE_A_MEMORY = "Newcombe 1998, Stat Med 17:857-872 (from memory); statsmodels"
NEWCOMBE_B = "Newcombe 1998, Stat Med 17:873-890, Table II method 10, as quoted by others"
LIBRARY = "computed with statsmodels"

WILSON = [
    (81, 263, 0.255289, 0.366210, NEWCOMBE_A),
    (15, 148, 0.0624, 0.1605, NEWCOMBE_A_MEMORY),
    (0, 20, 0.0, 0.161125, NEWCOMBE_A_MEMORY),
    (1, 29, 0.006113, 0.171755, NEWCOMBE_A_MEMORY),
    (0, 10, 0.0, 0.277533, LIBRARY),
    (5, 10, 0.236593, 0.763407, LIBRARY),
    (8, 10, 0.490162, 0.943318, LIBRARY),
    (10, 10, 0.722467, 1.0, LIBRARY),
    (3, 8, 0.1368, 0.6943, LIBRARY),
    (17, 20, 0.6396, 0.9476, LIBRARY),
    (0, 5, 0.0, 0.434482, LIBRARY),
    (5, 5, 0.565518, 1.0, LIBRARY),
    (3, 3, 0.4385, 1.0, LIBRARY),
    (8, 8, 0.6756, 1.0, LIBRARY),
    (15, 15, 0.7961, 1.0, LIBRARY),
    (20, 20, 0.8389, 1.0, LIBRARY),
    (30, 30, 0.8865, 1.0, LIBRARY),
]


@pytest.mark.parametrize(("made", "seen", "low", "high", "source"), WILSON)
def test_wilson(made: int, seen: int, low: float, high: float, source: str) -> None:
    interval = wilson(made, seen)
    assert interval is not None, source
    tolerance = 1e-6 if round(high, 4) != high or round(low, 4) != low else 6e-5
    assert (interval.low, interval.high) == pytest.approx((low, high), abs=tolerance), source


# Half-width at one half, with as many balls: what the minimums rest on. Computed with statsmodels.
@pytest.mark.parametrize(
    ("seen", "half"),
    [(10, 0.263), (20, 0.201), (30, 0.168), (40, 0.148), (60, 0.123), (100, 0.096)],
)
def test_half_widths(seen: int, half: float) -> None:
    interval = wilson(seen // 2, seen)
    assert interval is not None
    assert (interval.high - interval.low) / 2 == pytest.approx(half, abs=5e-4)


# Rows of Newcombe's Table II, the clinic rows below them by statsmodels.
NEWCOMBE = [
    (56, 70, 48, 80, 0.2, 0.052431, 0.333873, NEWCOMBE_B),
    (9, 10, 3, 10, 0.6, 0.170523, 0.809018, NEWCOMBE_B),
    (6, 7, 2, 7, 0.5714, 0.0582, 0.8062, NEWCOMBE_B),
    (5, 56, 0, 29, 0.0893, -0.0381, 0.1926, NEWCOMBE_B),
    (0, 10, 0, 20, 0.0, -0.161125, 0.277533, NEWCOMBE_B),
    (0, 10, 0, 10, 0.0, -0.277533, 0.277533, NEWCOMBE_B),
    (10, 10, 0, 20, 1.0, 0.679086, 1.0, NEWCOMBE_B),
    (10, 10, 0, 10, 1.0, 0.607509, 1.0, NEWCOMBE_B),
    (16, 20, 9, 20, 0.35, 0.050180, 0.575900, LIBRARY),
    (13, 20, 6, 20, 0.35, 0.041615, 0.578853, LIBRARY),
    (43, 80, 34, 80, 0.1125, -0.0415, 0.2592, LIBRARY),
]


@pytest.mark.parametrize(("x1", "n1", "x2", "n2", "value", "low", "high", "source"), NEWCOMBE)
def test_newcombe(
    x1: int, n1: int, x2: int, n2: int, value: float, low: float, high: float, source: str
) -> None:
    found = newcombe(x1, n1, x2, n2)
    assert found is not None, source
    tolerance = 1e-6 if round(low, 4) != low else 6e-5
    expected = pytest.approx((value, low, high), abs=tolerance)
    assert (found.value, found.low, found.high) == expected, source


# The smallest later count whose interval clears zero, computed with statsmodels: (balls, earlier
# made, later made); None where no count does.
@pytest.mark.parametrize(
    ("balls", "early", "late"),
    [
        (10, 2, 7), (10, 3, 8), (10, 5, 10), (10, 6, 10), (10, 7, None),
        (15, 3, 9), (15, 9, 14), (20, 4, 10), (20, 6, 13), (20, 10, 16),
        (20, 12, 18), (20, 14, 19), (30, 6, 14), (30, 9, 17), (30, 15, 23), (30, 18, 25),
        (30, 21, 28), (40, 8, 17), (40, 12, 21), (40, 20, 29), (40, 24, 33), (40, 28, 36),
        (60, 12, 22), (60, 18, 29), (60, 30, 41), (60, 36, 46), (60, 42, 52),
    ],
)  # fmt: skip
def test_smallest_clear_change(balls: int, early: int, late: int | None) -> None:
    clear = (made for made in range(balls + 1) if low_of(newcombe(made, balls, early, balls)) > 0)
    assert next(clear, None) == late


# Exact sums over both days, computed apart: the chance that a real change is seen as clear.
@pytest.mark.parametrize(
    ("early", "late", "chances"),
    [
        (0.4, 0.7, (0.25, 0.46, 0.66, 0.80, 0.92)),
        (0.5, 0.8, (0.25, 0.53, 0.69, 0.82, 0.94)),
        (0.3, 0.5, (0.13, 0.24, 0.35, 0.46, 0.62)),
    ],
)
def test_how_often_a_real_change_is_clear(
    early: float, late: float, chances: tuple[float, ...]
) -> None:
    for balls, chance in zip((10, 20, 30, 40, 60), chances, strict=True):
        clear = np.array(
            [
                [low_of(newcombe(x, balls, y, balls)) > 0 for y in range(balls + 1)]
                for x in range(balls + 1)
            ]
        )
        x_chance, y_chance = (binom.pmf(np.arange(balls + 1), balls, p) for p in (late, early))
        assert float(x_chance @ clear @ y_chance) == pytest.approx(chance, abs=5.1e-3)


def low_of(found: Difference | None) -> float:
    assert found is not None
    return found.low


def test_unseen_balls_give_bounds_and_change_no_share() -> None:
    bounds = unseen_bounds(12, 4, 4)  # by hand
    assert bounds is not None
    assert (bounds.low, bounds.high, bounds.worth_printing) == (0.6, 0.8, False)
    assert (bounds.least, bounds.most) == (12, 16)
    many = unseen_bounds(12, 4, 5)
    assert many is not None
    assert many.worth_printing
    assert unseen_bounds(0, 0, 0) is None


def test_nothing_seen_is_no_rate_and_no_difference() -> None:
    assert wilson(0, 0) is None
    assert newcombe(0, 0, 3, 5) is None
    assert newcombe(3, 5, 0, 0) is None


def counts(most: int = 120, least: int = 1) -> st.SearchStrategy[tuple[int, int]]:
    return st.integers(least, most).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n)))


@steady
@given(counts(), st.floats(0.5, 0.999))
def test_wilson_agrees_with_statsmodels_and_scipy(
    count: tuple[int, int], confidence: float
) -> None:
    made, seen = count
    found = wilson(made, seen, confidence)
    assert found is not None
    here = pytest.approx((found.low, found.high), abs=1e-9)
    assert proportion_confint(made, seen, 1 - confidence, "wilson") == here
    other = binomtest(made, seen).proportion_ci(confidence, "wilson")
    assert (other.low, other.high) == here


@steady
@given(counts(), counts(), st.floats(0.5, 0.999))
def test_newcombe_agrees_with_statsmodels(
    late: tuple[int, int], early: tuple[int, int], confidence: float
) -> None:
    found = newcombe(*late, *early, confidence)
    assert found is not None
    low, high = confint_proportions_2indep(
        *late, *early, method="newcomb", compare="diff", alpha=1 - confidence
    )
    assert (found.low, found.high) == pytest.approx((low, high), abs=1e-9)


@steady
@given(counts())
def test_wilson_stays_in_range_holds_the_share_and_reflects(count: tuple[int, int]) -> None:
    made, seen = count
    here, turned = wilson(made, seen), wilson(seen - made, seen)
    assert here is not None
    assert turned is not None
    assert 0 <= here.low <= made / seen <= here.high <= 1
    assert (turned.low, turned.high) == pytest.approx((1 - here.high, 1 - here.low), abs=1e-12)
    doubled = wilson(2 * made, 2 * seen)
    assert doubled is not None
    assert doubled.high - doubled.low < here.high - here.low


@steady
@given(counts(), counts())
def test_newcombe_stays_in_range_holds_the_difference_and_turns(
    late: tuple[int, int], early: tuple[int, int]
) -> None:
    here, swapped = newcombe(*late, *early), newcombe(*early, *late)
    turned = newcombe(late[1] - late[0], late[1], early[1] - early[0], early[1])
    more = newcombe(2 * late[0], 2 * late[1], 2 * early[0], 2 * early[1])
    assert here is not None
    assert swapped is not None
    assert turned is not None
    assert more is not None
    assert -1 <= here.low <= here.value <= here.high <= 1
    opposite = pytest.approx((-here.value, -here.high, -here.low), abs=1e-12)
    assert (swapped.value, swapped.low, swapped.high) == opposite
    assert (turned.value, turned.low, turned.high) == opposite
    assert more.high - more.low < here.high - here.low


@steady
@given(st.integers(0, 40), st.integers(0, 40), st.integers(0, 40))
def test_unseen_bounds_hold_the_share(made: int, missed: int, unseen: int) -> None:
    bounds = unseen_bounds(made, missed, unseen)
    if made + missed:
        assert bounds is not None
        assert 0 <= bounds.low <= made / (made + missed) <= bounds.high <= 1


NAN = float("nan")


@pytest.mark.parametrize("bad", [(5, 4), (-1, 4), (1, -4), (NAN, 4), (1, NAN), (1.5, 4), ("1", 4)])
def test_bad_counts_end_in_one_sentence(bad: tuple[int, int]) -> None:
    for call in (
        lambda: wilson(*bad),
        lambda: newcombe(*bad, 1, 2),
        lambda: newcombe(1, 2, *bad),
    ):
        with pytest.raises(ValueError, match=ONE_SENTENCE):
            call()


@pytest.mark.parametrize("confidence", [0.0, 1.0, -1, 2, NAN])
def test_bad_confidence_ends_in_one_sentence(confidence: float) -> None:
    with pytest.raises(ValueError, match=ONE_SENTENCE):
        wilson(1, 2, confidence)
