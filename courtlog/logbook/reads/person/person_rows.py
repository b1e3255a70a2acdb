"""All rows of a book that hang on one person, as the schema has them, with what they refer to.

The tables are found along the schema, so that a new one is here before anybody thinks of it.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Callable, Mapping, Sequence, Set
from dataclasses import dataclass
from typing import Any

from courtlog.logbook.reads.person.other_texts import NamedElsewhere, named_elsewhere
from courtlog.logbook.reads.person.row_texts import EarlierText, earlier_texts
from courtlog.logbook.rows.ids import COUNT_BITS
from courtlog.logbook.rows.mentions import SOMEONE, unnamed_by
from courtlog.logbook.schema.row_versions import earlier_values
from courtlog.logbook.schema.rows_of_player import hanging_rows, links_of

Row = Mapping[str, Any]
"""One row, by the names of its columns."""

PERSON = "id IN (SELECT value FROM json_each(:players))"

_REFERRED = ("clinic", "day", "coach", "drill_used")


@dataclass(frozen=True, slots=True, kw_only=True)
class PersonRows:
    """What a book holds on one person; `ids` has several where joined books knew them by more."""

    ids: frozenset[int]
    names: frozenset[str]
    """Names and short names, now and earlier."""
    tables: Mapping[str, Sequence[Row]]
    """Every table that hangs on a person, with the rows of this one."""
    referred: Mapping[str, Mapping[int, Row]]
    """Clinics, days, coaches and drills that the rows may refer to, by table and id."""
    earlier: Sequence[EarlierText]
    """Texts that stood in these rows before they were changed."""
    elsewhere: Sequence[NamedElsewhere]
    """Texts about others that hold a name of this person."""
    books: int
    """In how many books the rows were written."""
    without_others: Callable[[str], str]
    """A text without the names of other players."""


def person_rows(db: sqlite3.Connection, ids: Set[int], names: Set[str]) -> PersonRows:
    """Everything that the book holds on the person of these ids and names."""
    players = {"players": json.dumps(sorted(ids))}
    where = hanging_rows(links_of(db), PERSON)
    tables = {table: _rows(db, table, condition, players) for table, condition in where.items()}
    return PersonRows(
        ids=frozenset(ids),
        names=frozenset(names),
        tables=tables,
        referred={table: _by_id(db, table) for table in _REFERRED},
        earlier=earlier_texts(db, tables),
        elsewhere=named_elsewhere(db, names, where, players),
        books=len(
            {row["id"] >> COUNT_BITS for rows in tables.values() for row in rows if "id" in row}
        ),
        without_others=unnamed_by(_names_of_others(db, ids), names),
    )


def _books(tables: Mapping[str, Sequence[Row]]) -> int:
    ids = (row["id"] for rows in tables.values() for row in rows if "id" in row)
    return len({one >> COUNT_BITS for one in ids})


def _rows(
    db: sqlite3.Connection, table: str, where: str, values: Mapping[str, object] | None = None
) -> list[Row]:
    found = db.execute(f"SELECT * FROM {table} WHERE {where}", values or {})
    columns = [column for column, *_ in found.description]
    return [dict(zip(columns, row, strict=True)) for row in found]


def _by_id(db: sqlite3.Connection, table: str) -> dict[int, Row]:
    return {row["id"]: row for row in _rows(db, table, "true")}


def _names_of_others(db: sqlite3.Connection, ids: Set[int]) -> set[str]:
    """Names of everybody else, earlier ones too; not those that stand for an erased person."""
    others = [
        (player, name, short)
        for player, name, short in db.execute("SELECT id, name, short_name FROM player")
        if player not in ids
    ]
    names = {text for _, *both in others for text in both}
    for player, *_ in others:
        for both in earlier_values(db, "player", [player], ("name", "short_name")):
            names.update(both)
    return {name for name in names if name and not name.startswith(SOMEONE)}
