"""What stayed overnight: uncoached against uncoached, and no direction against coached balls."""

from __future__ import annotations

import pytest

from courtlog.coaching.answers.overnight import overnight
from courtlog.coaching.voice import figures
from tests.past import day, past

DAYS = tuple(day(number) for number in range(1, 6))


def night(*rounds: str) -> str:
    """The statement on the turn of the latest night; empty without one."""
    found = overnight(past(*rounds, cues=("turn",)), "turn", DAYS)
    return "" if found is None else figures.comparison_words(found)


COACHED = "evening with coaching, morning without"


@pytest.mark.parametrize(
    ("rounds", "words"),
    [
        (["1 practice 2*20", "2 hold 0*20"], f"0 of 20 on the morning of day 2, 20 of 20 on the"
         f" evening of day 1: {COACHED}"),
        (["1 practice 2*8", "2 hold 2*5 0*3"], f"5 of 8 on the morning of day 2, 8 of 8 on the"
         f" evening of day 1: {COACHED}"),
        (["1 practice 2*7", "2 hold 0*20"], "0 of 20 on the morning of day 2, 7 of 7 on the"
         " evening of day 1: too few balls to tell"),
        (["1 practice 2*20", "2 practice 0*9", "2 hold 0*20"], ""),  # an evening round
        (["1 practice @forehand/live 2*20", "2 hold 0*20"], ""),
        (["2 hold 0*20"], ""),
    ],
)  # fmt: skip
def test_against_coached_balls_no_direction_is_told(rounds: list[str], words: str) -> None:
    assert night(*rounds) == words


def test_an_uncoached_evening_is_compared_with_the_warmed_up_morning() -> None:
    """The first five balls of the morning are left out (Adams 1961); marks do not pick balls."""
    rounds = ["1 practice 0*20", "1 hold 2*9 0", "2 hold 0*8 0!*5 2*7"]
    assert night(*rounds) == (
        "7 of 15 on the morning of day 2, 9 of 10 on the evening of day 1: too few balls to tell"
    )


def test_a_drop_names_the_cold_start_that_makes_one_too() -> None:
    """The interval was computed with statsmodels (newcomb, alpha .02)."""
    assert night("1 practice 0", "1 hold 2*10", "2 hold 2*5 0*15").endswith(
        "may be a drop, -100 points (-100 to -56); a cold start does this too"
    )
    assert "cold" not in night("1 practice 0", "1 hold 0*10", "2 hold 2*20")


def test_a_coached_evening_after_the_uncoached_one_comes_first() -> None:
    rounds = ["1 practice 0", "1 hold 2*10", "2 practice 2*20", "3 hold 2*20"]
    assert night(*rounds).endswith(COACHED)


def test_a_short_morning_keeps_its_first_balls() -> None:
    assert night("1 practice 0", "1 hold 2*10", "2 hold 0*9").startswith("0 of 9 on the morning")
