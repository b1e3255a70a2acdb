"""`courtlog`: the court screen on the coach's own book."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import replace
from pathlib import Path

from courtlog import locations
from courtlog import settings as settings_file
from courtlog.cli import failures
from courtlog.cli.common import library, now
from courtlog.cli.failures import RunEnd
from courtlog.cli.new_book import check_new_book, may_begin
from courtlog.cli.zones import named_zone
from courtlog.errors import BookError, CourtlogError
from courtlog.logbook.file import backups
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.file.writer_lock import LockOwner
from courtlog.logbook.reads import lookups
from courtlog.plain_text import many, plain
from courtlog.systems.shell_words import quoted


def open_court(path: Path | None) -> None:
    """Open the book, made new where there is none, and resume. Raises CourtlogError."""
    if not has_terminal():
        raise CourtlogError(
            "The court screen needs a terminal.", "`courtlog day` prints the day without one."
        )
    book = locations.book(path)
    check_new_book(book)
    if path is not None and not may_begin(book):
        return
    failures.run(lambda said: _until_closed(book, said, path is not None))


def _until_closed(path: Path, said: str, typed: bool) -> RunEnd:
    """Open the court on this book and run it to its end; `typed`: the book was named.

    Raises CourtlogError.
    """
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
            desk.clinic.open_court_of_book()
            if desk.clinic.has_day():
                desk.state.resume()
            elif book.read_only:
                raise CourtlogError("There is nothing in this book yet.", first_message(book))
        app = CourtlogApp(desk, locations.settings(), named_zone(), make_backup, said)
        app.run()
        if app.failure is None:
            for words in _kept(book, path if typed else None):
                print(plain(words))
            for words in make_backup():
                print(plain(words))
            # The court has closed: its start does not pay for this.
            from courtlog.cli.after_court import tidy_up

            if reminder := tidy_up(book, settings.second_backup):
                print(reminder)
        return replace(RunEnd.of(app), failure=_as_refusal(book, app.failure))
    finally:
        book.close()


def _kept(book: Book, typed: Path | None) -> Iterator[str]:
    """What the book holds of the day that is left, and the two commands for the evening."""
    with suppress(BookError), book.reading():
        mark = lookups.bookmark(book)
        if mark is None:
            return
        day = lookups.day(book, mark.day_id)
        turns = [turn for turn in lookups.turns(book, day.id) if turn.balls]
        if not turns:
            yield f"No ball on {day.words()} yet. The book is {book.path}."
            return
        balls = many(sum(turn.balls for turn in turns), "ball")
        players = many(len({turn.player for turn in turns}), "player")
        yield f"Kept of {day.words()}: {balls} of {players}, in {book.path}."
        command = "courtlog" if typed is None else f"courtlog --book {quoted(str(typed))}"
        yield "For the evening:"
        yield f"  {command} evening FOLDER   writes all that is handed out"
        yield f"  {command} day              shows the day"


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
