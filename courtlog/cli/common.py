"""What several commands share: the clock, the book, the chosen clinic, a date that was typed."""

from __future__ import annotations

import sys
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from datetime import date
from pathlib import Path

from courtlog import drafts, finished_steps, locations
from courtlog.coaching.game.people import Clinic
from courtlog.errors import CourtlogError, UnknownNameError
from courtlog.library.drill_files import Library, load
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.open_book import open_to_read
from courtlog.logbook.reads import clinic_lookups, lookups
from courtlog.names import folded_name
from courtlog.plain_text import plain

_YEARS = range(1970, 2200)
"""Years that a clinic may have; any other is a typing mistake."""


def now() -> int:
    """The time now, in milliseconds UTC."""
    return time.time_ns() // 1_000_000


def drill_folders() -> list[Path]:
    """The shipped drills, then the coach's own over them."""
    return [locations.shipped_drills(), locations.own_drills()]


def library() -> Library:
    """Every drill. Raises LibraryError."""
    return load(drill_folders())


@contextmanager
def existing_book(path: Path | None) -> Iterator[Book]:
    """The coach's book, open to read until the block ends. Raises BookError."""
    with closing(open_to_read(locations.book(path), now())) as book, book.reading():
        if book.copy_reason:
            print(plain(book.copy_reason), file=sys.stderr)
        yield book


def chosen_clinic(book: Book, name: str | None) -> Clinic:
    """The named clinic; without a name the one on court, else the latest."""
    found = lookups.clinics(book)
    if not found:
        raise UnknownNameError("The book has no clinic yet.", "`courtlog` begins one.")
    if name is None:
        mark = lookups.bookmark(book)
        return lookups.clinic(book, mark.clinic_id) if mark else found[-1]
    fitting = [clinic for clinic in found if folded_name(clinic.name) == folded_name(name)]
    if not fitting:
        known = ", ".join(clinic.name for clinic in found)
        raise UnknownNameError(f"There is no clinic called {name!r}.", f"The book has {known}.")
    return fitting[-1]


def clinic_to_set_up(book: Book, name: str | None) -> Clinic:
    """The named clinic; without a name a new one that has no day yet, else the one on court."""
    coming = clinic_lookups.upcoming(book) if name is None else None
    return coming or chosen_clinic(book, name)


def typed_date(text: str | None) -> date | None:
    """A date as typed, of a year that a clinic may have. Raises UnknownNameError."""
    if text is None:
        return None
    try:
        typed = date.fromisoformat(text)
        if typed.year not in _YEARS:
            raise ValueError
        return typed
    except ValueError:
        raise UnknownNameError(f"{text!r} is no date.", "Write it like 2026-05-12.") from None


def write_new(path: Path, text: str) -> None:
    """Write a new file that only its owner can read: whole, or not at all. Raises CourtlogError."""
    try:
        drafts.write_new(path, text)
    except OSError as error:
        raise CourtlogError(
            f"The file {path} cannot be written ({error.strerror}).", "Name another file."
        ) from error
    finished_steps.note(f"{path} is written")
