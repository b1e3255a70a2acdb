"""What is done once the court has closed, so that its start does not pay for it."""

from __future__ import annotations

from contextlib import suppress

from courtlog.cli.keep_reminder import keep_reminder
from courtlog.errors import BookError
from courtlog.logbook.file.book import Book
from courtlog.logbook.writes.erase_copies import erase_owed


def tidy_up(book: Book, second_backup: str) -> str:
    """Remove from backups who was erased before; give back the reminder, or nothing."""
    if not book.read_only:
        erase_owed(book.path, second_backup)
    with suppress(BookError), book.reading():
        return keep_reminder(book)
    return ""
