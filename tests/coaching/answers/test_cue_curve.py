"""A cue's skill curve is that of the balls it was watched on, with the nights between the days."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from courtlog.coaching.answers.ball_history import Doubt, History
from courtlog.coaching.answers.cue_curve import TARGET, Curve, curve_of
from courtlog.coaching.game.counts import Counts
from courtlog.measures.learning.curve import skill_curve
from tests.past import past

LEARNS = past(
    "1 practice 02*12 .*2",
    "2 practice 20*6 22*12",
    "3 practice 22*9",
    cues=("turn", "spacing"),
)
GRADES = [*[0] * 12, None, None, *[2] * 6, *[2] * 12, *[2] * 9]
NIGHTS = [15, 33]
"""Balls, counted from 1, that came first after a night."""


def made_of(made: int, seen: int) -> Counts:
    """Counts of a yardstick."""
    return Counts(seen - made, 0, made)


def curve(history: History = LEARNS, start: Counts | None = None) -> Curve:
    """The turn's curve."""
    found = curve_of(history, "turn", start or made_of(2, 10))
    assert found is not None
    return found


def test_a_cue_is_followed_over_the_balls_it_was_watched_on() -> None:
    assert LEARNS.sequence("turn") == (GRADES, NIGHTS)
    one_cue_only = past("1 practice 2*3", cues=("spacing",))
    both = replace(LEARNS, balls=one_cue_only.balls + LEARNS.balls)
    assert both.sequence("turn") == (GRADES, NIGHTS)
    assert both.sequence("finish") == ([], [])


def test_the_curve_is_the_measures_own() -> None:
    skill, found = skill_curve(GRADES, NIGHTS), curve()
    for line, own in (
        (found.low, skill.low),
        (found.median, skill.median),
        (found.high, skill.high),
    ):
        assert np.array_equal(line, own)
    assert (found.mornings, found.seen, found.named) == (tuple(NIGHTS), 39, False)
    assert found.since_yardstick is found.since_target is None, "40 balls are needed to name one"


def test_with_forty_balls_it_says_since_when() -> None:
    more = replace(LEARNS, balls=LEARNS.balls + LEARNS.balls[-1:])
    skill, found = skill_curve([*GRADES, 2], NIGHTS), curve(more)
    assert found.named
    assert found.yardstick == 0.2
    assert found.since_yardstick == skill.learning_ball(0.2)
    assert found.since_target == skill.learning_ball(TARGET)
    assert found.since_yardstick is not None
    assert found.since_target is not None
    assert found.since_yardstick < found.since_target


@pytest.mark.parametrize(
    ("start", "share", "named"),
    [((0, 4), None, False), ((1, 5), 0.2, True), ((0, 5), 0.0, False), ((5, 5), 1.0, False)],
)
def test_a_yardstick_needs_five_balls_and_something_to_beat(
    start: tuple[int, int], share: float | None, named: bool
) -> None:
    more = replace(LEARNS, balls=LEARNS.balls + LEARNS.balls[-1:])
    found = curve(more, made_of(*start))
    assert found.yardstick == share
    assert (found.since_yardstick is not None) is named


def test_below_twenty_seen_balls_there_is_no_curve() -> None:
    history = past("1 practice 2*19 -*5", cues=("turn",))
    assert curve_of(history, "turn", made_of(0, 0)) is None
    one_more = replace(history, balls=history.balls[:1] + history.balls)
    assert curve_of(one_more, "turn", made_of(0, 0)) is not None


def test_a_cue_in_doubt_stays_in_doubt() -> None:
    doubt = Doubt(0.2, 30)
    assert curve(replace(LEARNS, doubts={"turn": doubt, "spacing": Doubt(0.1, 40)})).doubt == doubt
    assert curve().doubt is None
