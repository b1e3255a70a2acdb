"""The book's tables as its schema describes them: columns, keys, and which row belongs to which.

Export, import and joining carry whole tables. They read this instead of a list of their own, so a
new table travels from the day it is in the schema.
"""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

STAYS = ("tally", "home", "court_book", "court_reading")
"""Counted again after an import or a joining, and what one file knows of itself."""

LATEST_MOMENT = 253_402_127_999_999
"""9999-12-29T23:59:59.999Z: in every time zone still a day that Python knows, and the next one too.

A moment before 1970 or after this is a mistake.
"""


Statements = tuple[tuple[str, bytes], ...]
"""The names of tables, each with the statement that made it."""


class Kind(StrEnum):
    """What a column holds, in the words of the Table Schema standard."""

    INTEGER = "integer"
    NUMBER = "number"
    STRING = "string"
    DATE = "date"
    MOMENT = "datetime"
    YES_NO = "boolean"


@dataclass(frozen=True, slots=True)
class Column:
    """One column; `parent` is the table that its value names a row of, by that table's id."""

    name: str
    kind: Kind
    required: bool
    default: str | None
    parent: str | None


@dataclass(frozen=True)
class Table:
    """One table, columns in the order of the schema."""

    name: str
    columns: tuple[Column, ...]
    key: tuple[str, ...]

    @cached_property
    def names(self) -> tuple[str, ...]:
        """The columns' names."""
        return tuple(column.name for column in self.columns)

    @cached_property
    def links(self) -> tuple[Column, ...]:
        """The columns that name a row of another table."""
        return tuple(column for column in self.columns if column.parent)

    @property
    def in_order(self) -> str:
        """The ORDER BY of its key."""
        return ", ".join(self.key)


_read: dict[Statements, tuple[Table, ...]] = {}
"""Schemas read before: a joining asks ten times, and all books of one version have the same."""

_MOST_READ = 8


def tables(db: sqlite3.Connection) -> tuple[Table, ...]:
    """Every table that travels, each after those its rows name."""
    # As bytes: the schema of a file from anywhere may be no text.
    statements = tuple(
        db.execute(
            "SELECT name, CAST(sql AS BLOB) FROM sqlite_master"
            f" WHERE type = 'table' AND name NOT IN ({', '.join('?' * len(STAYS))})"
            " AND name NOT LIKE 'sqlite\\_%' ESCAPE '\\' AND name NOT LIKE '\\_%' ESCAPE '\\'"
            " ORDER BY rowid",
            STAYS,
        )
    )
    if statements not in _read:
        if len(_read) >= _MOST_READ:
            _read.clear()
        _read[statements] = _in_order(db, statements)
    return _read[statements]


def _in_order(db: sqlite3.Connection, statements: Statements) -> tuple[Table, ...]:
    waiting = {name: _table(db, name) for name, _ in statements}
    sorted_out: dict[str, Table] = {}
    while waiting:
        for name, table in list(waiting.items()):
            parents = {str(link.parent) for link in table.links} - {name}
            if parents <= sorted_out.keys():
                sorted_out[name] = waiting.pop(name)
    return tuple(sorted_out.values())


def columns_of(db: sqlite3.Connection, table: str) -> set[str]:
    """The names of a table's columns; empty where the table is missing."""
    return {name for (name,) in db.execute("SELECT name FROM pragma_table_info(?)", [table])}


def _table(db: sqlite3.Connection, name: str) -> Table:
    parents = {
        column: parent
        for parent, column in db.execute(
            'SELECT "table", "from" FROM pragma_foreign_key_list(?)', [name]
        )
    }
    rows = db.execute(
        'SELECT name, type, "notnull", dflt_value, pk FROM pragma_table_info(?) ORDER BY cid',
        [name],
    ).fetchall()
    columns = tuple(
        Column(column, _kind(column, kind), bool(required or pk), default, parents.get(column))
        for column, kind, required, default, pk in rows
    )
    key = sorted((pk, column) for column, _, _, _, pk in rows if pk)
    return Table(name, columns, tuple(column for _, column in key))


def _kind(name: str, stored: str) -> Kind:
    if stored == "INTEGER":
        if name in ("at", "since") or name.endswith("_at"):
            return Kind.MOMENT
        return Kind.YES_NO if name in ("taken", "tough", "same") else Kind.INTEGER
    if stored == "REAL":
        return Kind.NUMBER
    return Kind.DATE if name == "date" else Kind.STRING
