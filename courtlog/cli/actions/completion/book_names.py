"""Names and dates out of the book, as it lies there: nothing is written for a suggestion."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import closing, contextmanager
from pathlib import Path

from courtlog import locations
from courtlog.cli.common import chosen_clinic
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.look_into import look_into
from courtlog.logbook.reads import lookups

Given = Mapping[str, str]
"""The options that were typed before, by name."""


@contextmanager
def _book(given: Given) -> Iterator[Book]:
    typed = given.get("--book")
    with closing(look_into(locations.book(Path(typed) if typed else None))) as book, book.reading():
        yield book


def players(given: Given) -> list[str]:
    """The roster of the clinic, as pages show its names. Raises CourtlogError."""
    with _book(given) as book:
        clinic = chosen_clinic(book, given.get("--clinic"))
        return [player.shown_name for player in lookups.players(book, clinic.id)]


def clinics(given: Given) -> list[str]:
    """The clinics by name, the latest last. Raises CourtlogError."""
    with _book(given) as book:
        return list(dict.fromkeys(clinic.name for clinic in lookups.clinics(book)))


def dates(given: Given) -> list[str]:
    """The dates of the clinic so far. Raises CourtlogError."""
    with _book(given) as book:
        clinic = chosen_clinic(book, given.get("--clinic"))
        return [day.isoformat() for day in lookups.dates(book, clinic.id)]


def courts(given: Given) -> list[str]:
    """The courts that the clinic was played on. Raises CourtlogError."""
    with _book(given) as book:
        clinic = chosen_clinic(book, given.get("--clinic"))
        return list(dict.fromkeys(day.court for day in lookups.days(book, clinic.id)))
