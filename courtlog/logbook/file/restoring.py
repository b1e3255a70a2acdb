"""Restore a backup in the book's place: checked before and after, and what it replaces is kept."""

from __future__ import annotations

import contextlib
import os
import shutil
import sqlite3
import sys
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from courtlog import drafts, given_files, private
from courtlog.errors import BookError, BookLockedError, NotABookError
from courtlog.logbook.file import backups, copying, read_only
from courtlog.logbook.file.book_errors import translate_errors
from courtlog.logbook.file.sqlite_uri import sqlite_uri
from courtlog.logbook.file.writer_lock import LockOwner, WriterLock
from courtlog.logbook.rows import value_limits
from courtlog.logbook.schema import schema_check
from courtlog.plain_text import listed, many

_BESIDE = ("-wal", "-shm", "-journal")
"""Files that SQLite keeps beside a book in use; a stale one would be read into the next book."""


_COUNTED = (
    ("ball", "id", "taken", "ball"),
    ("round", "id", "true", "round"),
    ("journal", "id", "true", "key"),
    ("player", "id", "true", "player"),
    ("note", "id", "true", "note"),
    ("check_in", "id", "true", "check-in"),
    ("heat", "id", "true", "heat reading"),
    ("planned_round", "id", "true", "planned round"),
    ("erased", "player_id", "player_id > 0", "removal of a player"),
)
"""Tables, what tells their rows apart, which of them count, and the word for one."""


@dataclass(frozen=True, slots=True)
class Loss:
    """What the book holds and a backup does not: how many of each kind, by the kind's word."""

    counts: tuple[tuple[str, int], ...] = ()

    def words(self) -> str:
        """`12 balls, 2 rounds and 40 keys`; nothing when the backup has everything."""
        return listed([_many(count, word) for word, count in self.counts])


def _many(count: int, word: str) -> str:
    if word == "removal of a player" and count > 1:
        return f"removal of {count} players"
    return many(count, word)


def loss(book: Path, copy: Path) -> Loss | None:
    """What would be lost by putting the copy in the book's place; None for an unreadable book.

    Counted once what a program that died left half written has been taken back.
    """
    if not book.exists():
        return Loss()
    try:
        with closing(copying.open_read_only(book)) as db:
            if schema_check.strangeness(db) is not None:
                return None
            db.execute("ATTACH ? AS copy", [sqlite_uri(copy.absolute(), "mode=ro")])
            counts = [(word, _missing(db, *what)) for *what, word in _COUNTED]
    except (sqlite3.Error, OSError, NotABookError):
        return None
    return Loss(tuple((word, count) for word, count in counts if count))


def _missing(db: sqlite3.Connection, table: str, key: str, which: str) -> int:
    """Rows of the book that the copy has not; a book of an older version may lack the table."""
    here, there = (
        db.execute(f"SELECT 1 FROM {schema}.sqlite_master WHERE name = ?", [table]).fetchone()
        for schema in ("main", "copy")
    )
    if not here:
        return 0
    known = f" AND {key} NOT IN (SELECT {key} FROM copy.{table} WHERE {which})" if there else ""
    (count,) = db.execute(f"SELECT count(*) FROM main.{table} WHERE {which}{known}").fetchone()
    return int(count)


def check(copy: Path) -> backups.Backup:
    """A backup that this courtlog can put in place. Raises BookError."""
    given_files.check_ordinary(copy, "book")
    if not copy.exists():
        raise BookError(f"There is no file {copy}.", "`courtlog restore` lists the backups.")
    with translate_errors(copy):
        found = backups.read_backup(copy, thorough=True)
        _check_rows(copy)
    return found


def _check_rows(copy: Path) -> None:
    """Refuse a book with rows that no command could read. Raises NotABookError, sqlite3.Error."""
    with closing(copying.open_read_only(copy)) as db:
        if count := value_limits.count_beyond(db):
            raise NotABookError(
                f"{many(count, 'row')} of {copy} hold{'s' * (count == 1)} an id, a time or a number"
                " that no courtlog wrote.",
                "Nothing was changed. Name another backup.",
            )


def restore(book: Path, copy: Path, owner: LockOwner) -> Path | None:
    """Put the copy in the book's place; returns where the replaced book lies now.

    Raises BookError, and leaves the book as it was, when another program holds it.
    """
    wanted = check(copy)
    lock = WriterLock(book, owner)
    try:
        if not lock.take():
            raise lock.refusal()
        return _replace(book, copy, wanted, owner.since)
    finally:
        lock.release()


def _replace(book: Path, copy: Path, wanted: backups.Backup, at_ms: int) -> Path | None:
    kept = None
    try:
        private.make_folder(book.absolute().parent)
        with drafts.file_in(book.absolute().parent) as draft:
            copying.copy_to(copy, draft)
            if book.exists():
                with _set_aside(book, at_ms) as kept:
                    _put(draft, book)
            else:
                _put(draft, book)
        if copying.contents_of(book, thorough=True) == wanted.contents:
            return kept
    except (OSError, sqlite3.Error) as error:
        raise BookError(
            f"The backup could not be put in place ({error}).", "Check the disk and its space."
        ) from error
    raise NotABookError(
        f"The restored book {book} does not read as the backup does.",
        f"What it replaced lies at {kept}." if kept else "",
    )


def _put(draft: Path, book: Path) -> None:
    for ending in _BESIDE:
        Path(f"{book}{ending}").unlink(missing_ok=True)
    drafts.put(draft, book)


@contextlib.contextmanager
def _held_alone(book: Path) -> Iterator[sqlite3.Connection | None]:
    """A connection by which nobody else can read or write the book; None to a damaged one.

    What a program that died left half written is taken back, and what lies beside it folded in.
    Raises BookLockedError while anybody else has it open.
    """
    db = None
    try:
        with contextlib.suppress(NotABookError):  # what lies beside it is of another book
            copying.open_read_only(book).close()
            db = sqlite3.connect(book, timeout=1, isolation_level=None)
            db.execute("PRAGMA journal_mode = DELETE")
            # Kept after the transaction, within which nothing could be copied.
            db.execute("PRAGMA locking_mode = EXCLUSIVE")
            db.execute("BEGIN EXCLUSIVE")
            db.execute("COMMIT")
    except sqlite3.DatabaseError as error:
        if db is not None:
            db.close()
        if error.sqlite_errorname.startswith("SQLITE_BUSY"):
            raise BookLockedError(
                f"Another window or program has the book {book} open.",
                "Close it there, then try again.",
            ) from error
        db = None  # a damaged book: what there is of it is set aside
    try:
        yield db
    finally:
        if db is not None:
            db.close()


@contextlib.contextmanager
def _set_aside(book: Path, at_ms: int) -> Iterator[Path]:
    """Keep all that there is of the book among the backups, under a name of its own.

    Nobody else reads or writes the book meanwhile. A damaged one is copied byte by byte, with the
    files beside it, before SQLite changes any of them.
    """
    folder = backups.folder_of(book)
    private.make_folder(folder)
    with drafts.folder_in(folder) as scratch:
        copies = {
            part.name.removeprefix(book.name): _copy(part, scratch / f"part-{number}")
            for number, part in enumerate((book, *read_only.beside(book)))
        }
        with _held_alone(book) as db:
            if db is not None:
                # Not by the file: closing that would let go of the lock.
                copies = {"": scratch / "whole.db"}
                os.close(private.make_file(copies[""]))
                with closing(sqlite3.connect(copies[""])) as whole:
                    db.backup(whole)
            kept = copying.put_under_free_name(copies.pop(""), folder, "replaced", at_ms)
            for ending, copy in copies.items():
                drafts.put_new(copy, Path(f"{kept}{ending}"))
            if sys.platform == "win32" and db is not None:
                db.close()  # an open file cannot be replaced there
            yield kept


def _copy(part: Path, target: Path) -> Path:
    os.close(private.make_file(target))
    return Path(shutil.copyfile(part, target))
