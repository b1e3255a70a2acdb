"""The heat of a date as facts."""

from __future__ import annotations

from datetime import date

from courtlog.coaching import times
from courtlog.coaching.heat_care import HeatLines, HeatReading, heat_words
from courtlog.coaching.people import Clinic
from courtlog.logbook.file.opening import Book
from courtlog.logbook.reads import clinic_lookups
from courtlog.logbook.reads.load_lookups import heat_on
from courtlog.reports.facts import HeatFacts


def heat_facts(book: Book, clinic: Clinic, on: date) -> HeatFacts | None:
    """The last reading of that date, against the clinic's own lines; None where none was taken."""
    readings = heat_on(book, clinic.id, on)
    if not readings:
        return None
    return reading_facts(readings[-1], clinic_lookups.plan(book, clinic.id).heat_lines, clinic)


def reading_facts(reading: HeatReading, lines: HeatLines, clinic: Clinic) -> HeatFacts:
    """One reading as facts."""
    return HeatFacts(
        celsius=reading.celsius,
        humidity=reading.humidity,
        wbgt=reading.wbgt,
        time=times.clock_words(reading.at, clinic.place),
        words=heat_words(reading, lines),
    )
