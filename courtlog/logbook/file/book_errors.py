"""Why a book cannot be opened, read or written: one sentence, and what to do."""

from __future__ import annotations

import contextlib
import sqlite3
from collections.abc import Iterator
from pathlib import Path

from courtlog.errors import BookError, BookLockedError, NotABookError
from courtlog.logbook.file.read_only import is_full
from courtlog.systems.shell_words import quoted


@contextlib.contextmanager
def translate_errors(path: Path) -> Iterator[None]:
    """Turn what SQLite cannot do with this book into a BookError."""
    try:
        yield
    except sqlite3.Error as error:
        raise as_book_error(path, error) from error


def unreadable(path: Path, error: OSError) -> BookLockedError:
    """The system does not let the file be read."""
    return BookLockedError(
        f"The book {path} cannot be read ({error.strerror}).",
        "Check who owns the file, or name another with --book.",
    )


def not_writable(path: Path) -> BookLockedError:
    """The file or its folder is there to read only."""
    return BookLockedError(
        f"The book {path} cannot be written to.",
        "Make the file and its folder writable, or name another with --book.",
    )


def moved(path: Path) -> BookLockedError:
    """The file was replaced or removed since it was opened."""
    return BookLockedError(
        f"The book {path} was replaced or removed meanwhile; nothing was stored.",
        "Open it again: `courtlog`, or the same command once more.",
    )


def no_book(path: Path) -> NotABookError:
    """The file is something else, or so damaged that SQLite cannot follow it."""
    return NotABookError(
        f"{path} is not a courtlog book, or it is damaged.",
        "Nothing was changed. Name another file with --book, or `courtlog restore` a copy.",
    )


def strange(path: Path, what: str) -> NotABookError:
    """The file holds a database that no courtlog has made; `what` says what is strange."""
    return NotABookError(
        f"{path} is not a book as courtlog makes it: {what}.",
        f"Nothing was changed. `courtlog --book {quoted(str(path))} doctor --mend` reads into a new"
        " book what is a courtlog book's.",
    )


def as_book_error(path: Path, error: sqlite3.Error) -> BookError:
    """What SQLite says, in a coach's words."""
    code = getattr(error, "sqlite_errorname", "") or ""
    if code.startswith(("SQLITE_NOTADB", "SQLITE_CORRUPT")):
        return no_book(path)
    if code.startswith(("SQLITE_BUSY", "SQLITE_LOCKED")):
        return BookLockedError(
            f"Another program holds the book {path}.", "Close it there, then try again."
        )
    if code.startswith(("SQLITE_READONLY", "SQLITE_CANTOPEN", "SQLITE_PERM")) and not is_full(path):
        return not_writable(path)
    if code.startswith(("SQLITE_INTERRUPT", "SQLITE_TOOBIG")):
        return NotABookError(
            f"The book {path} asks for far more work or room than any book of its size.",
            "Nothing was changed. Name another file with --book, or `courtlog restore` a copy.",
        )
    if code.startswith("SQLITE_FULL") or is_full(path):
        return BookError("The disk is full.", "Free some space; the last key was not stored.")
    return BookError(
        f"The book could not be used ({error}); what was shown before is stored.",
        f"It lies at {path}; `courtlog doctor` checks it.",
    )


def foreign_log(path: Path, log: Path) -> NotABookError:
    """What SQLite would write into the book at opening is of another book."""
    return NotABookError(
        f"The file {log} does not belong to the book {path}.",
        "Nothing was changed. Move that file elsewhere to open the book as it was last closed.",
    )
