"""A book where nothing may be written: read from a copy, so that the file never changes.

The copy is SQLite's own, made from a file with what its write-ahead log still holds.
"""

from __future__ import annotations

import os
import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

from courtlog import drafts
from courtlog.logbook import schema_check

LOG = "-wal"
"""What SQLite calls the file beside the book that holds what was written last."""

_MEMORY = ":memory:"


def may_write(path: Path) -> bool:
    """Whether this file, and others beside it, may be written here."""
    return os.access(path, os.W_OK) and os.access(path.parent, os.W_OK)


def log_of(path: Path) -> Path:
    """The write-ahead log beside a book."""
    return path.with_name(path.name + LOG)


def has_log(path: Path) -> bool:
    """Whether something lies in the log that is not in the book's own file yet, or may not be."""
    try:
        return log_of(path).stat().st_size > 0
    except OSError:
        return False


def copied(path: Path, target: str = _MEMORY) -> sqlite3.Connection:
    """The whole book as it stands, in memory or a file. Raises sqlite3.Error, OSError."""
    if not has_log(path):
        return _copied(f"{path.resolve().as_uri()}?mode=ro&immutable=1", target)
    try:
        return _copied(f"{path.resolve().as_uri()}?mode=ro", target)
    except sqlite3.OperationalError:
        # The log cannot be read in place without writing beside it.
        return with_its_log(path, target)


def with_its_log(path: Path, target: str = _MEMORY) -> sqlite3.Connection:
    """The same from a copy of both files in a private folder. Raises sqlite3.Error, OSError."""
    with drafts.scratch_near(path) as folder:
        copy = folder / "book.db"
        shutil.copyfile(path, copy)
        if has_log(path):
            shutil.copyfile(log_of(path), log_of(copy))
        return _copied(copy.as_uri(), target)


def fits_its_log(path: Path) -> bool:
    """Whether the book read with its log is a sound book, and the same one as without it.

    SQLite reads any log of that name into the file beside it, and so would spoil a book that was
    put in the place of another. Where the file alone is no whole book either, the log is not to
    blame. Raises OSError.
    """
    alone = _name_of(lambda: _copied(f"{path.resolve().as_uri()}?mode=ro&immutable=1"))
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
    copy = sqlite3.connect(target)
    try:
        copy.execute("PRAGMA synchronous = OFF")  # nothing is lost with a copy
        with closing(sqlite3.connect(uri, uri=True, timeout=5)) as source:
            source.backup(copy)
    except BaseException:
        copy.close()
        raise
    return copy
