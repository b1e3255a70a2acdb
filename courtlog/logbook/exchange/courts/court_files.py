"""The files of a clinic's courts: how they are called, and how a copy of a book becomes one.

Failures of the disk are one sentence each; the book itself is not harmed.
"""

from __future__ import annotations

import contextlib
import os
import re
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

from courtlog import private
from courtlog.coaching.game.court_book import CourtBook
from courtlog.errors import CourtlogError, NotABookError
from courtlog.logbook.file import copying, file_identity
from courtlog.logbook.file.sqlite_uri import sqlite_uri
from courtlog.logbook.reads.courts.court_file import CourtFile, told_by

NAME = re.compile(r"[^\W_][\w -]{0,19}")
"""A court's name: what the name of a file can hold on every system."""

STORED = "INSERT OR REPLACE INTO court_book VALUES (1, ?, ?, ?, ?, ?)"


def file_of(folder: Path, court: str) -> Path:
    """`court-2.db` in that folder."""
    return folder / f"court-{court}.db"


def check_court_name(name: str) -> str:
    """The name, if a file can be called by it. Raises CourtlogError."""
    if not NAME.fullmatch(name):
        raise CourtlogError(
            f"{name[:30]!r} is no name of a court.", "Take up to 20 letters and digits."
        )
    return name


def stored_values(own: CourtBook) -> list[object]:
    """The row of `court_book`."""
    return [own.court, str(own.owner), own.number, own.stick, own.written_at]


def read_court_file(path: Path) -> CourtFile | None:
    """What a file says of itself; None where it is no sound book of a court."""
    with contextlib.suppress(sqlite3.Error, OSError, CourtlogError):
        copying.contents_of(path)
        with closing(copying.open_read_only(path)) as db:
            return told_by(db, path)
    return None


_MORE = (
    "SELECT EXISTS (SELECT 1 FROM round JOIN ball ON round_id = round.id"
    " JOIN journal ON ball_id = ball.id"
    " WHERE player_id NOT IN (SELECT player_id FROM head.erased)"
    " AND journal.id NOT IN (SELECT id FROM head.journal))"
    " OR EXISTS (SELECT 1 FROM check_in"
    " WHERE player_id NOT IN (SELECT player_id FROM head.erased)"
    " AND id NOT IN (SELECT id FROM head.check_in))"
)


def knows_more(path: Path, book: Path) -> bool:
    """Whether the copy that a court laid there holds balls or check-ins that the book has not.

    Raises sqlite3.Error.
    """
    with closing(copying.open_read_only(path)) as db:
        db.execute("ATTACH ? AS head", [sqlite_uri(book.absolute(), "mode=ro")])
        return bool(db.execute(_MORE).fetchone()[0])


@contextlib.contextmanager
def copy_of_court(book: Path, draft: Path, own: CourtBook) -> Iterator[sqlite3.Connection]:
    """A checked copy of the book in a draft, as the book of that court; to be changed further.

    Raises sqlite3.Error, OSError and NotABookError.
    """
    os.close(private.make_file(draft))
    copying.copy_to(book, draft)
    with closing(sqlite3.connect(draft, isolation_level=None)) as db:
        db.execute("PRAGMA foreign_keys = ON")
        db.execute("BEGIN")
        db.execute(STORED, stored_values(own))
        file_identity.leave_unclaimed(db)
        yield db
        db.execute("COMMIT")


@contextlib.contextmanager
def told_of(folder: Path, else_: str) -> Iterator[None]:
    """Turn a failure in that folder into one sentence, and `else_` into the next step."""
    try:
        yield
    except NotABookError as error:
        raise CourtlogError(
            "No copy could be made: the book did not pass the check.", "`courtlog doctor` helps."
        ) from error
    except OSError as error:
        why = error.strerror or type(error).__name__
        raise CourtlogError(f"The folder {folder} cannot be written to ({why}).", else_) from error
    except sqlite3.Error as error:
        if error.sqlite_errorcode == sqlite3.SQLITE_FULL:
            raise CourtlogError(f"The folder {folder} is full.", else_) from error
        raise CourtlogError(
            f"The folder {folder} cannot be written to ({error}).", else_
        ) from error
