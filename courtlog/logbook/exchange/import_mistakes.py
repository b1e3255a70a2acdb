"""What is wrong with an exported folder, line by line, found in a scratch book."""

from __future__ import annotations

import csv
import sqlite3
from collections.abc import Sequence
from pathlib import Path

from courtlog.errors import LibraryError, Problem
from courtlog.logbook.exchange.package_files import (
    MOST_PROBLEMS,
    HeadingError,
    PackageFile,
    insert_sql,
    open_file,
    refusal,
)
from courtlog.logbook.rows.soundness import faults
from courtlog.logbook.schema import schema_check
from courtlog.logbook.schema.cells import add_functions
from courtlog.logbook.schema.tables import Kind, Table, tables


def find_mistakes(files: Sequence[PackageFile]) -> LibraryError:
    """Every wrong line of every file, found in a scratch book row by row."""
    from courtlog.logbook.schema.database import Database  # slow to load: only for mistakes
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
    return refusal(problems)


def _row_by_row(
    db: sqlite3.Connection, file: PackageFile, lines: dict[tuple[str, tuple[object, ...]], int]
) -> list[Problem]:
    problems: list[Problem] = []
    table, line = file.table, 1

    def wrong(sentence: str) -> None:
        problems.append(Problem(str(file.path), str(line), sentence))

    add_functions(db)
    try:
        with open_file(file) as text:
            rows = csv.reader(text, strict=True)
            heading = next(rows, None)
            insert = f"{insert_sql(file, heading)} RETURNING {table.in_order}"
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
    except HeadingError as error:
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
