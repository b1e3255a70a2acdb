"""`courtlog heat`: keep a reading of today, or print today's."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path

from courtlog import times
from courtlog.cli.book_to_write import book_beside
from courtlog.cli.common import chosen_clinic, existing_book, now, typed_date
from courtlog.coaching.care.heat_care import NO_LINES, heat_words, reading_of
from courtlog.coaching.game.people import Clinic, Day
from courtlog.errors import CourtlogError, UnknownNameError
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import care_lookups, clinic_lookups, lookups
from courtlog.logbook.writes.care_writer import CareWriter
from courtlog.plain_text import plain
from courtlog.reports.layout.page import block


def keep_or_print(
    path: Path | None,
    clinic_name: str | None,
    on: str | None,
    temperature: str,
    humidity: str,
    wbgt: str,
) -> None:
    """Keep a heat reading and print it; without one print those of the day."""
    typed = temperature or humidity or wbgt
    with (book_beside if typed else existing_book)(path) as book:
        clinic = chosen_clinic(book, clinic_name)
        at = now()
        day = _day_of(book, clinic, typed_date(on) or times.local_date(at, clinic.place))
        if typed:
            try:
                reading = reading_of(temperature, humidity, wbgt, at)
            except ValueError as error:
                raise CourtlogError(str(error), "Nothing was written.") from error
            CareWriter(book).add_heat_reading(day.id, reading)
            readings = [reading]
        else:
            readings = care_lookups.heat_on(book, clinic.id, day.date)
        lines = clinic_lookups.plan(book, clinic.id).heat_lines
    if not readings:
        sys.stdout.write(f"No heat reading on {day.date}. {NO_LINES}\n")
    for reading in readings:
        clock = times.clock_words(reading.at_ms, clinic.place)
        words = list(map(plain, heat_words(reading, lines)))
        sys.stdout.write("\n".join(block(clock, words)).lstrip("\n") + "\n")


def _day_of(book: Book, clinic: Clinic, on: date) -> Day:
    days = [day for day in lookups.days(book, clinic.id) if day.date == on]
    if not days:
        raise UnknownNameError(
            f"{clinic.name} has no day on {on}.", "Open courtlog to begin it, or name a --date."
        )
    return days[0]
