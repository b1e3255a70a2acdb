"""How often balls call a true change clear, against an agreed table, a library and every pair."""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import binom
from statsmodels.stats.proportion import confint_proportions_2indep

from courtlog.measures.common import enough
from courtlog.measures.common.enough import (
    MINIMUMS,
    PLAN_NEXT,
    Level,
    Question,
    Words,
    level,
    verdict,
)
from courtlog.measures.shares.power import ClearChance, clear_chance
from courtlog.measures.shares.proportions import newcombe
from tests.measures.steady import fewer, steady

# Exact sums over both binomials of Newcombe's 95 % interval, without a minimum of balls; computed
# apart from this program when its rules were agreed. Below 16 seen balls nothing is called clear.
AGREED = {
    (0.40, 0.70): {10: 0.25, 20: 0.46, 30: 0.66, 40: 0.80, 60: 0.92},
    (0.50, 0.80): {10: 0.25, 20: 0.53, 30: 0.69, 40: 0.82, 60: 0.94},
    (0.30, 0.50): {10: 0.13, 20: 0.24, 30: 0.35, 40: 0.46, 60: 0.62},
}
LEAST = int(MINIMUMS[Question.YARDSTICK][0].refuse)

SHARE = st.floats(0, 1)
SEEN = st.integers(0, 30)


@pytest.mark.parametrize(
    ("early", "late", "balls", "chance"),
    [(*shares, balls, chance) for shares, row in AGREED.items() for balls, chance in row.items()],
)
def test_the_agreed_table(early: float, late: float, balls: int, chance: float) -> None:
    up = clear_chance(early, late, balls, balls).up
    assert up == pytest.approx(chance if balls >= LEAST else 0.0, abs=0.0075)


@pytest.mark.parametrize(
    ("early", "late", "seen_early", "seen_late"),
    [(0.35, 0.70, 20, 20), (0.35, 0.70, 20, 40), (0.35, 0.55, 19, 38), (0.5, 0.5, 40, 40)],
)
def test_every_pair_of_counts_with_the_interval_of_a_library(
    early: float, late: float, seen_early: int, seen_late: int
) -> None:
    pairs = [(x, y) for x in range(seen_early + 1) for y in range(seen_late + 1)]
    low, high = zip(
        *(
            confint_proportions_2indep(y, seen_late, x, seen_early, method="newcomb")
            for x, y in pairs
        ),
        strict=True,
    )
    weights = np.array(
        [binom.pmf(x, seen_early, early) * binom.pmf(y, seen_late, late) for x, y in pairs]
    )
    here = clear_chance(early, late, seen_early, seen_late)
    assert here.up == pytest.approx(float(weights[np.array(low) > 1e-12].sum()), abs=1e-9)
    assert here.down == pytest.approx(float(weights[np.array(high) < -1e-12].sum()), abs=1e-9)


@fewer
@given(SHARE, SHARE, SEEN, SEEN, st.sampled_from([0.9, 0.95, 0.983]))
def test_the_gate_is_the_verdicts_on_every_pair(
    early: float, late: float, seen_early: int, seen_late: int, confidence: float
) -> None:
    bears = level(Question.YARDSTICK, seen_late, seen_early, 1.0)
    before = binom.pmf(range(seen_early + 1), seen_early, early)
    after = binom.pmf(range(seen_late + 1), seen_late, late)
    chances = dict.fromkeys(Words, 0.0)
    for x in range(seen_early + 1):
        for y in range(seen_late + 1):
            words = verdict(newcombe(y, seen_late, x, seen_early, confidence), bears).words
            chances[words] += float(before[x] * after[y])
    here = clear_chance(early, late, seen_early, seen_late, confidence)
    assert here.up == pytest.approx(chances[Words.CLEARLY_UP], abs=1e-9)
    assert here.down == pytest.approx(chances[Words.CLEARLY_DOWN], abs=1e-9)
    if bears is Level.REFUSE:
        assert here == ClearChance(0.0, 0.0)


@steady
@given(SHARE, SHARE, st.integers(16, 60), st.integers(16, 60))
def test_a_fall_is_a_rise_looked_at_from_the_other_side(
    early: float, late: float, seen_early: int, seen_late: int
) -> None:
    here = clear_chance(early, late, seen_early, seen_late)
    turned = clear_chance(1 - early, 1 - late, seen_early, seen_late)
    assert (here.up, here.down) == pytest.approx((turned.down, turned.up), abs=1e-9)
    assert 0 <= here.up + here.down <= 1 + 1e-9
    surer = clear_chance(early, late, seen_early, seen_late, 0.983)
    assert surer.up <= here.up + 1e-12


@pytest.mark.parametrize("balls", [16, 20, 40, 60])
def test_with_nothing_changed_a_rise_is_called_no_more_often_than_agreed(balls: int) -> None:
    shares = [number / 50 for number in range(51)]
    assert max(clear_chance(share, share, balls, balls).up for share in shares) <= 0.03


def test_balls_to_plan_find_what_is_said_of_them() -> None:
    source = Path(enough.__file__).read_text(encoding="utf-8")
    words = source.partition("PLAN_NEXT = ")[2].partition('"""')[2]
    said = re.match(
        r"Balls .* from (\d+) to (\d+)% (\d+) times in 10; (\d+) balls (\d+) times", words
    )
    assert said is not None, words
    early, late, often, fewer_balls, seldom = map(int, said.groups())
    for balls, times in ((PLAN_NEXT, often), (fewer_balls, seldom)):
        assert round(10 * clear_chance(early / 100, late / 100, balls, balls).up) == times
