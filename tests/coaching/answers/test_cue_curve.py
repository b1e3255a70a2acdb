"""A cue's skill curve is that of the balls it was watched on, with the nights between the days."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from courtlog.coaching.answers.ball_history import Doubt, History
from courtlog.coaching.answers.cue_curve import Curve, curve_of
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


def curve(history: History = LEARNS) -> Curve:
    """The turn's curve."""
    found = curve_of(history, "turn")
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
    assert (found.mornings, found.seen) == (tuple(NIGHTS), 39)


def test_below_twenty_seen_balls_there_is_no_curve() -> None:
    history = past("1 practice 2*19 -*5", cues=("turn",))
    assert curve_of(history, "turn") is None
    one_more = replace(history, balls=history.balls[:1] + history.balls)
    assert curve_of(one_more, "turn") is not None


def test_a_cue_in_doubt_stays_in_doubt() -> None:
    doubt = Doubt(0.2, 30)
    assert curve(replace(LEARNS, doubts={"turn": doubt, "spacing": Doubt(0.1, 40)})).doubt == doubt
    assert curve().doubt is None
