"""The fairness line: balls, minutes and waits of a day, worked out by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courtlog.coaching.plans.day_fairness import fairness
from courtlog.coaching.plans.rotation import Court, FedTurn
from tests.coaching.plans.turns import MINUTE, roster, turn


def test_the_fairness_line_counts_balls_minutes_and_waits() -> None:
    court = Court(roster=roster(3), turns=(turn(0, 10, 0), turn(1, 8, 1), turn(2, 12, 2)))
    even = fairness(court, 13 * MINUTE)
    assert [(s.balls, s.minutes, s.longest_wait) for s in even.shares] == [
        (10, 4, 9),
        (8, 4, 5),
        (12, 4, 8),
    ]
    assert even.words() == "balls 8 to 12, 4 apart (longest rotation 12); longest wait 9 min, A"
    again = replace(court, turns=(*court.turns, turn(0, 12, 3)))
    assert "14 apart (MORE than the longest rotation 12)" in fairness(again, 16 * MINUTE).words()


def test_lunch_is_nobodys_wait() -> None:
    morning = (turn(0, 10, 0), turn(1, 10, 1))
    after = (turn(0, 10, 30), turn(1, 10, 31))
    even = fairness(Court(roster=roster(2), turns=morning + after), 128 * MINUTE)
    assert [share.longest_wait for share in even.shares] == [4, 4]


@pytest.mark.parametrize(
    ("empty", "longest"),
    [(15 * MINUTE - 1, 19 * MINUTE - 1), (15 * MINUTE, 4 * MINUTE), (16 * MINUTE, 4 * MINUTE)],
)
def test_an_empty_feed_is_a_break_from_fifteen_minutes_on(empty: int, longest: int) -> None:
    """A and B hit for four minutes each, then nobody, then A for four minutes while B waits."""
    begin = 8 * MINUTE + empty
    after = FedTurn(0, 10, begin, begin + 4 * MINUTE)
    court = Court(roster=roster(2), turns=(turn(0, 10, 0), turn(1, 10, 1), after))
    waits = [share.longest_wait for share in fairness(court, begin + 4 * MINUTE).shares]
    assert waits == [longest / MINUTE] * 2


def test_a_turn_that_never_ended_counts_no_minutes_once_another_has_begun() -> None:
    lost = FedTurn(0, 10, MINUTE, None)
    even = fairness(Court(roster=roster(2), turns=(lost, turn(1, 10, 1))), 8 * MINUTE)
    assert [share.minutes for share in even.shares] == [0, 4]
    only = fairness(Court(roster=roster(2), turns=(lost,)), 4 * MINUTE)
    assert [share.minutes for share in only.shares] == [3, 0]


def test_a_spread_that_counts_credits_says_whose() -> None:
    court = Court(
        roster=roster(3),
        turns=(turn(0, 15, 0), turn(1, 15, 1), turn(2, 5, 2)),
        head_start={2: 25.0},
        arrived={2: 4 * MINUTE},
    )
    words = fairness(court, 13 * MINUTE).words()
    assert "balls 5 to 15; with 25 credited to C for coming late, 15 apart" in words
    assert "credited" not in fairness(replace(court, head_start={2: 0.0}), 13 * MINUTE).words()
