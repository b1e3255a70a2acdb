"""Whole days of the invented clinics, played key by key, give the book of their sheets."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from courtlog import locations
from courtlog.coaching.game.clinic_record import BallRecord, ClinicRecord, DayRecord, RoundRecord
from courtlog.coaching.on_court import feeding
from courtlog.courtside.desk.desk import Desk
from courtlog.library.sheet_in import read_sheet
from courtlog.library.sheet_out import write_sheet
from courtlog.logbook.reads import day_lookups, lookups
from courtlog.logbook.rows import tallies
from courtlog.settings import Settings
from tests.court import LIBRARY, Clock, begin_clinic, open_book, player


def sample(name: str) -> ClinicRecord:
    """An invented clinic as its sheet tells it."""
    text = (locations.shipped_samples() / name).read_text(encoding="utf-8")
    return read_sheet(text, name, LIBRARY, "UTC")


def play_ball(desk: Desk, record: BallRecord, clumsy: bool) -> None:
    """One ball by keys; a clumsy coach mistypes the first grade and takes it back."""
    ball = record.ball
    if clumsy:
        desk.balls.press(feeding.ToughOpen())
        desk.balls.take_back()
    if ball.tough:
        desk.balls.press(feeding.ToughOpen())
    for row, grade in enumerate(ball.grades):
        if grade is not None:
            desk.balls.press(feeding.Rate(row, grade))
    if not ball.complete:
        desk.balls.press(feeding.TakeBall())
    if ball.clip is not None:
        desk.balls.press(feeding.MarkClip(ball.clip))
    for note in record.notes:
        desk.balls.note(note)


def play_round(desk: Desk, clock: Clock, round_: RoundRecord, clumsy: bool) -> None:
    """One round by keys, at the sheet's own times."""
    assert round_.started is not None
    assert round_.ended is not None
    clock.at = round_.started
    ladder, drill = LIBRARY.drill(round_.drill)
    desk.rounds.start(player(desk, round_.player), (ladder, drill), round_.purpose, round_.cues)
    for note in round_.notes:
        desk.balls.note(note)
    for record in round_.balls:
        play_ball(desk, record, clumsy)
    clock.at = round_.ended
    desk.rounds.end_round()


def as_played(day: DayRecord) -> DayRecord:
    """The day without what keys do not say: check-ins, and the feed order drawn that day."""
    rounds = tuple(replace(round_, check_ins=(), order=()) for round_ in day.rounds)
    return replace(day, rounds=rounds, check_ins=())


@pytest.mark.parametrize(
    ("name", "number", "clumsy", "look"),
    [("harbour-week.txt", 1, True, "close"), ("two-court-weekend.txt", 2, False, "far")],
)
def test_a_day_played_by_keys_is_the_day_of_the_sheet(
    tmp_path: Path, name: str, number: int, clumsy: bool, look: str
) -> None:
    clinic = sample(name)
    day = clinic.days[number - 1]
    clock = Clock(day.rounds[0].started or 0)
    settings = Settings(look=look)  # type: ignore[arg-type]
    desk = Desk(open_book(tmp_path), lambda: LIBRARY, settings, clock)
    names = tuple(entry.name for entry in clinic.roster)
    begin_clinic(desk, clinic.name, clinic.zone, day.coach, day.court, names)
    for round_ in day.rounds:
        play_round(desk, clock, round_, clumsy)
    (played,) = day_lookups.record(desk.book, lookups.clinics(desk.book)[0]).days
    assert as_played(played) == as_played(day)
    assert tallies.proof(desk.book.db) == []
    assert write_sheet(replace(clinic, days=(as_played(played),))) == write_sheet(
        replace(clinic, days=(as_played(day),))
    )
