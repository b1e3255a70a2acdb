"""A book where nothing may be written: read from a copy in memory, so that the file never changes.

The copy is SQLite's own, made from a file with what its write-ahead log still holds.
"""

from __future__ import annotations

import os
import shutil
import sqlite3
import tempfile
from contextlib import closing
from pathlib import Path

LOG = "-wal"
"""What SQLite calls the file beside the book that holds what was written last."""


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


def in_memory(path: Path) -> sqlite3.Connection:
    """The whole book as it stands, in memory. Raises sqlite3.Error, OSError."""
    if not has_log(path):
        return _copied(f"{path.resolve().as_uri()}?mode=ro&immutable=1")
    try:
        return _copied(f"{path.resolve().as_uri()}?mode=ro")
    except sqlite3.OperationalError:
        # The log cannot be read in place without writing beside it.
        return with_its_log(path)


def with_its_log(path: Path) -> sqlite3.Connection:
    """The same from a copy of both files in a private folder. Raises sqlite3.Error, OSError."""
    with tempfile.TemporaryDirectory(prefix="courtlog-") as folder:
        copy = Path(folder) / "book.db"
        shutil.copyfile(path, copy)
        if has_log(path):
            shutil.copyfile(log_of(path), log_of(copy))
        return _copied(copy.as_uri())


def without_its_log(path: Path) -> sqlite3.Connection:
    """The book's own file alone, as it was last put in order. Raises sqlite3.Error."""
    return _copied(f"{path.resolve().as_uri()}?mode=ro&immutable=1")


def _copied(uri: str) -> sqlite3.Connection:
    memory = sqlite3.connect(":memory:")
    try:
        with closing(sqlite3.connect(uri, uri=True, timeout=5)) as source:
            source.backup(memory)
    except BaseException:
        memory.close()
        raise
    return memory
