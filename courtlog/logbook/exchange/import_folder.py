"""An exported folder back into a book without content: all of it, or (with any mistake) nothing.

The rows go in by whole files; only when that fails are they gone through one by one, in a scratch
book, to name every line that is wrong.
"""

from __future__ import annotations

import csv
import json
import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import chain, islice
from pathlib import Path
from typing import TextIO

from courtlog.errors import BookError, LibraryError, Problem
from courtlog.logbook.exchange.package import DESCRIPTOR, FORMAT
from courtlog.logbook.file.opening import Book
from courtlog.logbook.rows import tallies
from courtlog.logbook.rows.soundness import faults
from courtlog.logbook.schema import schema_check
from courtlog.logbook.schema.cells import add_functions, read_sql
from courtlog.logbook.schema.tables import Kind, Table, tables

MOST_PROBLEMS = 200
"""More would only scroll away; mend these first."""

JOIN_LATER = "Import into a new book (--book NEW), then `courtlog gather NEW` joins the two."
"""What to do where the book is not empty."""

_TOGETHER = 50
"""Rows that one INSERT takes: SQLite gets ready for each statement anew, whatever it holds."""

_LARGEST = 64 << 20
"""Bytes of a descriptor: more is a mistake or an attack."""


@dataclass(frozen=True, slots=True)
class Import:
    """What came in."""

    clinics: int
    balls: int


@dataclass(frozen=True, slots=True)
class _File:
    table: Table
    path: Path


def is_empty(book: Book) -> bool:
    """Whether nothing was ever written into the book."""
    return not any(
        book.db.execute(f"SELECT 1 FROM {table.name} LIMIT 1").fetchone()
        for table in tables(book.db)
        if table.name != "book"
    )


def import_folder(book: Book, folder: Path) -> Import:
    """Fill an empty book from the folder. Raises BookError or LibraryError, and writes nothing."""
    files = _files(folder, tables(book.db))
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
            except (sqlite3.Error, csv.Error, _HeadingError, ValueError, OSError):
                sound = False
            if not sound:
                raise _mistakes(files)
            tallies.recount(db)
            (clinics,), (balls,) = (
                db.execute(f"SELECT count(*) FROM {name}").fetchone() for name in ("clinic", "ball")
            )
            return Import(clinics, balls)
    finally:
        db.execute("PRAGMA foreign_keys = ON")


def _files(folder: Path, every: Sequence[Table]) -> list[_File]:
    """The files of the descriptor, in the order in which they can go in."""
    where = folder / DESCRIPTOR
    problems: list[Problem] = []
    found: dict[str, _File] = {}
    known = {table.name: table for table in every}
    for number, resource in enumerate(_resources(where), 1):
        name, path = resource.get("name"), resource.get("path")
        place = f"resource {number}"
        if not isinstance(name, str) or name not in known:
            problems.append(Problem(str(where), place, f"{name!r} is no table of a book."))
        elif name in found:
            problems.append(Problem(str(where), place, f"{name} is there twice."))
        elif not _lies_in(folder, path):
            problems.append(Problem(str(where), place, f"{path!r} is no file of this folder."))
        else:
            found[name] = _File(known[name], folder / str(path))
    if problems:
        raise _refused(problems)
    return [found[name] for name in known if name in found]


def _resources(where: Path) -> list[dict[str, object]]:
    """What the descriptor lists. Raises BookError where it is none of ours."""
    try:
        if not where.is_file() or where.stat().st_size > _LARGEST:
            raise FileNotFoundError
        package = json.loads(where.read_bytes())
        resources = package["resources"]
        number = package["courtlog"]["format"]
        good = isinstance(resources, list) and all(isinstance(one, dict) for one in resources)
        if not good or not isinstance(number, int):
            raise TypeError
    except (OSError, ValueError, TypeError, KeyError, RecursionError) as error:
        raise BookError(
            f"There is no {DESCRIPTOR} of an exported book in {where.parent}.",
            "Name the folder that `courtlog export` wrote.",
        ) from error
    if number > FORMAT:
        raise BookError(
            "A later courtlog wrote this folder.", "Update courtlog; nothing was written."
        )
    return list(resources)


def _lies_in(folder: Path, path: object) -> bool:
    """Whether it is the bare name of a plain file in that folder, and no way out of it."""
    if not isinstance(path, str) or not path.endswith(".csv") or "\0" in path:
        return False
    if {"/", "\\", ":"} & set(path):
        return False
    file = folder / path
    try:
        return file.is_file() and not file.is_symlink()
    except OSError:  # no name that a file can have
        return False


class _HeadingError(Exception):
    """The first line does not name the table's columns."""


def _open(file: _File) -> TextIO:
    csv.field_size_limit(schema_check.MOST_BYTES)
    return file.path.open(encoding="utf-8-sig", newline="")


def _insert(file: _File, heading: list[str] | None, rows: int = 1) -> str:
    """The INSERT that takes so many of the file's rows. Raises _HeadingError."""
    by_name = {column.name: column for column in file.table.columns}
    names = heading or []
    unknown = [name for name in names if name not in by_name]
    if unknown or len(set(names)) != len(names):
        raise _HeadingError(f"{(unknown or names)[0]!r} is no column of {file.table.name}.")
    missing = [
        column.name
        for column in file.table.columns
        if column.name not in names and column.required and column.default is None
    ]
    if missing:
        raise _HeadingError(f"the column {missing[0]} is missing.")
    cells = [read_sql(by_name[name], place) for place, name in enumerate(names * rows, 1)]
    taken = [", ".join(cells[at : at + len(names)]) for at in range(0, len(cells), len(names))]
    columns = ", ".join(f'"{name}"' for name in names)
    return f"INSERT INTO {file.table.name} ({columns}) VALUES ({'), ('.join(taken)})"


def _load(db: sqlite3.Connection, file: _File) -> None:
    """A whole file at once; any error at all means that some line is wrong."""
    add_functions(db)
    with _open(file) as text:
        reader = csv.reader(text, strict=True)
        heading = next(reader, None)
        rows, insert = filter(None, reader), _insert(file, heading, _TOGETHER)
        while some := list(islice(rows, _TOGETHER)):
            if set(map(len, some)) != {len(heading or ())}:
                raise ValueError
            if len(some) < _TOGETHER:
                insert = _insert(file, heading, len(some))
            db.execute(insert, list(chain.from_iterable(some)))


def _mistakes(files: Sequence[_File]) -> LibraryError:
    """Every wrong line of every file, found in a scratch book row by row."""
    from courtlog.logbook.schema.database import Database
    from courtlog.logbook.schema.migrations import migrations

    fresh = Database(memory=True)
    migrations.apply(fresh)
    scratch = fresh.conn
    schema_check.be_wary(scratch)  # as the book itself is
    problems: list[Problem] = []
    lines: dict[tuple[str, tuple[object, ...]], int] = {}
    paths = {file.table.name: str(file.path) for file in files}
    for file in files:
        problems += _row_by_row(scratch, file, lines)
    if not problems:
        for fault in faults(scratch, tables(scratch)):
            line = lines.get((fault.table, fault.key))
            place = "" if line is None else str(line)
            path = paths.get(fault.table, f"{fault.table}.csv")
            problems.append(Problem(path, place, fault.sentence))
            if len(problems) > MOST_PROBLEMS:
                break
    scratch.close()
    return _refused(problems)


def _refused(problems: Sequence[Problem]) -> LibraryError:
    more = len(problems) > MOST_PROBLEMS
    return LibraryError(
        "The folder has mistakes; nothing was written.",
        problems[:MOST_PROBLEMS],
        "There are more than these." if more else "",
    )


def _row_by_row(
    db: sqlite3.Connection, file: _File, lines: dict[tuple[str, tuple[object, ...]], int]
) -> list[Problem]:
    problems: list[Problem] = []
    table, line = file.table, 1

    def wrong(sentence: str) -> None:
        problems.append(Problem(str(file.path), str(line), sentence))

    add_functions(db)
    try:
        with _open(file) as text:
            rows = csv.reader(text, strict=True)
            heading = next(rows, None)
            insert = f"{_insert(file, heading)} RETURNING {table.in_order}"
            while len(problems) <= MOST_PROBLEMS:
                line = rows.line_num + 1
                row = next(rows, None)
                if row is None:
                    break
                if row and len(row) != len(heading or ()):
                    wrong(f"the row has {len(row)} cells, not {len(heading or ())}.")
                elif row:
                    try:
                        (key,) = db.execute(insert, row).fetchall()
                        lines[table.name, key] = line
                    except sqlite3.Error as error:
                        wrong(_sentence(table, str(error)))
    except _HeadingError as error:
        wrong(str(error))
    except csv.Error as error:
        wrong(f"this is no CSV ({error}).")
    except UnicodeDecodeError:
        line = _bad_bytes(file.path)
        wrong("this line holds bytes that are not UTF-8.")
    except OSError as error:
        wrong(f"the file cannot be read ({error.strerror}).")
    return problems


def _bad_bytes(path: Path) -> int:
    """The line of the first bytes that are not UTF-8."""
    content = path.read_bytes()
    try:
        content.decode("utf-8")
    except UnicodeDecodeError as error:
        return content[: error.start].count(b"\n") + 1
    return 1


_SAYS = (
    ("UNIQUE constraint failed: ", "a row with the same {} was there before."),
    ("NOT NULL constraint failed: ", "{} is empty."),
    ("CHECK constraint failed: ", "a value is not one of those allowed ({})."),
)


def _sentence(table: Table, error: str) -> str:
    """What SQLite found wrong with a row, in plain words."""
    for beginning, sentence in _SAYS:
        if error.startswith(beginning):
            return sentence.format(error.removeprefix(beginning).replace(f"{table.name}.", ""))
    if error.startswith("cannot store "):
        column = next(one for one in table.columns if one.name == error.rpartition(".")[2])
        return f"{column.name} is no {_WORDS[column.kind]}."
    return f"the row cannot be stored ({error})."


_WORDS = {
    Kind.INTEGER: "whole number",
    Kind.YES_NO: "0 or 1",
    Kind.NUMBER: "number",
    Kind.STRING: "text",
    Kind.DATE: "date",
    Kind.MOMENT: "time like 2026-05-12T07:30:00.000Z",
}
