"""Copying a book's file: one moment of it, checked.

SQLite's online backup reads from one snapshot, so that keys go on being stored meanwhile. A copy
is a single file, readable by its owner alone. Everything here raises sqlite3.Error, OSError or
NotABookError; who calls says what that means.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

from courtlog import drafts, given_files, times
from courtlog.errors import NewerBookError, NotABookError
from courtlog.logbook.file import read_only
from courtlog.logbook.file.book_errors import foreign_log, no_book, strange
from courtlog.logbook.file.sqlite_uri import sqlite_uri
from courtlog.logbook.schema import schema_check
from courtlog.logbook.schema.schema_check import APPLICATION_ID, SCHEMA

PAGES = 256
"""Pages copied in one step (a megabyte); between two steps the copying can be stopped."""

_CACHE = "PRAGMA cache_size = -256"
"""Kilobytes: pages are read once here, and what a thread used the program never gives back."""

_ANYTHING = "SELECT 1 FROM sqlite_master LIMIT 1"

_STAMP = "%Y%m%dT%H%M%S"


class StopCopying(Exception):  # noqa: N818 - nothing went wrong
    """The program is leaving; the copy is not needed any more."""


@dataclass(frozen=True, slots=True)
class BookContents:
    """What a book's file holds; `newest` is the id of its last journal line, 0 without one.

    `schema` counts the migrations it has been through.
    """

    tag: int
    clinics: int
    rounds: int
    balls: int
    newest: int
    schema: int


def open_read_only(path: Path) -> sqlite3.Connection:
    """A connection that cannot write. Raises NotAFileError.

    What a program that died left half written is taken back first, here or in a copy. Where nothing
    can be written, not even what SQLite needs to read, the connection is to a copy.
    """
    given_files.check_ordinary(path, "book")
    db = sqlite3.connect(sqlite_uri(path.absolute(), "mode=ro"), uri=True, timeout=5)
    if not _can_be_read(db):
        db.close()
        if read_only.has_journal(path) and read_only.may_write(path):
            take_back(path)
            db = sqlite3.connect(sqlite_uri(path.absolute(), "mode=ro"), uri=True, timeout=5)
        else:
            db = read_only.copied(path)
    schema_check.be_wary(db)
    return db


def take_back(book: Path) -> None:
    """Undo what a program that died left half written. Raises sqlite3.Error and NotABookError."""
    if not read_only.fits_its_log(book):
        raise foreign_log(book, read_only.beside(book)[-1])
    with closing(sqlite3.connect(book, timeout=5)) as db:
        db.execute(_ANYTHING).fetchone()


def _can_be_read(db: sqlite3.Connection) -> bool:
    """Whether SQLite can begin to read; damage shows later."""
    try:
        db.execute(_ANYTHING).fetchone()
    except sqlite3.OperationalError as error:
        return error.sqlite_errorname.startswith(("SQLITE_BUSY", "SQLITE_LOCKED"))
    except sqlite3.DatabaseError:
        return True
    return True


def contents_of(path: Path, thorough: bool = False) -> BookContents:
    """What a whole, sound book holds; thorough also compares every index with its table."""
    with closing(open_read_only(path)) as db:
        return _contents(path, db, thorough)


def copy_to(book: Path, draft: Path, stopped: Callable[[], bool] = lambda: False) -> BookContents:
    """Copy a book into a draft that nobody else uses, and check it. Raises StopCopying when told
    to.
    """

    def step(_status: int, _left: int, _total: int) -> None:
        if stopped():
            raise StopCopying

    with closing(open_read_only(book)) as source, closing(sqlite3.connect(draft)) as target:
        # Within one reading transaction all steps copy one moment, and a key cannot restart them.
        for db in (source, target):
            db.execute(_CACHE)
        source.execute("BEGIN")
        _check_schema(book, source)
        (newest,) = source.execute("SELECT coalesce(max(id), 0) FROM journal").fetchone()
        target.execute("PRAGMA synchronous = OFF")
        source.backup(target, pages=PAGES, progress=step)
        target.execute("PRAGMA journal_mode = DELETE")
        held = _contents(draft, target, False)
    if held.newest != newest:
        raise NotABookError(f"The copy of {book} does not end where the book ends.")
    return held


def free_name(folder: Path, kind: str, at_ms: int) -> Path:
    """`KIND-20260512T073000.db`, of that second (UTC) or the first later one that is free."""
    while True:
        stamp = (datetime.fromtimestamp(0, UTC) + timedelta(milliseconds=at_ms)).strftime(_STAMP)
        path = folder / f"{kind}-{stamp}.db"
        if not path.exists():
            return path
        at_ms += 1000


def put_under_free_name(draft: Path, folder: Path, kind: str, at_ms: int) -> Path:
    """Give the draft the first free name from that moment on, and return it."""
    while True:
        path = free_name(folder, kind, at_ms)
        try:
            drafts.put_new(draft, path)
        except FileExistsError:
            continue  # another program was faster
        return path


def moment_of(copy: Path) -> int:
    """When the copy was made, by its name; by the file's own time where the name does not say."""
    try:
        stamp = datetime.strptime(copy.stem.rpartition("-")[2], _STAMP)  # noqa: DTZ007
    except ValueError:
        return int(copy.stat().st_mtime * 1000)
    return times.as_moment(stamp.replace(tzinfo=UTC))


def _check_schema(path: Path, db: sqlite3.Connection) -> int:
    """The version of a book that is as courtlog makes it. Raises NotABookError, NewerBookError."""
    (kind,) = db.execute("PRAGMA application_id").fetchone()
    (version,) = db.execute("PRAGMA user_version").fetchone()
    if kind != APPLICATION_ID:
        raise no_book(path)
    if version > SCHEMA:
        raise NewerBookError(f"{path} is of a later courtlog.", "Update courtlog first.")
    if (what := schema_check.strangeness(db)) is not None:
        raise strange(path, what)
    return int(version)


def _contents(path: Path, db: sqlite3.Connection, thorough: bool) -> BookContents:
    check = "integrity_check" if thorough else "quick_check"
    with schema_check.within_bounds(db):
        version = _check_schema(path, db)
        if db.execute(f"PRAGMA {check}(1)").fetchone() != ("ok",):
            raise no_book(path)
        row = db.execute(
            "SELECT tag, (SELECT count(*) FROM clinic), (SELECT count(*) FROM round),"
            " (SELECT count(*) FROM ball WHERE taken),"
            " (SELECT coalesce(max(id), 0) FROM journal) FROM book"
        ).fetchone()
    if row is None:
        raise no_book(path)
    return BookContents(*(*row, version))
