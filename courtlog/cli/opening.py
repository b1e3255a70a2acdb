"""`courtlog`: the court screen on the coach's own book."""

from __future__ import annotations

import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from courtlog import locations
from courtlog import settings as settings_file
from courtlog.cli import failures
from courtlog.cli.common import library, now
from courtlog.cli.failures import RunEnd
from courtlog.cli.zones import local_zone
from courtlog.errors import BookError, CourtlogError
from courtlog.logbook.file import backups
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.file.writer_lock import LockOwner
from courtlog.plain_text import plain


def open_court(path: Path | None) -> None:
    """Open the book, made new where there is none, and resume. Raises CourtlogError."""
    if not has_terminal():
        raise CourtlogError(
            "The court screen needs a terminal.", "`courtlog day` prints the day without one."
        )
    failures.run(lambda said: _until_closed(locations.book(path), said))


def _until_closed(path: Path, said: str) -> RunEnd:
    """Open the court on this book and run it to its end. Raises CourtlogError."""
    settings = settings_file.read(locations.settings())
    me = LockOwner.here(settings.coach, now())
    book = create_or_open(path, now(), me)
    book.stay_small()
    # The book is open before Textual loads, so that a refusal comes at once.
    from courtlog.courtside.app.court_app import CourtlogApp
    from courtlog.courtside.desk.book_sync import first_message
    from courtlog.courtside.desk.desk import Desk

    troubles_told: set[str] = set()

    def make_backup(stopped: Callable[[], bool] = lambda: False) -> list[str]:
        """Make a backup; give back its troubles, each only once."""
        if book.read_only:
            return []
        troubles = backups.make_backups(book.path, settings.second_backup, now(), stopped)
        new = [words for words in troubles if words not in troubles_told]
        troubles_told.update(troubles)
        return new

    try:
        desk = Desk(book, library, settings, now)
        with book.reading():  # damage is told here, while the terminal still shows lines
            if desk.clinic.has_day():
                desk.state.resume()
            elif book.read_only:
                raise CourtlogError("There is nothing in this book yet.", first_message(book))
        app = CourtlogApp(desk, locations.settings(), local_zone(), make_backup, said)
        app.run()
        if app.failure is None:
            for words in make_backup():
                print(plain(words))
            if not book.read_only:
                # The court has closed: its start does not pay for this.
                from courtlog.logbook.writes.erase_copies import erase_owed

                erase_owed(book.path, settings.second_backup)
        return replace(RunEnd.of(app), failure=_as_refusal(book, app.failure))
    finally:
        book.close()


def _as_refusal(book: Book, failure: Exception | None) -> Exception | None:
    """The failure as a BookError where the book's file failed; any other as it is."""
    try:
        with book.reading():
            if failure is not None:
                raise failure
    except BookError as error:
        return error
    except Exception:  # noqa: BLE001 - it is given back
        return failure
    return None


def has_terminal() -> bool:
    """Whether a person can press keys and see a screen."""
    return all(stream is not None and stream.isatty() for stream in (sys.stdin, sys.stdout))
