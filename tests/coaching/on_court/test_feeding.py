"""The live feeding state: what each key means, and that every step can be taken back."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Ball
from courtlog.coaching.on_court.feeding import (
    CleanBall,
    Fault,
    Feeding,
    MarkClip,
    Meaning,
    Rate,
    TakeBall,
    ToughLast,
    ToughOpen,
    press,
    take_back,
)
from tests.court import play, written

FRESH = Feeding.fresh(3)

MEANINGS: st.SearchStrategy[Meaning | None] = st.one_of(
    st.builds(Rate, st.integers(0, 2), st.sampled_from(Grade)),
    st.builds(Fault, st.integers(0, 2)),
    st.sampled_from([CleanBall(), TakeBall(), ToughOpen(), ToughLast(), None]),
    st.builds(MarkClip, st.integers(0, 2**40)),
)


@pytest.mark.parametrize(
    ("keys", "round_"),
    [
        ("222 212", "222 212"),  # a ball is taken when every cue has a grade
        ("_", "222"),  # Space: a clean ball is one key
        ("0_", "022"),  # a ball with one fault is two keys
        ("-1_", "212"),
        ("2/", "2--"),  # Enter: the rest was not seen
        ("/", "."),  # Enter on an untouched ball: nothing was seen of it
        ("2-0!/", "2-0!"),
        ("22", "|22-"),  # the open ball is part of the state
        ("!", "|.!"),
        ("!!", ""),  # tough and not tough after all
        ("_T", "222!"),
        ("_TT", "222"),
        ("T", ""),  # no last ball: nothing to mark
        ("_<", ""),
        ("222<", "|22-"),  # taking back the key that took the ball opens it again
        ("222 1<<", "|22-"),  # and goes on across balls
        ("222 112<<<<<<", ""),
        ("<", ""),
        ("2_0<", "222"),
        ("_T<", "222"),
        ("_T<<", ""),
    ],
)
def test_keys_make_balls(keys: str, round_: str) -> None:
    assert written(play(FRESH, keys)) == round_


def test_another_column_of_the_row_changes_the_grade_before_the_ball_is_taken() -> None:
    state, _ = press(FRESH, Rate(1, Grade.MISSED))
    state, step = press(state, Rate(1, Grade.MADE))
    assert state.open.grades == (None, Grade.MADE, None)
    assert step is not None
    assert (step.before.grades[1], step.after.grades[1]) == (Grade.MISSED, Grade.MADE)


@settings(derandomize=True, deadline=None, max_examples=100)
@given(
    st.lists(MEANINGS, max_size=20),
    st.lists(st.sampled_from([None, *Grade]), min_size=3, max_size=3),
    st.booleans(),
    st.integers(0, 2),
)
def test_one_fault_is_one_step_that_misses_the_main_cue_alone_and_keeps_what_was_graded(
    before: list[Meaning | None], given_: list[Grade | None], tough: bool, row: int
) -> None:
    state = FRESH
    for meaning in before:
        state = take_back(state)[0] if meaning is None else press(state, meaning)[0]
    state = replace(state, open=Ball(tuple(given_), tough))
    after, step = press(state, Fault(row))
    expected = [
        Grade.MISSED if place == row and grade is None else grade
        for place, grade in enumerate(given_)
    ]
    assert after.taken == (*state.taken, Ball(tuple(expected), tough))
    assert step is not None
    assert step.took
    assert take_back(after) == (state, step)


@pytest.mark.parametrize("row", [-1, 3])
def test_a_fault_of_a_row_the_round_does_not_have_is_refused(row: int) -> None:
    with pytest.raises(ValueError, match=f"this round has 3 cues, not {row + 1}"):
        press(FRESH, Fault(row))


def test_the_same_key_again_changes_nothing_and_leaves_no_step() -> None:
    state, _ = press(FRESH, Rate(0, Grade.MADE))
    assert press(state, Rate(0, Grade.MADE)) == (state, None)


def test_a_clip_mark_goes_to_the_ball_just_hit_until_the_next_one_is_touched() -> None:
    state = play(FRESH, "_@")
    assert [ball.clip is not None for ball in (*state.taken, state.open)] == [True, False]
    state = play(FRESH, "_2@")
    assert [ball.clip is not None for ball in (*state.taken, state.open)] == [False, True]


def test_a_row_the_round_does_not_have_is_refused() -> None:
    with pytest.raises(ValueError, match="this round has 3 cues, not 4"):
        press(FRESH, Rate(3, Grade.MADE))


@settings(derandomize=True, deadline=None, max_examples=300)
@given(st.lists(MEANINGS, max_size=60))
def test_every_step_leads_back_to_the_state_before_it(meanings: list[Meaning | None]) -> None:
    states = [FRESH]
    for meaning in meanings:
        if meaning is None:
            state, step = take_back(states[-1])
            if step is None:
                assert states == [FRESH]
            else:
                states.pop()
                assert state == states[-1]
            continue
        state, step = press(states[-1], meaning)
        if step is None:
            assert state == states[-1]
        else:
            states.append(state)
    assert states[-1].number == len(states[-1].taken) + 1
