"""Whole hundredths: exact, the same from counts and from floats, and the same up as down."""

from __future__ import annotations

import re
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from itertools import product
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import courtlog
from courtlog import manual
from courtlog.coaching.game.counts import Counts
from courtlog.coaching.voice.figures import points
from courtlog.measures.common.hundredths import hundredths

BALLS = st.integers(1, 1000)


@pytest.mark.parametrize(
    ("made", "seen", "percent"),
    [(1, 8, 13), (3, 8, 38), (29, 200, 15), (57, 200, 29), (1, 200, 1), (0, 8, 0), (7, 8, 88)],
)
def test_a_half_goes_up_in_every_percentage(made: int, seen: int, percent: int) -> None:
    assert Counts(missed=seen - made, made=made).percent_words() == f"{percent}%"
    assert hundredths(made / seen) == percent


@pytest.mark.parametrize(("change", "words"), [(0.125, "+13"), (-0.125, "-13"), (-0.004, "0")])
def test_a_rise_and_the_like_fall_have_the_same_points(change: float, words: str) -> None:
    assert points(change) == f"{words} points"


def test_shares_of_up_to_200_balls_are_rounded_as_by_hand() -> None:
    for seen, made in product(range(1, 201), range(201)):
        if made <= seen:
            by_hand = (Decimal(100 * made) / seen).quantize(Decimal(1), ROUND_HALF_UP)
            assert hundredths(made / seen) == hundredths(Fraction(made, seen)) == by_hand


@given(BALLS, BALLS, st.data())
def test_a_difference_is_rounded_as_its_exact_fraction(
    n1: int, n2: int, data: st.DataObject
) -> None:
    x1, x2 = data.draw(st.integers(0, n1)), data.draw(st.integers(0, n2))
    exact = Fraction(x1, n1) - Fraction(x2, n2)
    assert hundredths(x1 / n1 - x2 / n2) == hundredths(exact) == -hundredths(-exact)
    assert abs(hundredths(exact) - 100 * exact) <= Fraction(1, 2)


def test_no_other_place_rounds_to_hundredths() -> None:
    root = Path(courtlog.__file__).parent
    own = [
        path.name
        for path in root.rglob("*.py")
        if re.search(r"round\(\s*100 ?\*|:\.[0-9]%", path.read_text())
    ]
    assert own == []


def test_the_rule_is_said_to_whoever_reads_a_percentage() -> None:
    words, numbers = (" ".join(manual.page(name).split()) for name in ("words", "numbers"))
    assert "a half goes away from zero" in words
    assert f"5 of 8 is {Counts(missed=3, made=5).percent_words()}" in words
    assert f"a fall of 12.5 points is {-hundredths(-0.125)}." in numbers
