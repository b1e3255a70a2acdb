"""`courtlog demo`: an invented clinic in a scratch book, mid-round on its third day."""

from __future__ import annotations

import sys
import time
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from courtlog import drafts, locations
from courtlog.cli import failures
from courtlog.cli.actions.sheets import parse, put_in
from courtlog.cli.common import library
from courtlog.cli.opening import has_terminal
from courtlog.coaching.game.clinic_record import ClinicRecord, DayRecord, RoundRecord
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.on_court import feeding
from courtlog.library.drill_files import Library
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.reads import lookups
from courtlog.reports import facts, one_screen
from courtlog.settings import Settings

if TYPE_CHECKING:
    from courtlog.courtside.desk.desk import Desk

SAMPLE = "harbour-week.txt"
DAY = 3

LEFT = "That clinic was invented, and is gone. Type courtlog to start your own.\n"


def run_demo() -> None:
    """Open the court screen on an invented clinic; print the day where there is no terminal."""
    drills = library()
    clinic = parse(locations.shipped_samples() / SAMPLE, drills, "UTC")
    with drafts.folder_in(drafts.scratch_place()) as folder:
        if has_terminal():
            _open(folder, clinic, drills)
            sys.stdout.write(LEFT)
        else:
            _print(folder, clinic, drills)


def _print(folder: Path, clinic: ClinicRecord, drills: Library) -> None:
    book = create_or_open(folder / "demo.db", 0)
    try:
        put_in(book, clinic, drills, 0)
        on = clinic.days[DAY - 1].date
        played = facts.day_facts.day_facts(book, lookups.clinics(book)[-1], on, None)
        sys.stdout.write(one_screen.day_page.day_page(played))
    finally:
        book.close()


def _open(folder: Path, clinic: ClinicRecord, drills: Library) -> None:
    # Without a terminal the demo prints a page and needs no screen.
    from courtlog.courtside.app.court_app import CourtlogApp
    from courtlog.courtside.desk.desk import Desk

    before, round_ = until_mid_round(clinic)
    start = round_.started or 0
    opened = time.monotonic_ns()

    def clock() -> int:
        """The time of the demo's day: it goes on from the start of the round."""
        return start + (time.monotonic_ns() - opened) // 1_000_000

    book = create_or_open(folder / "demo.db", start)
    try:
        put_in(book, before, drills, start)
        desk = Desk(book, lambda: drills, Settings(), clock)
        put_on_court(desk, book, before.days[-1], round_, drills)
        failures.run_once(CourtlogApp(desk, None, clinic.zone))
    finally:
        book.close()


def until_mid_round(clinic: ClinicRecord) -> tuple[ClinicRecord, RoundRecord]:
    """The clinic up to the middle of its third day, and the practice round that comes then."""
    day = clinic.days[DAY - 1]
    places = [
        place
        for place, round_ in enumerate(day.rounds)
        if round_.purpose is Purpose.PRACTICE and len(round_.balls) >= 8
    ]
    at = places[len(places) // 2]
    begun = replace(day, rounds=day.rounds[:at])
    return replace(clinic, days=(*clinic.days[: DAY - 1], begun)), day.rounds[at]


def put_on_court(
    desk: Desk, book: Book, day: DayRecord, round_: RoundRecord, drills: Library
) -> None:
    """Put the round on court, with its first half rated as by keys."""
    ladder, drill = drills.drill(round_.drill)
    made = lookups.clinics(book)[-1]
    desk.clinic.open_day(made.id, day.date, day.court, day.coach)
    player = lookups.player_on_roster(book, made.id, round_.player)
    desk.rounds.start(player, (ladder, drill), round_.purpose, round_.cues)
    for record in round_.balls[: len(round_.balls) // 2]:
        if record.ball.tough:
            desk.balls.press(feeding.ToughOpen())
        for row, grade in enumerate(record.ball.grades):
            if grade is not None:
                desk.balls.press(feeding.Rate(row, grade))
        if not record.ball.complete:
            desk.balls.press(feeding.TakeBall())
