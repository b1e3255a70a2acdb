"""What planned yardsticks can tell: from the balls planned, and from those seen the first time."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date, timedelta

import pytest
from scipy.stats import binom

from courtlog.coaching.answers.ball_history import BallKind, History, PastBall
from courtlog.coaching.answers.yardstick import yardstick_again
from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.people import Player
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.plans.day_plan import StrokeStanding
from courtlog.coaching.plans.planned_round import PlannedRound
from courtlog.coaching.plans.yardstick_reach import RISES, YardstickReach, yardstick_reach
from courtlog.measures.common.enough import PLAN_NEXT, Words
from courtlog.measures.shares.power import clear_chance
from tests.court import LIBRARY

FIXED = BallKind("forehand/day-one-feed", 6, "racquet", tough=False)
HAND = BallKind("forehand/hand-feed", 4, "hand", tough=False)
FIRST = date(2026, 5, 11)
NEW = History("forehand", (), main="turn")


def yardstick_of(seen: int, unseen: int = 0, day: int = 0, made: int = 0) -> History:
    """A yardstick of as many balls on which the turn was seen, or not seen."""
    grades = [Grade.MADE if place < made else Grade.MISSED for place in range(seen)]
    balls = tuple(
        PastBall(FIRST + timedelta(days=day), day, Purpose.YARDSTICK, FIXED, {"turn": grade})
        for grade in [*grades, *[None] * unseen]
    )
    return History("forehand", balls, main="turn")


def standing(number: int, history: History) -> StrokeStanding:
    """A player called after a number."""
    return StrokeStanding(
        player=Player(number, f"P{number}"),
        balls=len(history.balls),
        history=history,
        cues=("turn",),
        left_on=FIXED,
    )


def plan(*rounds: str) -> list[PlannedRound]:
    """Rounds as `1 hold 20`, on the yardstick's drill; `1 hold! 20` on another one."""
    planned = []
    for words in rounds:
        number, purpose, balls = words.split()
        drill = HAND.drill if purpose.endswith("!") else FIXED.drill
        planned.append(
            PlannedRound(
                Player(int(number), f"P{number}"), drill, Purpose(purpose.rstrip("!")), int(balls)
            )
        )
    return planned


def reach(
    rounds: list[PlannedRound], histories: Mapping[int, History], last_day: bool = True
) -> YardstickReach | None:
    standings = [standing(number, history) for number, history in histories.items()]
    return yardstick_reach(rounds, standings, last_day, LIBRARY.ladders)


def lines(found: YardstickReach | None) -> list[str]:
    """`20 then 40 (20 of hold)`, and `plan` before what is advised."""
    assert found is not None
    pairs = [("", pair) for pair in found.planned]
    pairs += [("plan ", found.advised)] if found.advised else []
    return [f"{why}{p.first} then {p.last} ({p.of_hold} of hold)" for why, p in pairs]


@pytest.mark.parametrize(
    ("balls", "said"),
    [
        (20, ["20 then 20 (0 of hold)", "20 then 40 (20 of hold)", "plan 40 then 60 (20 of hold)"]),
        (40, ["40 then 20 (0 of hold)", "40 then 40 (20 of hold)"]),
        (10, ["10 then 20 (0 of hold)", "10 then 40 (20 of hold)", "plan 40 then 60 (20 of hold)"]),
    ],
)
def test_a_first_yardstick_is_held_against_what_the_last_day_would_have(
    balls: int, said: list[str]
) -> None:
    found = reach(plan(f"1 yardstick {balls}"), {1: NEW}, last_day=False)
    assert lines(found) == said
    assert found is not None
    assert not found.again
    assert (found.planned[1].found[0] == 0) is (balls < 16)


def test_the_balls_that_most_players_have_are_told() -> None:
    rounds = plan("1 yardstick 40", "2 yardstick 20", "3 yardstick 20", "4 yardstick 30")
    found = reach(rounds, dict.fromkeys((1, 2, 3, 4), NEW), last_day=False)
    assert lines(found)[0] == "20 then 20 (0 of hold)"


@pytest.mark.parametrize(
    ("rounds", "said"),
    [
        (("1 yardstick 20",), ["18 then 20 (0 of hold)", "plan 18 then 40 (0 of hold)"]),
        (("1 yardstick 40",), ["18 then 40 (0 of hold)"]),
        (
            ("1 hold 20", "1 yardstick 20"),
            ["18 then 20 (0 of hold)", "18 then 40 (20 of hold)", "plan 18 then 60 (20 of hold)"],
        ),
        (  # on another drill, or after practice, a hold is not the yardstick's
            ("1 hold! 20", "1 yardstick 20", "1 practice 10", "1 hold 10"),
            ["18 then 20 (0 of hold)", "plan 18 then 40 (0 of hold)"],
        ),
    ],
)
def test_the_yardstick_again_counts_what_was_seen_and_the_mornings_hold(
    rounds: tuple[str, ...], said: list[str]
) -> None:
    found = reach(plan(*rounds), {1: yardstick_of(18, unseen=2)})
    assert lines(found) == said
    assert found is not None
    assert found.again


def test_players_of_whom_too_little_was_seen_are_named_and_left_out() -> None:
    rounds = plan("1 yardstick 20", "2 yardstick 20", "3 yardstick 20", "4 yardstick 20")
    histories = {
        1: yardstick_of(15, unseen=5),
        2: yardstick_of(16, unseen=4),
        3: yardstick_of(20),
        4: replace(yardstick_of(11, unseen=9), main=None),
    }
    found = reach(rounds, histories)
    assert lines(found)[0] == "16 then 20 (0 of hold)"
    assert found is not None
    assert [player.name for player in found.too_few] == ["P1", "P4"]
    alone = reach(rounds[:1], histories)
    assert alone is not None
    assert (alone.planned, alone.advised) == ((), None)


def test_nothing_is_told_without_a_yardstick_to_compare() -> None:
    assert reach(plan("1 hold 20", "1 practice 10"), {1: yardstick_of(20)}) is None
    assert reach(plan("1 yardstick 20"), {1: NEW}) is None, "a first one on the last day"
    assert reach([], {}) is None


def test_the_chances_are_those_of_twenty_balls() -> None:
    found = reach(plan("1 yardstick 20"), {1: yardstick_of(20)})
    assert found is not None
    assert found.planned[0].found == tuple(
        clear_chance(before / 20, after / 20, 20, 20).up for before, after in RISES
    )
    assert found.advised is not None
    assert found.advised.last == PLAN_NEXT


@pytest.mark.parametrize(("first", "last"), [(15, 20), (16, 16), (20, 20), (19, 24)])
def test_what_is_promised_goes_by_the_very_words_of_the_last_day(first: int, last: int) -> None:
    """Every pair of counts through the answer's own comparison, weighted by its chance."""
    early, late = 0.35, 0.7
    up = 0.0
    for x in range(first + 1):
        start = yardstick_of(first, made=x)
        for y in range(last + 1):
            again = yardstick_of(last, day=4, made=y)
            both = replace(again, balls=start.balls + again.balls)
            days = both.days
            judged = yardstick_again(both, days[-1], days, "now")
            if judged["turn"].verdict.words is Words.CLEARLY_UP:
                up += float(binom.pmf(x, first, early) * binom.pmf(y, last, late))
    assert clear_chance(early, late, first, last).up == pytest.approx(up, abs=1e-9)
