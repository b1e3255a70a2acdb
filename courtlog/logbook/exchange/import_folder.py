"""Import an exported folder into an empty book: all of it, or (with any mistake) nothing.

The rows go in by whole files. Only when that fails are they read one by one, in a scratch book, so
that every wrong line is named (import_mistakes.py).
"""

from __future__ import annotations

import csv
import sqlite3
from contextlib import closing
from dataclasses import dataclass
from itertools import chain, islice
from pathlib import Path

from courtlog import drafts, private
from courtlog.errors import BookError, BookLockedError
from courtlog.logbook.exchange.import_mistakes import find_mistakes
from courtlog.logbook.exchange.package_files import (
    HeadingError,
    PackageFile,
    files_of,
    insert_sql,
    open_file,
)
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.book_errors import translate_errors
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.rows import tallies
from courtlog.logbook.rows.soundness import faults
from courtlog.logbook.schema.cells import add_functions
from courtlog.logbook.schema.tables import tables

JOIN_LATER = "Import into a new book (--book NEW), then `courtlog gather NEW` joins the two."
"""What to do where the book is not empty."""

_TOGETHER = 50
"""Rows of one INSERT: SQLite prepares each statement again, however many rows it holds."""


@dataclass(frozen=True, slots=True)
class Import:
    """What came in."""

    clinics: int
    balls: int


def is_empty(book: Book) -> bool:
    """Whether nothing was ever written into the book."""
    return not any(
        book.db.execute(f"SELECT 1 FROM {table.name} LIMIT 1").fetchone()
        for table in tables(book.db)
        if table.name != "book"
    )


def import_folder(book: Book, folder: Path) -> Import:
    """Fill an empty book from the folder. Raises BookError or LibraryError, and writes nothing."""
    files = files_of(folder, tables(book.db))
    db = book.db
    db.execute("PRAGMA foreign_keys = OFF")
    try:
        with book.writing():
            if not is_empty(book):  # looked at here, where no other program writes any more
                raise BookError(
                    f"The book {book.path} has content already; nothing was written.",
                    JOIN_LATER,
                )
            try:
                db.execute("DELETE FROM book")
                db.execute("DELETE FROM home")  # the next opening gives it ids of its own
                for file in files:
                    _load(db, file)
                sound = next(faults(db, tables(db)), None) is None
            except (sqlite3.Error, csv.Error, HeadingError, ValueError, OSError):
                sound = False
            if not sound:
                raise find_mistakes(files)
            tallies.recount(db)
            (clinics,), (balls,) = (
                db.execute(f"SELECT count(*) FROM {name}").fetchone() for name in ("clinic", "ball")
            )
            return Import(clinics, balls)
    finally:
        db.execute("PRAGMA foreign_keys = ON")


def _load(db: sqlite3.Connection, file: PackageFile) -> None:
    """A whole file at once; any error at all means that some line is wrong."""
    add_functions(db)
    with open_file(file) as text:
        reader = csv.reader(text, strict=True)
        heading = next(reader, None)
        rows, insert = filter(None, reader), insert_sql(file, heading, _TOGETHER)
        while some := list(islice(rows, _TOGETHER)):
            if set(map(len, some)) != {len(heading or ())}:
                raise ValueError
            if len(some) < _TOGETHER:
                insert = insert_sql(file, heading, len(some))
            db.execute(insert, list(chain.from_iterable(some)))


def import_new_book(path: Path, folder: Path, now: int) -> Import:
    """Make a book of the folder; it gets its name when all is in it.

    Raises BookError or LibraryError; a book that somebody else began meanwhile stays theirs.
    """
    try:
        private.make_folder(path.absolute().parent)
        with translate_errors(path), drafts.folder_in(path.absolute().parent) as scratch:
            with closing(create_or_open(scratch / "book.db", now)) as book:
                imported = import_folder(book, folder)
            drafts.put_new(scratch / "book.db", path)
    except FileExistsError as error:
        raise BookError(
            f"Another program began the book {path} meanwhile; it is as that one left it.",
            JOIN_LATER,
        ) from error
    except OSError as error:
        raise BookLockedError(
            f"The book {path} cannot be made here ({error.strerror}); nothing was written.",
            "Choose a folder you may write to with --book.",
        ) from error
    return imported
