"""Cues that go together, against statsmodels and a second route; and the one to try first."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from courtlog.measures.common.enough import Level
from courtlog.measures.shares.association import (
    CueBall,
    Keystone,
    goes_with,
    keystone,
    paired_strata,
)
from courtlog.measures.shares.strata_tests import odds_ratio
from tests.measures.steady import ONE_SENTENCE, fewer

CUES = ("turn", "spacing", "finish")

# An invented basket: kind of ball (H hand, R racquet, ! tough), then turn, spacing, finish: 1 made.
BASKET = """
    H 111  H 100  H 111  H 011  H 100  H 110  H 000  H 111  H! 100  H! 011  H! 000  H! 111
    R 111  R 000  R 101  R 111  R 010  R 100  R 111  R 000  R! 000  R! 111  R! 001  R! 100
"""


def balls_of(text: str, baskets: int = 1) -> list[CueBall]:
    words = text.split()
    return [
        CueBall(
            {cue: 2 * int(made) for cue, made in zip(CUES, grades, strict=True)},
            kind,
            basket=number % baskets,
        )
        for number, (kind, grades) in enumerate(zip(words[::2], words[1::2], strict=True))
    ]


def columns(balls: list[CueBall]) -> tuple[dict[str, list[int | None]], list[object]]:
    return {cue: [ball.grades[cue] for ball in balls] for cue in CUES}, [b.kind for b in balls]


# Computed by two independent routes.
DIFFERENCES = {
    "turn>spacing": 0.2326,
    "turn>finish": 0.2791,
    "spacing>turn": 0.2222,
    "spacing>finish": 0.7111,
    "finish>turn": 0.25,
    "finish>spacing": 0.6667,
}
ODDS = {"turn>spacing": 2.6667, "turn>finish": 2.7143, "spacing>finish": 33.0}
SCORES = {"turn": 0.2558, "spacing": 0.4667, "finish": 0.4583}


@pytest.mark.parametrize("pair", DIFFERENCES)
def test_pairs_of_the_basket(pair: str) -> None:
    grades, kinds = columns(balls_of(BASKET))
    first, second = pair.split(">")
    found = goes_with(grades[first], grades[second], kinds)
    assert found.difference is not None
    assert found.difference.value == pytest.approx(DIFFERENCES[pair], abs=5e-5)
    if pair in ODDS:
        ratio = odds_ratio(paired_strata(grades[first], grades[second], kinds))
        assert ratio is not None
        assert ratio.value == pytest.approx(ODDS[pair], abs=5e-5)
    if pair == "spacing>finish":
        assert (found.difference.low, found.difference.high) == pytest.approx(
            (0.2793, 0.8868), abs=5e-5
        )
    assert (found.balls, found.level) == (24, Level.REFUSE)


def test_the_keystone_of_the_basket() -> None:
    found = keystone(balls_of(BASKET), CUES)
    assert [cue.cue for cue in found.ranked] == ["spacing", "finish", "turn"]
    for cue in found.ranked:
        assert cue.score == pytest.approx(SCORES[cue.cue], abs=5e-5)
        assert (cue.low, cue.high, cue.level) == (None, None, Level.REFUSE)
    assert (found.suggested, found.tied) == ("spacing", ("spacing", "finish"))
    turned = keystone(balls_of(BASKET), ("finish", "turn", "spacing"))
    assert (turned.suggested, turned.tied) == ("finish", ("finish", "spacing"))


GRADE = st.sampled_from([0, 1, 2, None])
BALL = st.builds(
    lambda grades, kind, basket, day: CueBall(
        dict(zip(CUES, grades, strict=True)), kind, basket, day
    ),
    st.tuples(GRADE, GRADE, GRADE),
    st.sampled_from("HR"),
    st.integers(0, 4),
    st.integers(1, 2),
)


@fewer
@given(st.lists(BALL, max_size=40))
def test_scores_are_means_of_like_for_like(balls: list[CueBall]) -> None:
    """The arrays behind the resampling against the plain measure, ball by ball."""
    found = keystone(balls, CUES, resamples=5)
    grades, kinds = columns(balls)
    for cue in found.ranked:
        pairs = [goes_with(grades[cue.cue], grades[k], kinds) for k in CUES if k != cue.cue]
        values = [pair.difference.value for pair in pairs if pair.difference is not None]
        if values:
            assert cue.score == pytest.approx(sum(values) / len(values), abs=1e-12)
        else:
            assert cue.score is None


@fewer
@given(st.lists(BALL, max_size=40), st.lists(BALL, max_size=5))
def test_unseen_balls_change_no_score(balls: list[CueBall], more: list[CueBall]) -> None:
    unseen = [CueBall(dict.fromkeys(CUES), ball.kind, ball.basket, ball.day) for ball in more]
    here, there = keystone(balls, CUES, resamples=1), keystone([*balls, *unseen], CUES, resamples=1)
    assert [(c.cue, c.score) for c in here.ranked] == [(c.cue, c.score) for c in there.ranked]


def clinic(seed: int, baskets: int, together: float) -> list[CueBall]:
    """Invented balls: finish follows spacing with this chance, turn goes its own way."""
    draw = np.random.default_rng(seed)
    balls = []
    for basket in range(baskets):
        for _ in range(10):
            spacing, turn = draw.random() < 0.5, draw.random() < 0.5
            finish = spacing if draw.random() < together else draw.random() < 0.5
            made = (int(turn), int(spacing), int(finish))
            grades = {cue: 2 * n for cue, n in zip(CUES, made, strict=True)}
            balls.append(CueBall(grades, "H", basket, basket // 4))
    return balls


def test_the_interval_holds_the_score_and_comes_from_the_seed() -> None:
    balls = clinic(3, 12, 0.8)
    first, again, other = (keystone(balls, CUES, seed) for seed in (1, 1, 2))
    assert first == again
    assert first != other
    for cue in first.ranked:
        assert cue.score is not None
        assert cue.low is not None
        assert cue.high is not None
        assert cue.low < cue.score < cue.high
        assert cue.level is Level.NORMAL
    assert first.suggested == "spacing"
    assert keystone(clinic(3, 5, 0.8), CUES).ranked[0].low is None


def test_resampling_draws_whole_baskets_within_their_day() -> None:
    """Two days of one basket each can only be drawn as they are: the interval is a point."""
    balls = [
        CueBall(ball.grades, ball.kind, basket=0, day=number % 6)
        for number, ball in enumerate(clinic(4, 12, 0.8))
    ]
    for cue in keystone(balls, CUES).ranked:
        assert (cue.low, cue.high) == pytest.approx((cue.score, cue.score))


def test_a_cue_always_made_is_never_suggested() -> None:
    balls = [
        CueBall({**ball.grades, "spacing": 2}, ball.kind, ball.basket) for ball in balls_of(BASKET)
    ]
    found = keystone(balls, CUES)
    assert found.suggested in ("turn", "finish")
    assert next(cue for cue in found.ranked if cue.cue == "spacing").score is None


def test_nothing_to_rank() -> None:
    assert keystone([], ()) == Keystone((), None)
    alone = keystone(balls_of(BASKET), ("turn",))
    assert (alone.ranked[0].score, alone.suggested) == (None, None)
    assert keystone([], CUES).suggested is None


@pytest.mark.parametrize(
    "call",
    [
        lambda: goes_with([2], [2, 2], ["H"]),
        lambda: goes_with([3], [2], ["H"]),
        lambda: keystone([], ("turn", "turn")),
        lambda: keystone([CueBall({"turn": 5})], ("turn",)),
        lambda: keystone([], CUES, resamples=0),
    ],
)
def test_bad_arguments_end_in_one_sentence(call: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=ONE_SENTENCE):
        call()
