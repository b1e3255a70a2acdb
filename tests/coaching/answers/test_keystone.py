"""Which balls of a player say that two cues go with a third."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courtlog.coaching.answers.ball_history import Doubt, History
from courtlog.coaching.answers.player_answer import stroke_answer
from courtlog.measures.shares.association import Keystone
from tests.past import CUES, past

LEADS = "220*9 002*9 202*9 020*9 200 022"
EASY = "222*20 220*10 202*10 200*3"
HARD = "000*20 002*10 020*10 022*3"
"""The turn is easier in the one; only where both are taken for alike do the others go with it."""


def keystone(history: History) -> Keystone | None:
    return stroke_answer(history, history.days, CUES, curves=False).keystone


def clear(history: History) -> bool:
    cue = keystone(history)
    return cue is not None and cue.clear


@pytest.mark.parametrize("purpose", ["practice", "yardstick", "hold", "transfer"])
def test_every_round_after_the_cues_are_picked_counts(purpose: str) -> None:
    cue = keystone(past(f"1 {purpose} {LEADS}"))
    assert cue is not None
    assert (cue.cue, cue.balls, cue.clear) == ("turn", 38, True)


def test_the_balls_the_cues_were_picked_by_do_not_count() -> None:
    assert keystone(past(f"1 choosing {LEADS}")) is None


@pytest.mark.parametrize("cue", CUES)
def test_a_cue_that_two_ratings_disagree_on_is_left_out(cue: str) -> None:
    history = replace(past(f"1 practice {LEADS}"), doubts={cue: Doubt(0.1, 30)})
    assert keystone(history) is None


@pytest.mark.parametrize(
    ("one", "other", "told"),
    [
        ("1 practice", "1 practice", True),
        ("1 practice", "2 practice", False),
        ("1 practice", "1 hold", False),
        ("1 practice", "1 practice @forehand/live", False),
    ],
)
def test_balls_of_another_day_drill_or_with_the_coach_silent_are_another_kind(
    one: str, other: str, told: bool
) -> None:
    assert clear(past(f"{one} {EASY}", f"{other} {HARD}")) is told
