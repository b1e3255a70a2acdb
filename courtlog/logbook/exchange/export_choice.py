"""Which rows and values of a book go out: of one clinic or all, minors or not, names or not."""

from __future__ import annotations

import contextlib
import sqlite3
from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from courtlog.logbook.exchange import anonymise, export_filter
from courtlog.logbook.schema import cells
from courtlog.logbook.schema.tables import Column, Table, tables

_HELD_TEXTS = {"former", "conflict"}
"""Former versions hold names and texts as they were; they travel with a whole book only."""


@dataclass(frozen=True, slots=True)
class ExportOptions:
    """What goes out: one clinic or all, minors or not, names or not, Parquet files beside."""

    clinic: int | None = None
    with_minors: bool = False
    anonymous: bool = False
    parquet: bool = False
    names_by_id: bool = False
    """Without names: one word for one id, the same in every export and in every copy of a book."""


@dataclass(frozen=True, slots=True)
class Choice:
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
def choosing(db: sqlite3.Connection, wish: ExportOptions) -> Iterator[Choice]:
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
            anonymise.number_names(db, wish.names_by_id)
        at_home = 0 if wish.with_minors else minors
        yield Choice(db, every, bool(seeds), wish.anonymous, at_home)
        export_filter.drop_marks(db, every)
        anonymise.drop_numbers(db)
