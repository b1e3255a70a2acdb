"""When the coach speaks: fading over a day's rounds, after a miss, and what is logged as said."""

from __future__ import annotations

import pytest

from courtlog.coaching.game.rounds import Ball
from courtlog.coaching.game.speaking import (
    FADING,
    Advice,
    Speak,
    Wording,
    by_band,
    by_plan,
    is_planned,
    next_wording,
    planned_to_speak,
    share_of,
)
from courtlog.coaching.voice import figures

NAMES = ("turn", "spacing", "finish")


def band(balls: str) -> str:
    """The band's words after the last of these balls."""
    advice = by_band([Ball.from_token(token, 3) for token in balls.split()], NAMES)
    assert advice.speak is advice.words.startswith("SPEAK")
    return advice.words


def test_four_rounds_of_eight_balls_are_spoken_on_eight_six_four_and_two_times() -> None:
    """By hand: 1, 3/4, 1/2 and 1/4 of 8 balls are 8 + 6 + 4 + 2 = 20 of 32."""
    assert [planned_to_speak(8, share_of(before)) for before in range(4)] == [8, 6, 4, 2]
    assert [share_of(before) for before in range(6)] == [*FADING, 0.25, 0.25]


@pytest.mark.parametrize(
    ("share", "spoken"),
    [
        (1.0, [1, 2, 3, 4, 5, 6, 7, 8]),
        (0.75, [2, 3, 4, 6, 7, 8]),
        (0.5, [2, 4, 6, 8]),
        (0.25, [4, 8]),
    ],
)
def test_the_balls_to_speak_after_are_those_that_pass_a_whole_number(
    share: float, spoken: list[int]
) -> None:
    """By hand: floor(share * k) > floor(share * (k - 1))."""
    assert [ball for ball in range(1, 9) if is_planned(ball, share)] == spoken


def test_the_plan_in_words() -> None:
    assert by_plan(1, 1, 0.5) == Advice(False, "quiet after ball 1")
    assert by_plan(2, 3, 0.5) == Advice(True, "SPEAK after ball 3")


@pytest.mark.parametrize(
    ("balls", "words"),
    [
        ("", "quiet"),
        ("222", "quiet"),
        ("202", "SPEAK now: spacing missed"),
        ("000", "SPEAK now: turn missed"),  # one thing: the first in stroke order
        ("111 111", "quiet"),
        ("112 112 112", "SPEAK now: turn near three times"),
        ("112 112 110", "SPEAK now: finish missed"),  # a miss goes before nears
        ("122 222 122 122", "quiet"),  # in a row
        ("122 -22 122 122", "SPEAK now: turn near three times"),  # not seen breaks no row
        ("000 .", "quiet"),  # what was not seen is not spoken on
    ],
)
def test_outside_the_band_is_a_miss_or_three_nears_in_a_row_of_one_cue(
    balls: str, words: str
) -> None:
    assert band(balls) == words


def test_the_key_goes_through_both_wordings_and_back_to_nothing() -> None:
    assert next_wording(None) is Wording.INNER
    assert next_wording(Wording.INNER) is Wording.OUTER
    assert next_wording(Wording.OUTER) is None


def test_what_was_said_is_told_beside_the_rule_that_was_shown() -> None:
    said = [Wording.INNER] * 4 + [Wording.OUTER] * 2
    assert figures.speaking_words(said, 10, Speak.PLAN, 5) == (
        "Spoke after 6 of 10 balls (plan: 5); first wording 4, second 2."
    )
    assert "(misses and three nears: 3)" in figures.speaking_words(said, 10, Speak.BAND, 3)
    assert "(" not in figures.speaking_words(said, 10, Speak.OFF, None)
