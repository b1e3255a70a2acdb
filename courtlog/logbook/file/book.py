"""An open book: reads and writes whose failures become sentences; it notices what others wrote."""

from __future__ import annotations

import contextlib
import sqlite3
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from time import perf_counter

from courtlog import times
from courtlog.logbook.file import file_identity, head_book
from courtlog.logbook.file.book_errors import (
    as_book_error,
    moved,
    no_book,
    not_writable,
)
from courtlog.logbook.file.writer_lock import WriterLock
from courtlog.logbook.rows.ids import Ids

_BY_WRONG_VALUES = (
    *(ValueError, TypeError, AttributeError, LookupError, AssertionError),
    *(ArithmeticError, RecursionError, MemoryError),
)
"""What a look-up may raise where a value is not one that courtlog writes."""


SLOW = 0.008
"""Seconds from which a commit is worth a word: half of one frame of a 60 Hz screen."""


class Commits:
    """The commits of one connection: how many were `made`, and how long the last one took."""

    def __init__(self) -> None:
        self.seconds = 0.0
        self.made = 0

    @property
    def slow(self) -> bool:
        """Whether the coach would have to wait to see the next key as well."""
        return self.seconds >= SLOW

    @contextlib.contextmanager
    def timed(self) -> Iterator[None]:
        """Time what happens in here; what fails is not timed."""
        start = perf_counter()
        yield
        self.seconds = perf_counter() - start
        self.made += 1


class Watch:
    """Looks at one connection; what that connection writes itself is never news."""

    def __init__(self, db: sqlite3.Connection) -> None:
        self._db = db
        self._seen = self._version()

    def news(self) -> bool:
        """Whether another connection has written since this was last asked."""
        before, self._seen = self._seen, self._version()
        return before != self._seen

    def _version(self) -> int:
        (version,) = self._db.execute("PRAGMA data_version").fetchone()
        return int(version)


def is_damaged(db: sqlite3.Connection) -> bool:
    """Whether pages, types, checks, links or values of the file are broken: the book, not the
    program.
    """
    from courtlog.logbook.rows import soundness, tallies  # only where something went wrong
    from courtlog.logbook.schema.tables import tables

    try:
        if db.execute("PRAGMA integrity_check(1)").fetchone() != ("ok",):
            return True
        if db.execute("PRAGMA foreign_key_check").fetchone() is not None:
            return True
        for (zone,) in db.execute("SELECT zone FROM clinic"):
            times.zone(zone)
        if next(soundness.faults(db, tables(db)), None) is not None:
            return True
        return bool(tallies.proof(db))
    except Exception:  # noqa: BLE001 - whatever a check stumbles over is a damage
        return True


@dataclass(frozen=True, slots=True, kw_only=True)
class Book:
    """An open book. Close it when done; what was committed is on disk either way."""

    path: Path
    """Its file."""
    db: sqlite3.Connection
    """The connection; outside this room it is only read from."""
    ids: Ids
    """Gives new ids that continue the book's."""
    lock: WriterLock | None = None
    """Where there is one, the book is written to only while it is held."""
    is_copy: bool = False
    """Whether it is a copy, which is only read."""
    copy_reason: str = ""
    """Why it is a copy, where rights are not the reason."""
    commits: Commits = field(default_factory=Commits, repr=False, compare=False)
    """How many commits there were, and how long the last one took."""
    _watch: Watch = field(init=False, repr=False, compare=False)
    """Notices what other programs write."""
    _identity: str = field(init=False, repr=False, compare=False)
    """Tells this file from every copy of it (file_identity.py)."""
    _inode: int = field(init=False, repr=False, compare=False)
    """Tells the file that was opened from another one that took its name since."""

    def __post_init__(self) -> None:
        object.__setattr__(self, "_watch", Watch(self.db))
        object.__setattr__(self, "_identity", file_identity.identity_of(self.path))
        object.__setattr__(self, "_inode", self.path.stat().st_ino)

    @property
    def read_only(self) -> bool:
        """Whether nothing may be written here now."""
        return self.is_copy or (self.lock is not None and not self.lock.held)

    def stay_small(self) -> None:
        """Keep only half a megabyte of the file in memory, for a screen that is open for hours.

        The system keeps the file's pages too: no look-up was seen to take longer.
        """
        self.db.execute("PRAGMA cache_size = -500")

    def close(self) -> None:
        """Close the file, and unlock it."""
        self.db.close()
        if self.lock is not None:
            self.lock.release()

    @contextlib.contextmanager
    def writing(self) -> Iterator[sqlite3.Connection]:
        """Run one transaction; when the disk fails, nothing of it is kept; raises BookError.

        Inside another transaction it is a part of that one. Raises HeldElsewhereError while another
        window writes in the book, and BookLockedError where its file was removed or replaced.
        """
        if self.is_copy:
            raise not_writable(self.path)
        if self.lock is not None:
            self.lock.check()
        if self.db.in_transaction:
            yield self.db
            return
        try:
            self.db.execute("BEGIN IMMEDIATE")
            with self._undone_on_failure():
                self._check_place()
                if self._watch.news():
                    file_identity.follow_other_writers(self.db, self.ids)
                file_identity.claim_identity(self.db, self.ids, self._identity)
                yield self.db
                with self.commits.timed():
                    self.db.execute("COMMIT")
        except sqlite3.Error as error:
            raise as_book_error(self.path, error) from error

    @contextlib.contextmanager
    def setting_up(self) -> Iterator[sqlite3.Connection]:
        """The same for set-up, plans, people, cues and erasing, which are the head coach's.

        Raises CourtlogError in the book of an assistant's court.
        """
        head_book.check_head_book(self.db)
        with self.writing() as db:
            yield db

    def _check_place(self) -> None:
        """Raises BookLockedError when the file was replaced or removed since it was opened.

        What is written then would lie in a file without a name, and be lost.
        """
        with contextlib.suppress(FileNotFoundError):
            if self.path.stat().st_ino == self._inode:
                return
        raise moved(self.path)

    @contextlib.contextmanager
    def _undone_on_failure(self) -> Iterator[None]:
        try:
            yield
        except BaseException:
            if self.db.in_transaction:
                self.db.rollback()
            raise

    @contextlib.contextmanager
    def reading(self) -> Iterator[None]:
        """Turn a failure of the file while reading into a BookError.

        So does a value in it that no courtlog writes; in a sound book an error of the program stays
        an error.
        """
        try:
            yield
        except sqlite3.Error as error:
            raise as_book_error(self.path, error) from error
        except _BY_WRONG_VALUES as error:
            if is_damaged(self.db):
                raise no_book(self.path) from error
            raise
