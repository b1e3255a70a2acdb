"""Two raters, and one rater twice, against printed values and two general libraries."""

from __future__ import annotations

from collections.abc import Callable
from itertools import product

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from sklearn.metrics import cohen_kappa_score
from statsmodels.stats.contingency_tables import mcnemar
from statsmodels.stats.inter_rater import cohens_kappa

from courtlog.measures.shares.agreement import (
    Weights,
    agreement_word,
    bears_verdicts,
    drift,
    gwet_ac,
    kappa,
    raw_agreement,
)
from tests.measures.steady import ONE_SENTENCE, steady

Ratings = tuple[list[int], list[int]]


def table(text: str) -> Ratings:
    """'31 12 / 4 58': rows are the first rater's grades, columns the second's."""
    a: list[int] = []
    b: list[int] = []
    for i, row in enumerate(text.split("/")):
        for j, count in enumerate(row.split()):
            a += [i] * int(count)
            b += [j] * int(count)
    return a, b


SKIN = table("10 4 1 0 / 5 10 12 2 / 2 4 12 5 / 0 2 6 13")
TWO = table("31 12 / 4 58")
PARADOX = table("118 5 / 2 0")
RADIOLOGY = table("21 12 0 0 / 4 17 1 0 / 3 9 15 2 / 0 0 0 1")
COURT = table("12 3 0 / 4 10 3 / 1 4 13")

# Computed with statsmodels, scikit-learn and irrCAC: skin data of SAS; radiology data of a
# university course; the second is printed by R's statpsych (0.6756757, 0.07344761, 0.5317210,
# 0.8196303); Gwet's paradox from memory; the court is invented.
KAPPAS = [
    (SKIN, 4, None, 0.3449, 0.0724, (0.2030, 0.4868)),
    (SKIN, 4, "linear", 0.5082, 0.0655, None),
    (SKIN, 4, "quadratic", 0.6607, 0.0616, None),
    (TWO, 2, None, 0.6756757, 0.07344761, (0.5317210, 0.8196303)),
    (PARADOX, 2, None, -0.0234, 0.0123, None),
    (RADIOLOGY, 4, None, 0.4728, 0.0727, None),
    (RADIOLOGY, 4, "linear", 0.5684, 0.0676, None),
    (RADIOLOGY, 4, "quadratic", 0.6714, None, None),
    (COURT, 3, None, 0.5504, 0.0971, (0.3601, 0.7406)),
    (COURT, 3, "linear", 0.6387, 0.0844, None),
    (COURT, 3, "quadratic", 0.7278, 0.0777, None),
]


@pytest.mark.parametrize(("ratings", "keys", "weights", "value", "se", "limits"), KAPPAS)
def test_known_kappas(
    ratings: Ratings,
    keys: int,
    weights: Weights | None,
    value: float,
    se: float | None,
    limits: tuple[float, float] | None,
) -> None:
    found = kappa(*ratings, weights, keys)
    assert found is not None
    tolerance = 1e-7 if round(value, 4) != value else 6e-5
    assert found.value == pytest.approx(value, abs=tolerance)
    assert se is None or found.se == pytest.approx(se, abs=tolerance)
    assert limits is None or (found.low, found.high) == pytest.approx(limits, abs=tolerance)


# AC1 and AC2, computed with irrCAC.
@pytest.mark.parametrize(
    ("ratings", "keys", "weights", "value", "se", "to"),
    [
        (SKIN, 4, None, 0.35107326, 0.07073098, 1e-8),
        (SKIN, 4, "linear", 0.55294397, 0.05316799, 1e-8),
        (SKIN, 4, "quadratic", 0.71786865, 0.04495947, 1e-8),
        (TWO, 2, None, 0.714, 0.0686, 5e-4),
        (PARADOX, 2, None, 0.94077634, 0.02305696, 1e-8),
        (PARADOX, 2, "linear", 0.94077634, 0.02305696, 1e-8),
        (RADIOLOGY, 4, None, 0.52919806, 0.06788211, 1e-8),
        (RADIOLOGY, 4, "linear", 0.71881233, 0.04326859, 1e-8),
        (RADIOLOGY, 4, "quadratic", 0.85017186, 0.02912104, 1e-8),
        (COURT, 3, None, 0.55008998, 0.09811445, 1e-8),
        (COURT, 3, "linear", 0.64017991, 0.08145066, 1e-8),
        (COURT, 3, "quadratic", 0.73021583, 0.07341674, 1e-8),
    ],
)
def test_known_ac1_and_ac2(
    ratings: Ratings, keys: int, weights: Weights | None, value: float, se: float | None, to: float
) -> None:
    found = gwet_ac(*ratings, weights, keys)
    assert found is not None
    assert found.value == pytest.approx(value, abs=to)
    assert se is None or found.se == pytest.approx(se, abs=to)


WEIGHTS: tuple[Weights | None, ...] = (None, "linear", "quadratic")
PAIRS = st.lists(st.tuples(st.integers(0, 2), st.integers(0, 2)), min_size=2, max_size=60)


@steady
@given(PAIRS, st.sampled_from(WEIGHTS))
def test_kappa_agrees_with_statsmodels_and_sklearn(
    pairs: list[tuple[int, int]], weights: Weights | None
) -> None:
    a, b = (list(side) for side in zip(*pairs, strict=True))
    found = kappa(a, b, weights)
    if found is None:
        assert len({*a, *b}) == 1
        return
    counts = np.zeros((3, 3))
    for pair in pairs:
        counts[pair] += 1
    with np.errstate(invalid="ignore", divide="ignore"):
        other = cohens_kappa(counts, wt=weights)
    assert found.value == pytest.approx(other.kappa, abs=1e-9)
    assert found.se == pytest.approx(max(other.var_kappa, 0) ** 0.5, abs=1e-6)
    third = cohen_kappa_score(a, b, labels=[0, 1, 2], weights=weights)
    assert found.value == pytest.approx(third, abs=1e-9)
    assert -1 <= found.low <= found.value <= found.high <= 1


@steady
@given(PAIRS)
def test_agreement_is_the_same_either_way_and_blind_to_unseen_balls(
    pairs: list[tuple[int, int]],
) -> None:
    a, b = (list(side) for side in zip(*pairs, strict=True))
    for measure, weights in product((kappa, gwet_ac), WEIGHTS):
        here = measure(a, b, weights)
        turned = measure(b, a, weights)
        more = measure([*a, None, 2], [*b, 1, None], weights)
        assert here == more
        if here is not None:
            assert turned is not None
            assert (turned.value, turned.se) == pytest.approx((here.value, here.se), abs=1e-9)
            assert here.low <= here.value <= here.high <= 1


def test_nothing_to_agree_on() -> None:
    assert kappa([], []) is None
    assert kappa([2, 2], [2, 2]) is None
    assert raw_agreement([2, 2], [2, 2]) == 1
    assert raw_agreement([2, None], [None, 2]) is None
    assert gwet_ac([None], [2]) is None
    perfect = gwet_ac([2, 2], [2, 2])
    assert perfect is not None
    assert perfect.value == 1
    one = gwet_ac([2], [2])
    assert one is not None
    assert (one.value, one.se, one.balls) == (1, 0, 1), "one ball has no spread"


# Exact McNemar computed with statsmodels, mid-p by hand.
@pytest.mark.parametrize(
    ("stricter", "looser", "p", "mid_p", "direction", "enough"),
    [
        (9, 2, 0.065430, 0.038574, "stricter", True),
        (0, 6, 0.031250, 0.015625, "looser", True),
        (5, 0, 0.062500, 0.031250, "stricter", False),
        (3, 8, 0.226562, 0.145996, "looser", True),
        (4, 4, 1.0, 1.0, None, True),
        (0, 0, 1.0, 1.0, None, False),
    ],
)
def test_drift(
    stricter: int, looser: int, p: float, mid_p: float, direction: str | None, enough: bool
) -> None:
    found = drift([2] * stricter + [0] * looser + [1, 1], [1] * stricter + [2] * looser + [1, None])
    assert (found.stricter, found.looser) == (stricter, looser)
    assert (found.p, found.mid_p) == pytest.approx((p, mid_p), abs=1e-6)
    assert (found.direction, found.enough) == (direction, enough)
    assert found.drifted == (stricter + looser >= 6 and p < 0.05)


@steady
@given(st.integers(0, 60), st.integers(0, 60))
def test_drift_agrees_with_statsmodels(stricter: int, looser: int) -> None:
    found = drift([2] * stricter + [0] * looser, [0] * stricter + [2] * looser)
    assume(stricter + looser)
    other = mcnemar(np.array([[9, stricter], [looser, 9]]), exact=True)
    assert found.p == pytest.approx(float(other.pvalue), abs=1e-9)
    assert 0 <= found.mid_p <= found.p <= 1


# Words after Landis and Koch 1977, as listed on a methods page.
def test_words() -> None:
    words = [agreement_word(value) for value in (-0.1, 0.1, 0.2, 0.4, 0.6, 0.8, 1.0)]
    assert words == ["poor", "poor", "fair", "moderate", "good", "very good", "very good"]


def test_a_cue_is_doubted_only_when_both_numbers_are_low() -> None:
    pairs = [(0.39, 0.89), (0.4, 0.89), (0.39, 0.9), (0.4, 0.9), (-1, 1), (1, -1)]
    assert [bears_verdicts(*pair) for pair in pairs] == [False, *[True] * 5]


@pytest.mark.parametrize(
    "call",
    [
        lambda: kappa([1], [1, 2]),
        lambda: kappa([3], [1]),
        lambda: kappa([-1], [1]),
        lambda: kappa([1], [1], "cubic"),  # type: ignore[arg-type]
        lambda: kappa([1], [1], None, 1),
        lambda: gwet_ac([3], [3]),
        lambda: gwet_ac([0], [0], None, 1),
        lambda: drift([4], [1]),
        lambda: agreement_word(float("nan")),
        lambda: bears_verdicts(float("nan"), 0.9),
        lambda: bears_verdicts(0.4, float("nan")),
    ],
)
def test_bad_arguments_end_in_one_sentence(call: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=ONE_SENTENCE):
        call()
