"""The rung call: all practice on the drill, the slip after it, and what stands beside it."""

from __future__ import annotations

import numpy as np
import pytest

from courtlog.coaching.answers.rung_call import cue_call, rung_call
from courtlog.coaching.voice import figures
from tests.past import CUES, DRILL, past

NAMES = {cue: cue for cue in CUES}


def called(*rounds: str) -> str:
    """The rung call of the drill on court, in words."""
    return figures.rung_sentence(rung_call(past(*rounds), DRILL, CUES), NAMES)


@pytest.mark.parametrize(
    ("rounds", "words"),
    [
        (["1 practice ."], "Rung: no practice ball with a cue seen on it yet."),
        (
            ["1 practice 222*10"],
            "Rung: ready to move up (turn 10 of the 10 balls that decided it).",
        ),
        (
            ["1 practice 222*5"],
            "Rung: keep feeding (turn passed once, twice is needed; the next 5 made:"
            " ready to move up; 3 more missed: not ready).",
        ),
        (
            ["1 practice 222*7"],
            "Rung: keep feeding (turn passed once, twice is needed; 2 of 2 made; the next 3"
            " made: ready to move up; 4 more missed: not ready).",
        ),
        (
            ["1 practice 222*5 000*3 222*5"],  # a "not yet" between: once again
            "Rung: keep feeding (turn passed once, twice is needed;",
        ),
        (["1 practice 220*3"], "Rung: not yet (finish 0 of the 3 balls that decided it)."),
        (
            ["1 practice 222*4"],
            "Rung: keep feeding (turn 4 of 4 made; the next 1 made: passed once;"
            " 5 more missed: not ready).",
        ),
        (["1 practice 222*4 022"], "Rung: keep feeding (turn 4 of 5 made"),
        (
            ["1 practice 111*3"],
            "Rung: not yet (turn 0 of the 3 balls that decided it).",
        ),  # near is not made
        (["1 practice 22-*5 --2"], "Rung: keep feeding (finish 1 of 1 made"),  # not seen: skipped
        (
            ["1 practice 222*2", "1 practice @forehand/live 000*9", "2 practice 222*3"],
            "Rung: keep feeding (turn passed once,",
        ),  # practice on another drill leaves the test as it was
        (
            ["1 choosing 222*9", "1 yardstick 222*9", "1 practice 2--", "1 hold 222*9"],
            "Rung: keep feeding (turn 1 of 1 made; the next 4",
        ),  # only practice counts
        (
            ["1 practice 222*10", "1 practice @forehand/live 000*3", "1 practice 222"],
            "Rung: keep feeding (turn 1 of 1 made;",
        ),  # ready, one rung up and back again: the test begins anew
        (
            ["1 practice 222*10", "1 practice @forehand/fence 000*3", "1 practice 222"],
            "Rung: ready to move up",
        ),
        (
            ["1 practice 222*10", "2 hold 22-*5 220 000*4"],
            "Rung: ready to move up (turn 10 of the 10 balls that decided it).",
        ),
        (
            ["1 practice 222*10", "2 hold 2-0*5 000*5"],
            "Rung: ready to move up (turn 10 of the 10 balls that decided it); but without coaching"
            " finish 0 of 10, last time.",
        ),
        (
            ["1 practice 022*3", "2 hold 222*9 022*2"],
            "Rung: not yet (turn 0 of the 3 balls that decided it); but without coaching"
            " turn 9 of 11, last time.",
        ),
        (
            ["1 practice 222*10", "1 hold 000*20", "2 hold 222*10"],
            "Rung: ready to move up (turn 10 of the 10 balls that decided it).",
        ),  # only the latest uncoached day is told
    ],
)
def test_the_rung_call_is_that_of_the_weakest_cue(rounds: list[str], words: str) -> None:
    """Wald's test with its default plan: up at 5 of 5 at the earliest, twice; not yet at 0 of 3."""
    assert called(*rounds).startswith(words)


@pytest.mark.parametrize(
    ("true", "balls", "least", "most"), [(0.5, 60, 0.0, 0.03), (0.8, 20, 0.5, 0.6)]
)
def test_moving_up_is_rare_by_luck_and_soon_when_earned(
    true: float, balls: int, least: float, most: float
) -> None:
    """One cue on one rung, the test begun again and again; within three standard errors.

    The shares were found by simulation of the rule alone: .03 of 60 balls; half by 19 balls.
    """
    players = 300
    draws = np.random.default_rng(15).random((players, balls)) < true
    histories = (
        past(f"1 practice {' '.join('02'[made] for made in row)}", cues=CUES[:1])
        for row in draws.tolist()
    )
    calls = [cue_call(history, "turn") for history in histories]
    share = sum(call is not None and call.decision == "up" for call in calls) / players
    slack = 3 * (most * (1 - most) / players) ** 0.5
    assert least - slack <= share <= most + slack


def test_after_not_yet_the_test_starts_anew() -> None:
    assert called("1 practice 000*3 222*2").startswith("Rung: keep feeding (turn 2 of 2 made")


def test_slipping_is_told_in_the_round_it_rings_and_not_before_ten_balls() -> None:
    def slipping(*rounds: str) -> bool:
        call = rung_call(past(*rounds), DRILL, CUES)
        assert call is not None
        return bool(call.slipping)

    assert slipping("1 practice 222*10", "1 practice 222*4 000*6")
    assert not slipping("1 practice 222*10", "1 practice 222*4 000*5")
    assert not slipping("1 practice 222*10", "1 practice 222 000*6")
    assert not slipping("1 practice 222*9", "1 practice 222*4 000*6"), "it was ready once only"
    assert not slipping("1 practice 222*10", "1 practice 222*4 000*6", "1 practice 222*9")
    assert called("1 practice 222*10", "1 practice 222*4 020*6") == (
        "Rung: look again before moving up: turn, finish was ready, and is missed more now"
        " (by luck alone 1 cue in 10 a week)."
    )


def test_a_player_who_was_ready_by_luck_is_not_told_to_slip_for_being_the_same() -> None:
    """Six of ten all week, ready once by ten in a row: the misses are as many as before."""
    usual = "222*3 000*2"
    assert called(f"1 practice {usual} {usual} 222*10", f"2 practice {usual} {usual}").startswith(
        "Rung: ready to move up"
    )


def test_a_slip_is_rare_by_luck_and_a_fall_is_found() -> None:
    """Ten rounds of ten at .75, then six at .50; by luck at most .09 a cue, found in .70."""

    def told(later: float, seed: int) -> float:
        draws, cues = np.random.default_rng(seed), CUES[:1]
        slips = players = 0
        while players < 60:
            made = [*(draws.random(100) < 0.75), *(draws.random(60) < later)]
            tokens = ["2" if one else "0" for one in made]
            rounds = [
                f"{1 + start // 40} practice {' '.join(tokens[start : start + 10])}"
                for start in range(0, 160, 10)
            ]
            before = cue_call(past(*rounds[:10], cues=cues), "turn")
            if before is not None and before.decision == "up":
                players += 1
                later_calls = (
                    cue_call(past(*rounds[:n], cues=cues), "turn") for n in range(11, 17)
                )
                slips += any(call is not None and call.slipping for call in later_calls)
        return slips / players

    assert told(0.75, 1) <= 0.09 + 3 * (0.09 * 0.91 / 60) ** 0.5
    assert told(0.50, 2) >= 0.70 - 3 * (0.70 * 0.30 / 60) ** 0.5
