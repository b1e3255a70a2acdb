"""The book for a command that writes in it: alone, or beside a window of this computer.

What only adds (a sheet, a player, a plan) may come in while the court screen is open, which shows
it at its next key. What takes away, changes what was fed, or replaces the book waits for it.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from courtlog import finished_steps, locations
from courtlog import settings as settings_file
from courtlog.cli.common import now
from courtlog.cli.new_book import check_new_book
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.open_book import create_or_open, open_existing
from courtlog.logbook.file.writer_lock import LockOwner, WriterLock


@contextmanager
def book_alone(path: Path | None, new: bool = False) -> Iterator[Book]:
    """The coach's book, held by this command; `new`: made where there is none.

    Raises HeldElsewhereError while anybody else writes in it, and BookError.
    """
    where = locations.book(path)
    if new:
        check_new_book(where)
    with closing((create_or_open if new else open_existing)(where, now(), this_writer())) as book:
        if book.lock is not None:
            book.lock.check()
        with book.reading(), _noted(book):
            yield book


@contextmanager
def book_beside(path: Path | None, new: bool = False) -> Iterator[Book]:
    """The coach's book to add to, even while a window of this computer holds it.

    Raises HeldElsewhereError when another computer has it open: it cannot see what is added.
    """
    where = locations.book(path)
    if new:
        check_new_book(where)
    WriterLock(where, this_writer()).check_near()
    opened = (create_or_open if new else open_existing)(where, now())
    with closing(opened) as book, book.reading(), _noted(book):
        yield book


@contextmanager
def _noted(book: Book) -> Iterator[None]:
    """Note that the book was changed, so that a later error says it too."""
    before = finished_steps.count()
    try:
        yield
    finally:
        if book.commits.made and finished_steps.count() == before:
            finished_steps.note("what was asked for is in the book")


def this_writer() -> LockOwner:
    """The words of the writer lock for this command, in the coach's name."""
    return LockOwner.here(settings_file.read(locations.settings()).coach, now())
