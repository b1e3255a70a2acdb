"""Opening a book: is it one, is it ours to write, is it of our time; then WAL and full sync."""

from __future__ import annotations

import contextlib
import os
import sqlite3
import stat
import uuid
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from courtlog import __version__, private
from courtlog.errors import BookError, BookLockedError, NewerBookError, NotABookError
from courtlog.logbook import backups
from courtlog.logbook.database import Database
from courtlog.logbook.ids import COUNT_BITS, Ids, new_tag
from courtlog.logbook.migrations import APPLICATION_ID, migrations

SCHEMA = 2
"""How many migrations this courtlog knows; a book with more is of a later one."""

OLDEST_SQLITE = (3, 37, 0)
"""The first with STRICT tables."""

_HEADER = b"SQLite format 3\x00"


@dataclass(frozen=True, slots=True)
class Book:
    """An open book. Close it when done; what was committed is on disk either way."""

    path: Path
    db: Database
    ids: Ids

    def close(self) -> None:
        """Close the file."""
        self.db.close()

    @contextlib.contextmanager
    def writing(self) -> Iterator[Database]:
        """One transaction; a failure of the disk becomes a BookError and nothing is kept of it."""
        try:
            with self.db.atomic():
                yield self.db
        except sqlite3.Error as error:
            raise _as_book_error(self.path, error) from error

    @contextlib.contextmanager
    def told(self) -> Iterator[None]:
        """A failure of the file while reading becomes a BookError."""
        try:
            yield
        except sqlite3.Error as error:
            raise _as_book_error(self.path, error) from error


def create_or_open(path: Path, now: int) -> Book:
    """The book at this path, made new where there is none. Raises BookError."""
    try:
        private.make_folder(path.parent)
        # Made here and not by SQLite, so that others cannot read it, not even for a moment.
        with contextlib.suppress(FileExistsError):
            os.close(private.make_file(path))
    except OSError as error:
        raise BookLockedError(
            f"The book {path} cannot be made here ({error.strerror}).",
            "Choose a folder you may write to with --book.",
        ) from error
    return _open(path, now)


def open_existing(path: Path, now: int) -> Book:
    """The book at this path. Raises BookError, also when there is none."""
    if not path.exists() or (path.is_file() and not path.stat().st_size):
        raise BookError(
            f"There is no book at {path}.",
            "`courtlog` starts one; --book names another file.",
        )
    return _open(path, now)


def _open(path: Path, now: int) -> Book:
    if sqlite3.sqlite_version_info < OLDEST_SQLITE:
        raise BookError(
            f"This Python brings SQLite {sqlite3.sqlite_version}, and a book needs 3.37 or later.",
            "Install a newer Python.",
        )
    _check_file(path)
    try:
        db = Database(sqlite3.connect(path, timeout=5), execute_plugins=False)
    except sqlite3.Error as error:
        raise _as_book_error(path, error) from error
    try:
        _check_kind(path, db)
        _close_to_others(path)
        db.execute("PRAGMA foreign_keys = ON")
        db.execute("PRAGMA journal_mode = WAL")
        db.execute("PRAGMA synchronous = FULL")
        if migrations.pending(db):
            if migrations.applied(db):
                with contextlib.suppress(BookError):
                    backups.keep(path, now)
            _bring_up(db, now)
        return Book(path, db, _ids(db))
    except sqlite3.Error as error:
        db.close()
        raise _as_book_error(path, error) from error
    except BookError:
        db.close()
        raise


def _check_file(path: Path) -> None:
    if path.is_dir():
        raise NotABookError(f"{path} is a folder, not a book.", "Name a file with --book.")
    try:
        with path.open("rb") as file:
            head = file.read(len(_HEADER))
    except OSError as error:
        raise BookLockedError(
            f"The book {path} cannot be read ({error.strerror}).",
            "Check who owns the file, or name another with --book.",
        ) from error
    if head and head != _HEADER:
        raise _no_book(path)
    if not os.access(path, os.W_OK) or not os.access(path.parent, os.W_OK):
        raise BookLockedError(
            f"The book {path} cannot be written to.",
            "Make the file and its folder writable, or name another with --book.",
        )


def _close_to_others(path: Path) -> None:
    if stat.S_IMODE(path.stat().st_mode) & 0o077:
        with contextlib.suppress(OSError):
            path.chmod(private.FILE)


def _check_kind(path: Path, db: Database) -> None:
    (kind,) = db.execute("PRAGMA application_id").fetchone()
    (tables,) = db.execute("SELECT count(*) FROM sqlite_master").fetchone()
    if kind != APPLICATION_ID and tables:
        raise _no_book(path)
    if not tables:
        return
    (schema,) = db.execute("PRAGMA user_version").fetchone()
    if schema > SCHEMA:
        row = db.execute("SELECT app_version FROM book").fetchone()
        raise NewerBookError(
            f"The book {path} is of a later courtlog ({row[0]}) than this one ({__version__}).",
            "Update courtlog; nothing was changed.",
        )


def _bring_up(db: Database, now: int) -> None:
    fresh = not migrations.applied(db)
    with db.atomic():
        migrations.apply(db)
        db.execute(f"PRAGMA user_version = {SCHEMA}")
        if fresh:
            db.execute(f"PRAGMA application_id = {APPLICATION_ID}")
            db.execute(
                "INSERT INTO book VALUES (1, ?, ?, ?, ?)",
                [str(uuid.uuid4()), new_tag(), __version__, now],
            )
        else:
            db.execute("UPDATE book SET app_version = ?", [__version__])


def _ids(db: Database) -> Ids:
    (tag,) = db.execute("SELECT tag FROM book").fetchone()
    ceiling = (tag + 1) << COUNT_BITS
    last = 0
    tables = db.execute(
        "SELECT master.name FROM sqlite_master AS master, pragma_table_info(master.name) AS info"
        " WHERE master.type = 'table' AND info.name = 'id'"
    ).fetchall()
    for (table,) in tables:
        (highest,) = db.execute(f"SELECT max(id) FROM {table} WHERE id < ?", [ceiling]).fetchone()
        last = max(last, highest or 0)
    return Ids(tag, last)


def _no_book(path: Path) -> NotABookError:
    return NotABookError(
        f"{path} is not a courtlog book, or it is damaged.",
        "Nothing was changed. Name another file with --book, or restore a copy.",
    )


def _as_book_error(path: Path, error: sqlite3.Error) -> BookError:
    code = getattr(error, "sqlite_errorname", "") or ""
    if code.startswith(("SQLITE_NOTADB", "SQLITE_CORRUPT")):
        return _no_book(path)
    if code.startswith(("SQLITE_BUSY", "SQLITE_LOCKED")):
        return BookLockedError(
            f"Another program holds the book {path}.", "Close it there, then try again."
        )
    if code.startswith(("SQLITE_READONLY", "SQLITE_CANTOPEN", "SQLITE_PERM")):
        return BookLockedError(
            f"The book {path} cannot be written to.",
            "Make the file and its folder writable, or name another with --book.",
        )
    if code.startswith("SQLITE_FULL"):
        return BookError("The disk is full.", "Free some space; the last key was not stored.")
    return BookError(
        f"The book could not be used ({error}); what was shown before is stored.",
        f"It lies at {path}.",
    )
