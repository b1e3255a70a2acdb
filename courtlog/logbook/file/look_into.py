"""A look into a book for what is only suggested: nothing is mended, locked or written."""

from __future__ import annotations

import sqlite3
from pathlib import Path

from courtlog import given_files
from courtlog.errors import BookError
from courtlog.logbook.file import file_identity
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.open_book import check_file, ready
from courtlog.logbook.file.read_only import has_journal, has_log, shared_index
from courtlog.logbook.file.sqlite_uri import sqlite_uri


def look_into(path: Path) -> Book:
    """The book as it lies there. Raises BookError, also where SQLite would have to mend it first.

    While the court is open, what it wrote last is read too.
    """
    given_files.check_ordinary(path, "book")
    check_file(path)
    if has_journal(path) or (has_log(path) and not shared_index(path).exists()):
        raise BookError(f"The book {path} was not closed.", "`courtlog doctor` looks at it.")
    options = "mode=ro" if has_log(path) else "mode=ro&immutable=1"
    address = sqlite_uri(path.resolve(), options)
    with ready(path, lambda: sqlite3.connect(address, uri=True, timeout=0)) as db:
        return Book(path=path, db=db, ids=file_identity.ids_of(db), is_copy=True)
