"""Open a book: check that it is one, may be written and is of this version; then set WAL and full
sync.
"""

from __future__ import annotations

import contextlib
import sqlite3
import stat
import uuid
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

from courtlog import __version__, drafts, given_files, locations, private, stale_drafts
from courtlog.errors import BookError, BookLockedError, NewerBookError
from courtlog.logbook.file import backups, file_identity
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.book_errors import (
    as_book_error,
    foreign_log,
    no_book,
    strange,
    unreadable,
)
from courtlog.logbook.file.read_only import (
    beside,
    copied,
    fits_its_log,
    has_journal,
    is_full,
    may_write,
)
from courtlog.logbook.file.writer_lock import LockOwner, WriterLock
from courtlog.logbook.rows.ids import new_tag
from courtlog.logbook.schema import schema_check
from courtlog.logbook.schema.schema_check import APPLICATION_ID, SCHEMA

_LOOKS_AT_LOG = 5
"""Looks at a log that others go on writing, before it is left to SQLite's own locks."""

OLDEST_SQLITE = (3, 37, 0)
"""The first with STRICT tables."""

FULL_DISK = "The disk is full: the book is read from a copy in memory, and nothing can be stored."

UNFINISHED = (
    "A program stopped while it wrote in this book, and here nothing can be written to put that"
    " right: the book is read as it was before."
)

_HEADER = b"SQLite format 3\x00"

_VERSIONS = (b"\x01\x01", b"\x02\x02")
"""How the file is written and read, bytes 18 and 19: with a rollback journal, or with a log
(sqlite.org/fileformat2.html, section 1.3). SQLite would set other ones right unasked."""


def create_or_open(path: Path, now: int, owner: LockOwner | None = None) -> Book:
    """The book at this path, made new where there is none. Raises BookError.

    With `owner` it is locked for writing; while another window holds the lock, it opens to read
    only.
    """
    given_files.check_ordinary(path, "book")
    try:
        private.make_folder(path.parent)
        if not path.exists():
            _make_new(path, now)
    except OSError as error:
        raise BookLockedError(
            f"The book {path} cannot be made here ({error.strerror}).",
            "Choose a folder you may write to with --book.",
        ) from error
    return _open(path, now, owner)


def _make_new(path: Path, now: int) -> None:
    """Make a new book, which is whole from the moment it has its name. Raises OSError and
    BookError.
    """
    with drafts.file_in(path.parent) as draft:
        with ready(path, lambda: sqlite3.connect(draft)) as db:
            _bring_up(db, now)
            db.execute("PRAGMA journal_mode = WAL")  # here, where nobody else is in the way
            db.close()
        with contextlib.suppress(FileExistsError):  # another program was faster: as good
            drafts.put_new(draft, path)


def open_existing(path: Path, now: int, owner: LockOwner | None = None) -> Book:
    """The book at this path, locked for `owner`. Raises BookError, also when there is none."""
    given_files.check_ordinary(path, "book")
    if not path.exists() or not path.stat().st_size:
        raise BookError(
            f"There is no book at {path}.",
            "`courtlog` starts one; --book names another file.",
        )
    return _open(path, now, owner)


def open_to_read(path: Path, now: int) -> Book:
    """The book for a command that writes nothing: where the disk is full, a copy in memory.

    SQLite must write a little even to read; `copy_reason` says why it could not. Raises BookError.
    """
    try:
        book = open_existing(path, now)
        return replace(book, copy_reason=UNFINISHED) if book.is_copy and has_journal(path) else book
    except BookError as error:
        if type(error) is not BookError or not path.exists() or not is_full(path):
            raise
        return replace(_to_read(path, now), copy_reason=FULL_DISK)


def open_copy(path: Path, copy: Path, now: int) -> Book:
    """A copy, in a new file, of the book at this path, in today's schema. Raises BookError."""
    path = locations.book(path)
    given_files.check_ordinary(path, "book")
    if not path.exists() or not path.stat().st_size:
        raise BookError(f"There is no book at {path}.", "Check its name and place.")
    check_file(path)
    return _to_read(path, now, str(copy))


def _open(path: Path, now: int, owner: LockOwner | None = None) -> Book:
    if sqlite3.sqlite_version_info < OLDEST_SQLITE:
        raise BookError(
            f"This Python brings SQLite {sqlite3.sqlite_version}, and a book needs 3.37 or later.",
            "Install a newer Python.",
        )
    check_file(path)
    if not may_write(path):
        return _to_read(path, now)
    for folder in (path.absolute().parent, backups.folder_of(path)):
        stale_drafts.sweep(folder)
    lock = None if owner is None else WriterLock(path, owner)
    try:
        if lock is not None:
            lock.take()
        if beside(path):
            _check_log(path, lock or WriterLock(path, LockOwner.here("", now)))
        return _to_write(path, now, lock)
    except BaseException:
        if lock is not None:
            lock.release()
        raise


def _check_log(path: Path, lock: WriterLock) -> None:
    """Refuse a log that a dead program left, if it belongs to another book.

    It is read in only where the book is sound with it. A log of another book with which all links
    still fit cannot be told apart.
    """
    already = lock.held
    if not lock.take(briefly=True):
        return  # somebody writes in it just now
    try:
        for _ in range(_LOOKS_AT_LOG):
            before = _marks(path)
            if fits_its_log(path):
                return
            after = _marks(path)
            if after == before and beside(path):
                raise foreign_log(path, beside(path)[-1])
    finally:
        if not already:
            lock.release()


def _marks(path: Path) -> list[tuple[str, int, int, int]]:
    """What changes when anybody writes in the book or its log."""
    found = []
    for part in (path, *beside(path)):
        with contextlib.suppress(FileNotFoundError):
            stat_ = part.stat()
            found.append((part.name, stat_.st_ino, stat_.st_size, stat_.st_mtime_ns))
    return found


def _to_write(path: Path, now: int, lock: WriterLock | None) -> Book:
    with ready(path, lambda: sqlite3.connect(path, timeout=5)) as db:
        _close_to_others(path)
        db.execute("PRAGMA foreign_keys = ON")
        db.execute("PRAGMA recursive_triggers = ON")  # a row that is replaced was another before
        db.execute("PRAGMA journal_mode = WAL")
        db.execute("PRAGMA synchronous = FULL")
        db.execute("PRAGMA fullfsync = ON")  # macOS' fsync leaves it in the drive's own memory
        db.execute("PRAGMA secure_delete = ON")  # most systems' SQLite keeps deleted bytes
        if (schema := _schema(db)) < SCHEMA:
            if lock is not None:
                lock.check()
            if schema:
                with contextlib.suppress(BookError):
                    backups.make_backup(path, now)
            _bring_up(db, now)
        return Book(path=path, db=db, ids=file_identity.ids_of(db), lock=lock)


def _to_read(path: Path, now: int, *to: str) -> Book:
    """A copy, in memory or a file, of a book that is not written to; its file stays as it is."""
    with ready(path, lambda: copied(path, *to)) as db:
        if _schema(db) < SCHEMA:
            _bring_up(db, now)
        return Book(path=path, db=db, ids=file_identity.ids_of(db), is_copy=True)


@contextlib.contextmanager
def ready(path: Path, connect: Callable[[], sqlite3.Connection]) -> Iterator[sqlite3.Connection]:
    """A connection to a book of a known version; closed again when opening it fails."""
    with contextlib.ExitStack() as undo:
        try:
            db = connect()
            undo.callback(db.close)
            db.isolation_level = None  # a transaction begins where it is written, never by itself
            with schema_check.within_bounds(db):
                db.execute("BEGIN")  # one moment of it, while another program may make it
                try:
                    _check_kind(path, db)
                finally:
                    if db.in_transaction:  # a failing disk may have ended it
                        db.execute("ROLLBACK")
            yield db
        except sqlite3.Error as error:
            raise as_book_error(path, error) from error
        except OSError as error:
            raise unreadable(path, error) from error
        except ValueError as error:  # names that are no text, a number that no book has
            raise no_book(path) from error
        undo.pop_all()


def check_file(path: Path) -> None:
    """Refuse a file that is no SQLite file. Raises BookError."""
    try:
        with path.open("rb") as file:
            head = file.read(len(_HEADER) + 4)
    except OSError as error:
        raise unreadable(path, error) from error
    if head and (head[: len(_HEADER)] != _HEADER or head[len(_HEADER) + 2 :] not in _VERSIONS):
        raise no_book(path)


def _close_to_others(path: Path) -> None:
    if stat.S_IMODE(path.stat().st_mode) & 0o077:
        with contextlib.suppress(OSError):
            path.chmod(private.FILE)


def _check_kind(path: Path, db: sqlite3.Connection) -> None:
    (kind,) = db.execute("PRAGMA application_id").fetchone()
    (tables,) = db.execute("SELECT count(*) FROM sqlite_master").fetchone()
    if kind != APPLICATION_ID and tables:
        raise no_book(path)
    if not tables:
        return
    if _schema(db) > SCHEMA:
        of = "" if (version := _later_version(db)) is None else f" ({version})"
        raise NewerBookError(
            f"The book {path} is of a later courtlog{of} than this one ({__version__}).",
            "Update courtlog; nothing was changed.",
        )
    if (what := schema_check.strangeness(db)) is not None:
        raise strange(path, what)


def _later_version(db: sqlite3.Connection) -> str | None:
    """What a book of a later courtlog calls itself, where it still says so as today's do."""
    if not schema_check.is_plain_table(db, "book"):
        return None
    row = db.execute("SELECT app_version FROM book WHERE length(app_version) < 40").fetchone()
    return None if row is None else str(row[0])


def _schema(db: sqlite3.Connection) -> int:
    """How many migrations the book has been through."""
    return int(db.execute("PRAGMA user_version").fetchone()[0])


def _bring_up(db: sqlite3.Connection, now: int) -> None:
    # A book of today needs neither, and they are slow to load.
    from courtlog.logbook.schema.database import Database
    from courtlog.logbook.schema.migrations import migrations

    kept = Database(db, execute_plugins=False)
    fresh = not migrations.applied(kept)
    with kept.atomic():
        migrations.apply(kept)
        db.execute(f"PRAGMA user_version = {SCHEMA}")
        if schema_check.strangeness(db) is not None:
            raise sqlite3.DatabaseError("the book cannot be brought up to date")
        if fresh:
            db.execute(f"PRAGMA application_id = {APPLICATION_ID}")
            db.execute(
                "INSERT INTO book VALUES (1, ?, ?, ?, ?)",
                [str(uuid.uuid4()), new_tag(), __version__, now],
            )
        else:
            db.execute("UPDATE book SET app_version = ?", [__version__])
