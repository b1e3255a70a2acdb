"""The whole book, or a part of it, as a folder of CSV files: all of the folder, or none of it."""

from __future__ import annotations

import contextlib
import sqlite3
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from courtlog import drafts, times
from courtlog.logbook.exchange import anonymise, export_filter
from courtlog.logbook.exchange.package import DESCRIPTOR, describe, file_of
from courtlog.logbook.exchange.parquet import write_parquet
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.new_folder import new_folder
from courtlog.logbook.schema import cells
from courtlog.logbook.schema.tables import Column, Table, tables

_BUFFER = 1 << 20
_TOGETHER = 5000
"""Lines that are written at once."""

_HELD_TEXTS = {"former", "conflict"}
"""Former versions hold names and texts as they were; they travel with a whole book only."""


@dataclass(frozen=True, slots=True)
class ExportOptions:
    """What goes out: one clinic or all, minors or not, names or not, Parquet files beside."""

    clinic: int | None = None
    with_minors: bool = False
    anonymous: bool = False
    parquet: bool = False


@dataclass(frozen=True, slots=True)
class Export:
    """What went out."""

    balls: int
    rows: int
    minors_left_out: int
    """Players who stayed at home."""


def export(book: Book, folder: Path, wish: ExportOptions, at_ms: int) -> Export:
    """Write the folder, which must be new or empty. Raises CourtlogError."""
    created = times.local(at_ms, times.zone("UTC")).isoformat(timespec="milliseconds")
    with (
        new_folder(folder, book.path.absolute().parent) as scratch,
        book.reading(),
        _choosing(book.db, wish) as choice,
    ):
        rows = {table.name: choice.count(table) for table in choice.tables}
        for table in choice.tables:
            _write(scratch / file_of(table), table.names, choice.lines(table))
        with drafts.on_disk(scratch / DESCRIPTOR) as file:
            file.write(describe(choice.tables, created, wish.anonymous))
        if wish.parquet:
            for table in choice.tables:
                write_parquet(scratch / f"{table.name}.parquet", table, choice.values(table))
        return Export(rows["ball"], sum(rows.values()), choice.minors)


@dataclass(frozen=True, slots=True)
class _Choice:
    """The rows and values that travel, as SELECTs."""

    db: sqlite3.Connection
    tables: tuple[Table, ...]
    partly: bool
    anonymous: bool
    minors: int

    def lines(self, table: Table) -> sqlite3.Cursor:
        """Rows as they stand in the file."""
        return self._select(table, cells.line_sql(table, partial(self._value, table)))

    def values(self, table: Table) -> sqlite3.Cursor:
        """Rows as they stand in the book."""
        return self._select(table, ", ".join(self._value(table, one) for one in table.columns))

    def count(self, table: Table) -> int:
        """How many rows."""
        (rows,) = self.db.execute(
            f"SELECT count(*) FROM main.{table.name} WHERE {self._which(table)}"
        ).fetchone()
        return int(rows)

    def _value(self, table: Table, column: Column) -> str:
        if self.anonymous:
            return anonymise.anonymous_sql(table, column)
        return f'"{column.name}"'

    def _which(self, table: Table) -> str:
        if (self.partly or self.anonymous) and table.name in _HELD_TEXTS:
            return "false"
        return export_filter.exported_where(table) if self.partly else "true"

    def _select(self, table: Table, what: str) -> sqlite3.Cursor:
        return self.db.execute(
            f"SELECT {what} FROM main.{table.name} WHERE {self._which(table)}"
            f" ORDER BY {table.in_order}"
        )


@contextlib.contextmanager
def _choosing(db: sqlite3.Connection, wish: ExportOptions) -> Iterator[_Choice]:
    """One view of the book while it is read, though another window goes on writing."""
    cells.add_functions(db)
    every = tables(db)
    seeds = [] if wish.clinic is None else [export_filter.other_clinics(wish.clinic)]
    with db:
        db.execute("BEGIN")
        (minors,) = db.execute(
            f"SELECT count(*) FROM player WHERE {export_filter.MINORS['player']}"
        ).fetchone()
        if minors and not wish.with_minors:
            seeds.append(export_filter.MINORS)
        if seeds:
            export_filter.mark_left_out(db, every, seeds)
        if wish.anonymous:
            anonymise.number_names(db)
        at_home = 0 if wish.with_minors else minors
        yield _Choice(db, every, bool(seeds), wish.anonymous, at_home)
        export_filter.drop_marks(db, every)
        anonymise.drop_numbers(db)


def _write(path: Path, names: Sequence[str], lines: sqlite3.Cursor) -> None:
    """A CSV file as RFC 4180 has it; no column's name needs quotes."""
    with drafts.on_disk(path, _BUFFER) as file:
        file.write(",".join(names) + "\r\n")
        while some := lines.fetchmany(_TOGETHER):
            file.write("".join([line + "\r\n" for (line,) in some]))
