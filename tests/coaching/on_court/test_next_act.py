"""What the coach does next at a standstill: one sentence with its key, for every state there is."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.on_court.next_act import Act, CourtNow, NextAct, RoundNow, next_act

KEYS = {act: f"<{act.name}>" for act in Act}

CHOSEN = RoundNow(player="Maren", purpose=Purpose.CHOOSING, balls=10, planned=10, over=True)
YARDSTICK = replace(CHOSEN, purpose=Purpose.YARDSTICK, balls=20, planned=20, first_cue="turn")
HOLD = replace(YARDSTICK, purpose=Purpose.HOLD, later_yardstick=True, again=Purpose.PRACTICE)
PRACTICE = replace(CHOSEN, purpose=Purpose.PRACTICE)


def court(played: RoundNow | None, **others: object) -> CourtNow:
    """Tove waits."""
    return replace(CourtNow(round=played, next_up="Tove"), **others)  # type: ignore[arg-type]


def open_(played: RoundNow, balls: int | None = None) -> RoundNow:
    """The same round before its end."""
    return replace(played, over=False, balls=played.balls if balls is None else balls)


@pytest.mark.parametrize(
    ("now", "sentence"),
    [
        (court(None), "No round yet. Tove hits first: <NEXT_PLAYER>."),
        (court(None, anybody=False), "Nobody is on the roster. Add a player: <ADD_PLAYER>."),
        (court(None, next_up=""), "Nobody is here to hit. See who is where: <WHO_IS_WHERE>."),
        (court(CHOSEN), "10 balls seen. Pick the cues: <PICK_CUES_AFTER>."),
        (court(open_(CHOSEN)), "10 balls seen. Pick the cues: <PICK_CUES>."),
        (court(open_(CHOSEN, 9)), None),
        (
            court(CHOSEN, head_picks_cues=True),
            "10 balls seen; the head coach picks the cues."
            " Tove next: <NEXT_PLAYER>; Maren again: <SAME_AGAIN>.",
        ),
        (
            court(open_(CHOSEN), head_picks_cues=True, next_up=""),
            "10 balls seen; the head coach picks the cues. End the round: <END_ROUND>.",
        ),
        (
            court(replace(CHOSEN, balls=0)),
            "No ball was hit. Maren again: <SAME_AGAIN>; Tove next: <NEXT_PLAYER>.",
        ),
        (
            court(YARDSTICK),
            "Kept as the yardstick. Teach turn first: <SAME_AGAIN>; Tove next: <NEXT_PLAYER>.",
        ),
        (
            court(replace(YARDSTICK, main_goes_first=True), next_up=""),
            "Kept as the yardstick. Teach turn first, your main cue: <SAME_AGAIN>.",
        ),
        (
            court(replace(YARDSTICK, balls=12)),
            "12 of 20 yardstick balls. Feed the rest: <BACK_IN>; Tove next: <NEXT_PLAYER>;"
            " Maren again: <SAME_AGAIN>.",
        ),
        (
            court(replace(YARDSTICK, balls=16, again=Purpose.PRACTICE)),
            "16 of 20 yardstick balls. Feed the rest: <BACK_IN>; Tove next: <NEXT_PLAYER>;"
            " Practice instead: <SAME_AGAIN>.",
        ),
        (
            court(replace(YARDSTICK, later_yardstick=True)),
            "The yardstick is hit again. Tove next: <NEXT_PLAYER>; Maren again: <SAME_AGAIN>.",
        ),
        (
            court(HOLD),
            "The hold is kept. Now you may help: <SAME_AGAIN>; Tove next: <NEXT_PLAYER>.",
        ),
        (
            court(replace(HOLD, again=Purpose.YARDSTICK)),
            "The hold is kept. Yardstick next, no help yet: <SAME_AGAIN>;"
            " Tove next: <NEXT_PLAYER>.",
        ),
        (
            court(replace(HOLD, practised=True)),
            "Kept for the morning. Tove next: <NEXT_PLAYER>; Maren again: <SAME_AGAIN>.",
        ),
        (court(PRACTICE), "Round over. Tove next: <NEXT_PLAYER>; Maren again: <SAME_AGAIN>."),
        (court(PRACTICE, next_up=""), "Round over. Maren again: <SAME_AGAIN>."),
        (
            court(open_(PRACTICE)),
            "10 balls: the round is full. Tove next: <NEXT_PLAYER>.",
        ),
        (
            court(open_(PRACTICE), next_up=""),
            "10 balls: the round is full. End the round: <END_ROUND>.",
        ),
        (court(open_(PRACTICE, 5)), None),
        (court(open_(PRACTICE, 5), paused=True), "Paused. Go on: <GO_ON>."),
        (
            court(open_(PRACTICE, 5), basket_empty=True),
            "The basket is empty. Pick up, then: <PICK_UP>.",
        ),
        (
            court(replace(PRACTICE, can_go_on=False)),
            "Maren hits no more. Tove next: <NEXT_PLAYER>.",
        ),
        (
            court(replace(open_(PRACTICE, 5), can_go_on=False)),
            "Maren hits no more. Tove next: <NEXT_PLAYER>.",
        ),
        (
            court(replace(PRACTICE, can_go_on=False), next_up=""),
            "Nobody is here to hit. See who is where: <WHO_IS_WHERE>.",
        ),
        (
            court(PRACTICE, plan_played=True),
            "Today's plan is played. Show the day: <SHOW_DAY>; Tove next: <NEXT_PLAYER>.",
        ),
        (
            court(PRACTICE, day_ended=True, day=2, planned_days=5),
            "The day is over. Leave: <LEAVE>; Tove next: <NEXT_PLAYER>.",
        ),
        (
            court(PRACTICE, day_ended=True, day=5, planned_days=5),
            "The clinic is over. Leave for the sheets to take home: <LEAVE>;"
            " Tove next: <NEXT_PLAYER>.",
        ),
        (
            court(None, day=6, planned_days=5),
            "All 5 planned days are over. Leave for the sheets to take home: <LEAVE>;"
            " Tove next: <NEXT_PLAYER>.",
        ),
        (
            court(PRACTICE, read_only=True),
            "Nothing can be stored here. Show the day: <SHOW_DAY>; Leave: <LEAVE>.",
        ),
    ],
)
def test_each_standstill_says_what_to_do_and_its_key(now: CourtNow, sentence: str | None) -> None:
    act = next_act(now, KEYS)
    assert (act.sentence if act else None) == sentence


rounds = st.builds(
    RoundNow,
    player=st.sampled_from(["Maren", "Ilse-Charlotte of the Harbour"]),
    purpose=st.sampled_from(Purpose),
    balls=st.integers(0, 40),
    planned=st.integers(1, 40),
    over=st.booleans(),
    can_go_on=st.booleans(),
    first_cue=st.sampled_from(["", "turn", "one more step"]),
    main_goes_first=st.booleans(),
    later_yardstick=st.booleans(),
    practised=st.booleans(),
    again=st.none() | st.sampled_from(Purpose),
)
courts = st.builds(
    CourtNow,
    round=st.none() | rounds,
    next_up=st.sampled_from(["", "Tove", "Aleksandra M."]),
    anybody=st.booleans(),
    paused=st.booleans(),
    basket_empty=st.booleans(),
    read_only=st.booleans(),
    plan_played=st.booleans(),
    day_ended=st.booleans(),
    day=st.integers(1, 7),
    planned_days=st.none() | st.integers(1, 6),
)


def feeds_on(now: CourtNow) -> bool:
    """Whether nothing stands between the coach and the next ball."""
    played = now.round
    return (
        now.anybody
        and played is not None
        and not (played.over or played.full or now.paused or now.basket_empty or now.read_only)
        and played.can_go_on
    )


@given(courts)
def test_every_state_but_feeding_says_what_to_do_in_twenty_words(now: CourtNow) -> None:
    act = next_act(now, KEYS)
    assert (act is None) is feeds_on(now)
    if act is None:
        return
    assert 1 <= len(act.steps) <= 2
    assert act.key in KEYS.values()
    assert len(act.sentence.split()) <= 20
    assert all(act.key in words for words in act.in_ever_fewer_words)
    assert not set("()%…") & set(act.sentence)


@given(courts)
def test_nobody_is_called_who_cannot_come(now: CourtNow) -> None:
    """Nobody waits: no next player. The player has left: not the same again. Empty: no cues."""
    act = next_act(now, KEYS)
    if act is None:
        return
    if not now.next_up:
        assert not act.does(Act.NEXT_PLAYER)
    if now.round is None or not now.round.can_go_on:
        assert not act.does(Act.SAME_AGAIN)
        assert not act.does(Act.PICK_CUES_AFTER)
    if now.round is None or not now.round.balls:
        assert not act.does(Act.PICK_CUES_AFTER)


@given(courts)
def test_a_yardstick_is_kept_only_once_it_is_whole_and_the_first(now: CourtNow) -> None:
    act: NextAct | None = next_act(now, KEYS)
    if act is not None and act.reached == "Kept as the yardstick.":
        assert now.round is not None
        assert now.round.purpose is Purpose.YARDSTICK
        assert now.round.full
        assert not now.round.later_yardstick
