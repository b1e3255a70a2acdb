"""Whether a player goes up a rung, as it is read: the drill by its name, the counts that decide."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courtlog.coaching.answers.ball_history import Doubt
from courtlog.coaching.answers.rung_call import rung_call
from courtlog.coaching.voice.rung_voice import RULE, rung_statement
from courtlog.coaching.voice.sentence_length import MOST_WORDS
from courtlog.coaching.voice.statement import Statement
from tests.past import CUES, DRILL, past

NAMES = {cue: cue for cue in CUES}


def called(*rounds: str, drill: str = "Drop and hit") -> Statement:
    """What is said of the rung after these rounds."""
    return rung_statement(rung_call(past(*rounds), DRILL, CUES), NAMES, drill)


@pytest.mark.parametrize(
    ("rounds", "words"),
    [
        (["1 practice ."], "Stay on Drop and hit: no practice ball with a cue seen on it yet."),
        (
            ["1 practice 222*10"],
            "Ready to move up from Drop and hit: turn, passed twice with 10 of 10 balls.",
        ),
        (["1 practice 220*3"], "Stay on Drop and hit: finish, 0 of the last 3 balls."),
        (["1 practice 2--"], "Not sure yet, stay on Drop and hit: turn, made on the last ball."),
        (["1 practice 222*4 022"],
         "Not sure yet, stay on Drop and hit: turn, 4 of the last 5 balls."),
        (["1 practice 222*5"],
         "Not sure yet, stay on Drop and hit: turn passed once and must pass again."),
        (["1 practice 222*10", "2 hold 022*20"],
         "Ready to move up from Drop and hit: turn, passed twice with 10 of 10 balls."
         " With no help turn was 0 of 20: look again."),
        (["1 practice 022*3", "2 hold 222*20"], "Stay on Drop and hit: turn, 0 of the last 3 balls."
         " With no help turn was 20 of 20: look again."),
    ],
)  # fmt: skip
def test_each_decision(rounds: list[str], words: str) -> None:
    assert called(*rounds).sentence == words


@pytest.mark.parametrize(
    ("ball", "words"),
    [
        ("022", "Look again before moving up: turn was ready, and is missed more now."),
        (
            "000",
            "Look again before moving up: turn, spacing and finish were ready, and are missed more"
            " now.",
        ),
    ],
)
def test_a_slip_names_each_cue(ball: str, words: str) -> None:
    said = called("1 practice 222*40", f"2 practice {ball}*20")
    assert said.sentence == words
    assert said.reason == "Seen by luck alone 1 cue in 10 a week."


def test_the_reason_tells_what_would_end_it_and_which_balls_count() -> None:
    reason = called("1 practice 222*4").reason
    assert reason == (
        "If the next ball is made, it passes once, of two times needed."
        " After 5 more missed it is not ready. " + RULE
    )


def test_a_doubted_cue_says_so() -> None:
    history = replace(past("1 practice 222*10"), doubts={"turn": Doubt(0.1, 30)})
    call = rung_call(history, DRILL, CUES)
    said = rung_statement(call, NAMES, "Drop and hit").sentence
    assert said.endswith("Rated twice, it came out two ways, so nothing is claimed.")


@pytest.mark.parametrize("balls", ["222*4 022", "222*5", "220*3", "222*10", "."])
def test_a_long_drill_name_makes_two_sentences(balls: str) -> None:
    name = "Fence: the short back, the long reach, and then the wide step to it"
    said = called(f"1 practice {balls}", drill=name).sentence
    assert name in said
    assert all(len(part.split()) <= MOST_WORDS for part in said.split(". "))
