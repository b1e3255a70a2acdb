"""The one table of minimums, and the words an interval may be given in."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courtlog.measures.common.enough import (
    MINIMUMS,
    Level,
    Question,
    Verdict,
    Words,
    level,
    trend_verdict,
    verdict,
    verdict_by_p,
)
from tests.measures.steady import ONE_SENTENCE, steady


@dataclass(frozen=True)
class Between:
    low: float
    high: float


@dataclass(frozen=True)
class Slope:
    slope: float
    p: float
    p_exact: float | None


R, W, N = Level.REFUSE, Level.WEAK, Level.NORMAL

# The rows a clinic lives by, as agreed for this program (common practice, no source).
LEVELS = [
    (Question.RATE, (4,), R),
    (Question.RATE, (5,), W),
    (Question.RATE, (9,), W),
    (Question.RATE, (10,), N),
    (Question.YARDSTICK, (15, 40, 1), R),
    (Question.YARDSTICK, (40, 15, 1), R),
    (Question.YARDSTICK, (16, 16, 0.49), R),
    (Question.YARDSTICK, (16, 16, 0.5), N),
    (Question.TWO_ROUNDS, (7, 40), R),
    (Question.TWO_ROUNDS, (40, 7), R),
    (Question.TWO_ROUNDS, (8, 20), W),
    (Question.TWO_ROUNDS, (20, 19), W),
    (Question.TWO_ROUNDS, (20, 20), N),
    (Question.LIKE_FOR_LIKE, (9, 60, 0.9), R),
    (Question.LIKE_FOR_LIKE, (60, 60, 0.49), R),
    (Question.LIKE_FOR_LIKE, (10, 30, 0.5), W),
    (Question.LIKE_FOR_LIKE, (30, 30, 0.5), N),
    (Question.TREND, (2, 100), R),
    (Question.TREND, (3, 29), R),
    (Question.TREND, (3, 59), W),
    (Question.TREND, (3, 60), N),
    (Question.SKILL_CURVE, (19,), R),
    (Question.SKILL_CURVE, (20,), N),
    (Question.ADVICE, (19,), R),
    (Question.ADVICE, (20,), N),
    (Question.SLIP, (9,), R),
    (Question.SLIP, (10,), N),
    (Question.OVERNIGHT, (7, 20), R),
    (Question.OVERNIGHT, (8, 19), W),
    (Question.OVERNIGHT, (20, 20), N),
    (Question.TOGETHER, (29,), R),
    (Question.TOGETHER, (30,), N),
    (Question.RATERS, (19,), R),
    (Question.RATERS, (49,), W),
    (Question.RATERS, (50,), N),
    (Question.MONOTONY, (4,), R),
    (Question.MONOTONY, (6,), W),
    (Question.MONOTONY, (7,), N),
    (Question.NEIGHBOURS, (99,), R),
    (Question.NEIGHBOURS, (100,), N),
    (Question.PRACTISED, (7, 20), R),
    (Question.PRACTISED, (8, 19), W),
    (Question.PRACTISED, (20, 20), N),
]


@pytest.mark.parametrize(("question", "counts", "expected"), LEVELS)
def test_every_row_of_the_table(
    question: Question, counts: tuple[float, ...], expected: Level
) -> None:
    assert level(question, *counts) is expected


def test_no_row_is_left_out_of_this_sheet() -> None:
    assert {question for question, _, _ in LEVELS} == set(Question) == set(MINIMUMS)


@steady
@given(st.sampled_from(Question), st.lists(st.integers(0, 100), min_size=3, max_size=3), st.data())
def test_more_balls_never_weaken_an_answer(
    question: Question, counts: list[int], data: st.DataObject
) -> None:
    here = [float(count) for count in counts[: len(MINIMUMS[question])]]
    place = data.draw(st.integers(0, len(here) - 1))
    more = list(here)
    more[place] += 1
    rising = [R, W, N]
    assert rising.index(level(question, *here)) <= rising.index(level(question, *more))


@pytest.mark.parametrize(
    ("low", "high", "at", "words"),
    [
        (0.16, 0.48, N, "clearly up"),
        (-0.48, -0.16, N, "clearly down"),
        (0.04, 0.58, N, "clearly up"),  # wide, but clear of zero
        (0.17, 0.81, W, "worth a look: up"),
        (-0.81, -0.17, W, "worth a look: down"),
        (-0.04, 0.26, N, "could be either"),
        (-0.04, 0.26, W, "could be either"),
        (-0.51, 0.14, W, "too few balls to tell"),
        (-0.51, 0.14, N, "too few balls to tell"),
        (-0.3, 0.3, N, "could be either"),  # as wide as may be
        (-0.41, 0.15, N, "could be either"),  # 11 of 20 against 14 of 20
        (0.0, 0.3, N, "could be either"),  # touching zero is not clearing it
        (0.5, 0.9, R, "too few balls to tell"),
    ],
)
def test_an_interval_in_words(low: float, high: float, at: Level, words: str) -> None:
    assert str(verdict(Between(low, high), at)) == words


def test_only_the_comparison_chosen_beforehand_is_called_clear() -> None:
    up = Between(0.1, 0.4)
    assert verdict(up, N) == Verdict(Words.CLEARLY_UP, 1)
    assert str(verdict(up, N, planned=False)) == "worth a look: up"
    assert str(verdict(up, W, planned=False)) == "worth a look: up"
    assert verdict(Between(-0.1, 0.1), N, planned=False).words is Words.COULD_BE_EITHER
    assert str(trend_verdict(Slope(0.1, 0.01, None), N, planned=False)) == "worth a look: up"
    assert str(verdict_by_p(-0.1, 0.01, N, planned=False)) == "worth a look: down"
    assert verdict_by_p(-0.1, 0.01, R) == Verdict(Words.TOO_FEW)


def test_without_a_result_nothing_was_alike_or_the_days_are_too_few() -> None:
    assert trend_verdict(None, N) == Verdict(Words.TOO_FEW)
    assert verdict(None, N) == verdict(None, R) == Verdict(Words.NOTHING_ALIKE)


@pytest.mark.parametrize(
    ("slope", "p", "p_exact", "at", "words"),
    [
        (0.1, 0.01, None, N, "clearly up"),
        (-0.1, 0.01, None, N, "clearly down"),
        (0.1, 0.04, 0.06, N, "could be either"),  # the exact value goes before the other
        (0.1, 0.05, None, N, "could be either"),  # the line itself is not below it
        (0.1, 0.049, None, N, "clearly up"),
        (0.1, 0.01, 0.01, W, "worth a look: up"),
        (0.1, 0.01, 0.01, R, "too few balls to tell"),
    ],
)
def test_a_trend_in_words(
    slope: float, p: float, p_exact: float | None, at: Level, words: str
) -> None:
    assert str(trend_verdict(Slope(slope, p, p_exact), at)) == words
    if p_exact is None:
        assert str(verdict_by_p(slope, p, at)) == words


@steady
@given(st.floats(-1, 1), st.floats(-1, 1), st.sampled_from(Level), st.booleans())
def test_turning_up_into_down_turns_the_words(a: float, b: float, at: Level, planned: bool) -> None:
    low, high = min(a, b), max(a, b)
    here = verdict(Between(low, high), at, planned=planned)
    there = verdict(Between(-high, -low), at, planned=planned)
    turned = {Words.CLEARLY_UP: Words.CLEARLY_DOWN, Words.CLEARLY_DOWN: Words.CLEARLY_UP}
    assert there.words is turned.get(here.words, here.words)
    assert there.direction == -here.direction


def test_clear_words_never_come_below_the_minimum() -> None:
    for at, (low, high) in product((R, W), [(0.1, 0.2), (-0.2, -0.1)]):
        assert "clearly" not in str(verdict(Between(low, high), at))


@pytest.mark.parametrize("counts", [(), (1, 2), (-1,), (float("nan"),)])
def test_bad_counts_end_in_one_sentence(counts: tuple[float, ...]) -> None:
    with pytest.raises(ValueError, match=ONE_SENTENCE):
        level(Question.RATE, *counts)
