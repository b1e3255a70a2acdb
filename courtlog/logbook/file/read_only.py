"""A book where nothing may be written: read from a copy, so that the file never changes.

The copy is SQLite's own, made from a file with what its write-ahead log still holds.
"""

from __future__ import annotations

import contextlib
import errno
import os
import shutil
import sqlite3
import sys
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path

from courtlog import drafts, private, stale_drafts
from courtlog.logbook.file.sqlite_uri import sqlite_uri
from courtlog.logbook.schema import schema_check

LOG = "-wal"
"""What SQLite calls the file beside the book that holds what was written last."""

JOURNAL = "-journal"
"""The same for what a transaction writes over, while a book has no log: it undoes half of one."""

_MEMORY = ":memory:"

_ROOM = 64 << 10
"""Bytes that SQLite needs beside a book to read in it at all: its index of the log."""

_IN_MEMORY = Path("/dev/shm")
"""Files that take no disk (Linux)."""


def may_write(path: Path) -> bool:
    """Whether this file, and others beside it, may be written here."""
    if not os.access(path, os.W_OK) or not os.access(path.parent, os.W_OK):
        return False
    return sys.platform != "win32" or _can_be_tried(path)


def _can_be_tried(path: Path) -> bool:
    """Whether a file can be made beside this one, and this one opened to write.

    Windows tells only of a file's own mark: not of a write-protected stick, nor of rights.
    """
    trial = path.with_name(stale_drafts.new_name())
    try:
        os.close(private.make_file(trial))
        trial.unlink()
        path.open("rb+").close()
    except OSError:
        return False
    return True


def log_of(path: Path) -> Path:
    """The write-ahead log beside a book."""
    return path.with_name(path.name + LOG)


def shared_index(path: Path) -> Path:
    """SQLite's index of that log, which whoever reads it needs; there while a program has both."""
    return path.with_name(path.name + "-shm")


def has_log(path: Path) -> bool:
    """Whether something lies in the log that is not in the book's own file yet, or may not be."""
    try:
        return log_of(path).stat().st_size > 0
    except OSError:
        return False


def has_journal(path: Path) -> bool:
    """Whether a program writes in the book without a log, or died while it did."""
    try:
        return path.with_name(path.name + JOURNAL).stat().st_size > 0
    except OSError:
        return False


def beside(path: Path) -> list[Path]:
    """What lies beside a book and belongs into it, or undoes what was half written."""
    found = ((has_log, LOG), (has_journal, JOURNAL))
    return [path.with_name(path.name + ending) for is_there, ending in found if is_there(path)]


def copied(path: Path, target: str = _MEMORY) -> sqlite3.Connection:
    """The whole book as it stands, in memory or a file. Raises sqlite3.Error, OSError."""
    if has_journal(path):
        return with_its_log(path, target)
    if not has_log(path):
        return _copied(sqlite_uri(path.resolve(), "mode=ro&immutable=1"), target)
    try:
        return _copied(sqlite_uri(path.resolve(), "mode=ro"), target)
    except sqlite3.OperationalError:
        # The log cannot be read in place without writing beside it.
        return with_its_log(path, target)


def with_its_log(path: Path, target: str = _MEMORY) -> sqlite3.Connection:
    """The same from a copy of all files in a private folder. Raises sqlite3.Error, OSError.

    Where the book's disk is full, the folder lies on another one, or in memory.
    """
    for place in _other_disks():
        scratch = drafts.scratch_near(path) if place is None else drafts.folder_in(place)
        with contextlib.suppress(OSError, sqlite3.OperationalError), scratch as folder:
            return _with_its_log(path, folder, target)
    raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), str(path))


def _other_disks() -> Iterator[Path | None]:
    """Beside the book (None), the system's folder, and where there is one, a folder in memory."""
    yield None
    yield drafts.scratch_place()
    if _IN_MEMORY.is_dir():
        yield _IN_MEMORY


def _with_its_log(path: Path, folder: Path, target: str) -> sqlite3.Connection:
    copy = folder / "book.db"
    shutil.copyfile(path, copy)
    for part in beside(path):
        shutil.copyfile(part, copy.with_name(copy.name + part.name.removeprefix(path.name)))
    return _copied(sqlite_uri(copy), target)


def is_full(path: Path) -> bool:
    """Whether the disk that the file lies on has no room for even a small file."""
    try:
        return shutil.disk_usage(path.absolute().parent).free < _ROOM
    except OSError:
        return False


def fits_its_log(path: Path) -> bool:
    """Whether the book read with its log or journal is sound, and the same one as without it.

    SQLite reads any log of that name into the file beside it. That would spoil a book that was put
    in the place of another. Where the file alone is not a whole book either, the log is not to
    blame. Raises OSError.
    """
    alone = _name_of(lambda: _copied(sqlite_uri(path.resolve(), "mode=ro&immutable=1")))
    return alone is None or alone == _name_of(lambda: with_its_log(path))


def _name_of(connect: Callable[[], sqlite3.Connection]) -> str | None:
    """The book's own name, once every page of it has been read; None when it is not sound."""
    try:
        with closing(connect()) as db, schema_check.within_bounds(db):
            if schema_check.strangeness(db) is not None:
                return None
            if db.execute("PRAGMA quick_check(1)").fetchone() != ("ok",):
                return None
            if db.execute("PRAGMA foreign_key_check").fetchone() is not None:
                return None
            return str(db.execute("SELECT uuid FROM book").fetchone()[0])
    except (sqlite3.Error, TypeError, ValueError):
        return None


def _copied(uri: str, target: str = _MEMORY) -> sqlite3.Connection:
    copy = sqlite3.connect(target, uri=True)  # another book may be attached by its address
    try:
        copy.execute("PRAGMA synchronous = OFF")  # nothing is lost with a copy
        with closing(sqlite3.connect(uri, uri=True, timeout=5)) as source:
            source.backup(copy)
    except BaseException:
        copy.close()
        raise
    return copy
