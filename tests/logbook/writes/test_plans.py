"""A plan is kept as a whole, in its order, and never over another window's."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.plans.planned_round import PlannedRound
from courtlog.errors import ChangedElsewhereError
from courtlog.logbook.reads.clinic_lookups import left_to_play, next_planned, planned
from courtlog.logbook.writes.clinic_writer import keep_plan
from tests.court import DAY, START, desk_in, feed, player

HAND = "forehand/hand-feed"


def test_a_plan_comes_back_in_its_order_and_is_forgotten_whole(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    clinic = desk.view.clinic.id
    rounds = tuple(
        PlannedRound(player(desk, name), HAND, purpose, balls)
        for name, purpose, balls in (
            ("Ruben", Purpose.HOLD, 20),
            ("Maren", Purpose.HOLD, 20),
            ("Ruben", Purpose.PRACTICE, 10),
        )
    )
    keep_plan(desk.book, clinic, DAY, (), rounds, START)
    assert planned(desk.book, clinic, DAY) == rounds
    assert planned(desk.book, clinic, DAY + timedelta(days=1)) == ()
    with pytest.raises(ChangedElsewhereError):
        keep_plan(desk.book, clinic, DAY, (), rounds[:1], START)
    shorter = (replace(rounds[0], balls=12), rounds[2])
    keep_plan(desk.book, clinic, DAY, rounds, shorter, START)
    assert planned(desk.book, clinic, DAY) == shorter
    keep_plan(desk.book, clinic, DAY, shorter, (), START)
    assert planned(desk.book, clinic, DAY) == ()


def test_a_round_with_a_ball_is_one_planned_round_less(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    maren, clinic = player(desk, "Maren"), desk.view.clinic.id
    rounds = tuple(PlannedRound(maren, HAND, Purpose.PRACTICE, balls) for balls in (10, 8))
    keep_plan(desk.book, clinic, DAY, (), rounds, START)
    assert left_to_play(desk.book, clinic, DAY, maren.id) == rounds
    feed(desk, "222")
    assert left_to_play(desk.book, clinic, DAY, maren.id) == rounds[1:]
    assert left_to_play(desk.book, clinic, DAY, player(desk, "Tove").id) == ()


def test_the_evenings_hold_waits_however_often_practice_went_on(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    maren, clinic = player(desk, "Maren"), desk.view.clinic.id
    rounds = tuple(
        PlannedRound(maren, HAND, purpose, balls)
        for purpose, balls in ((Purpose.HOLD, 20), (Purpose.PRACTICE, 10), (Purpose.HOLD, 10))
    )
    keep_plan(desk.book, clinic, DAY, (), rounds, START)
    left = []
    for purpose in (Purpose.HOLD, Purpose.PRACTICE, Purpose.PRACTICE, Purpose.HOLD):
        desk.rounds.start(player=maren, purpose=purpose)
        feed(desk, "222")
        left.append(left_to_play(desk.book, clinic, DAY, maren.id))
    assert left == [rounds[1:], rounds[2:], rounds[2:], ()]


def test_the_next_plan_is_not_looked_for_behind_a_day_that_was_played(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    clinic, on = desk.view.clinic.id, DAY + timedelta(days=4)
    rounds = (PlannedRound(player(desk, "Maren"), HAND, Purpose.HOLD, 20),)
    assert next_planned(desk.book, clinic, DAY) is None
    keep_plan(desk.book, clinic, on, (), rounds, START)
    assert next_planned(desk.book, clinic, DAY) == on
    desk.clinic.begin_day(DAY + timedelta(days=2))
    assert next_planned(desk.book, clinic, DAY) is None
