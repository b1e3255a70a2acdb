"""The plan to take home: where practice stood, how much, when none, and which yardstick."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courtlog.coaching.answers.ball_history import History
from courtlog.coaching.answers.player_answer import stroke_answer
from courtlog.coaching.plans import homework
from courtlog.coaching.plans.homework import HomeYardstick
from tests.court import LIBRARY
from tests.past import CUES, day, past

LADDER = LIBRARY.ladder("forehand")
NOTHING = History("forehand", ())


def yardstick(history: History) -> HomeYardstick:
    """The yardstick to repeat, of a history over five days."""
    answer = stroke_answer(history, [day(n) for n in range(1, 6)], CUES, curves=False)
    found = homework.homework(history, answer, LADDER, 5).yardstick
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("rounds", "usual"),
    [
        ([], 0),
        (["1 practice 222*9"], 9),
        (["1 practice 222*9", "2 practice 222*20", "2 hold 222*10", "3 practice 222*12"], 12),
        (["1 practice 222*9", "2 practice 222*20"], 14),
    ],
)
def test_a_usual_day_is_the_middle_one(rounds: list[str], usual: int) -> None:
    assert homework.usual_day(past(*rounds)) == usual


def test_the_rung_to_go_on_from() -> None:
    def rung(*rungs: tuple[str, int]) -> int:
        history = past(*(text for text, _ in rungs))
        of_round = dict(enumerate((rung for _, rung in rungs), 1))
        balls = (
            replace(ball, kind=ball.kind._replace(rung=of_round[ball.round_id]))
            for ball in history.balls
        )
        return homework.current_rung(replace(history, balls=tuple(balls)))

    assert homework.current_rung(NOTHING) == 1
    assert rung(("1 hold 222 222", 4), ("1 yardstick 222", 6)) == 6, "the last ball's"
    assert rung(("1 practice 222", 3), ("2 practice 222", 5), ("2 practice 222", 4)) == 5
    assert rung(("1 practice 222", 7), ("2 practice 222", 2), ("3 yardstick 222", 6)) == 2


def test_only_rounds_like_the_first_yardstick_are_repeated() -> None:
    found = yardstick(
        past(
            "1 yardstick 222*12",
            "1 yardstick @forehand/live 000*30",
            "1 yardstick 022*3",
            "5 yardstick 222*20",
        )
    )
    assert found.drill.key == "racquet-feed"
    assert [len(balls) for balls in found.first] == [12, 3]
    assert (found.balls, found.on) == (20, day(1)), "enough to compare, though 15 were played"
    long = yardstick(past("1 yardstick 222*90"))
    assert long.balls == homework.MOST_YARDSTICK
    assert [cue.key for cue in long.cues] == list(CUES)
    assert yardstick(past("1 yardstick 222")).first[0][0].token() == "222", "one ball is a round"


def test_without_a_yardstick_the_first_home_drill_becomes_one() -> None:
    found = yardstick(past("1 practice 222*20"))
    drills = homework.home_drills(LADDER, 5)
    assert found.drill is drills[0].drill
    assert found.drill is not drills[1].drill
    assert (found.first, found.on) == ((), None)


def test_the_good_thing_is_of_the_last_day_with_a_ball_seen() -> None:
    names = {cue: f"the {cue}" for cue in CUES}

    def well(*rounds: str) -> str:
        answer = stroke_answer(past(*rounds), [day(n) for n in range(1, 6)], CUES, curves=False)
        (words,) = homework.going_well(answer, names)
        return words

    assert well("1 practice 222*20", "3 practice 021*9 220") == (
        "Made most often on day 3: the spacing, 10 of 10 (100%, 72 to 100)."
    )
    assert well("1 practice 221*20") == (
        "Made most often on day 1: the turn, 20 of 20 (100%, 84 to 100)."
        " At least every second ball: the spacing 20 of 20 (100%, 84 to 100)."
    )
    assert well("2 practice 100*3 000") == (
        "Close already: the turn was near on 3 of 4 balls. No cue was made yet."
    )
