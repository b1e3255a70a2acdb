"""The reminder of players whose time to be kept is over, for this laptop's date and setting."""

from __future__ import annotations

from courtlog import locations
from courtlog import settings as settings_file
from courtlog.cli.zones import today
from courtlog.coaching.game.keeping import KeepTime
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads.person.last_days import last_days
from courtlog.reports.layout.keep_words import reminder


def keep_reminder(book: Book) -> str:
    """The reminder for everyone in the book; empty where no time is over, or none is set."""
    keep = KeepTime(settings_file.read(locations.settings()).keep_months)
    return reminder(last_days(book), keep, today()) if keep.months else ""
