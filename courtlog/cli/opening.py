"""`courtlog`: the court screen on the coach's own book."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

from courtlog import locations
from courtlog import settings as settings_file
from courtlog.cli.common import library, now
from courtlog.cli.zones import local_zone
from courtlog.coaching.plain import plain
from courtlog.errors import CourtlogError
from courtlog.logbook import backups
from courtlog.logbook.holder import Holder
from courtlog.logbook.opening import create_or_open


def open_court(path: Path | None) -> None:
    """Open the book, made new where there is none, and resume. Raises CourtlogError."""
    if not has_terminal():
        raise CourtlogError(
            "The court screen needs a terminal.", "`courtlog day` prints the day without one."
        )
    settings = settings_file.read(locations.settings())
    me = Holder.here(settings.coach, now())
    book = create_or_open(locations.book(path), now(), me)
    book.stay_small()
    from courtlog.courtside.abreast import first_words
    from courtlog.courtside.app import CourtlogApp
    from courtlog.courtside.desk import Desk

    said: set[str] = set()

    def keep_copy(stopped: Callable[[], bool] = lambda: False) -> list[str]:
        """A backup; a trouble is said once, and not again when the court closes."""
        if book.read_only:
            return []
        troubles = backups.keep_everywhere(book.path, settings.second_backup, now(), stopped)
        new = [words for words in troubles if words not in said]
        said.update(troubles)
        return new

    try:
        desk = Desk(book, library, settings, now)
        with book.told():  # a damage is said here, before the screen is another
            if desk.is_begun():
                desk.resume()
            elif book.read_only:
                raise CourtlogError("There is nothing in this book yet.", first_words(desk))
        CourtlogApp(desk, locations.settings(), local_zone(), keep_copy).run()
        for words in keep_copy():
            print(plain(words))
        if not book.read_only:
            from courtlog.logbook.owed import erase_owed  # needed once the court is closed

            erase_owed(book.path, settings.second_backup)
    finally:
        book.close()


def has_terminal() -> bool:
    """Whether a person can press keys and see a screen."""
    return all(stream is not None and stream.isatty() for stream in (sys.stdin, sys.stdout))
