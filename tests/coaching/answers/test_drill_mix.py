"""Whether two days' balls are of the same drills, in the same parts."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courtlog.coaching.answers.drill_mix import (
    drill_mix,
    of_other_drills,
    other_drills,
    other_drills_words,
)
from tests.past import past

MIXES = st.dictionaries(st.sampled_from("abc"), st.integers(0, 40))


@pytest.mark.parametrize(
    ("day", "first", "other"),
    [
        ({"a": 5}, {"a": 50}, False),
        ({"a": 10}, {"b": 10}, True),
        ({"a": 10, "b": 1}, {"a": 10}, True),
        ({"a": 10, "b": 0}, {"a": 10}, False),
        ({"a": 12, "b": 8}, {"a": 10, "b": 10}, False),  # a tenth of the balls
        ({"a": 13, "b": 7}, {"a": 10, "b": 10}, True),
        ({}, {"a": 10}, False),
        ({"a": 10}, {}, False),
    ],
)
def test_days_of_other_drills(day: dict[str, int], first: dict[str, int], other: bool) -> None:
    assert of_other_drills(day, first) is other


@given(MIXES, MIXES)
def test_it_is_the_same_both_ways_and_no_day_differs_from_itself(
    one: dict[str, int], two: dict[str, int]
) -> None:
    assert of_other_drills(one, two) is of_other_drills(two, one)
    assert not of_other_drills(one, one)


def test_days_are_held_against_the_first_with_a_seen_ball() -> None:
    assert other_drills([{}, {"a": 9}, {}, {"b": 9}, {"a": 8}]) == (
        *(False, False, False, True),
        False,
    )
    assert other_drills([]) == ()


def test_only_balls_on_which_the_cue_was_seen_count() -> None:
    history = past("1 practice @forehand/live 2--", "1 practice -22 .", "1 practice 222*3")
    assert drill_mix(history, "turn") == {"forehand/live": 1, "forehand/racquet-feed": 3}


def test_the_sentence_names_the_day_where_it_is_one() -> None:
    told = " or than each other: a lower share need not be lower skill."
    assert other_drills_words("~", [2, 2]) == f"~ other drills than on day 2,{told}"
    assert other_drills_words("~", [1, 2]) == f"~ other drills than on the first day,{told}"
