"""What a book can itself write: ids, moments and numbers that every later command can read again.

One rule for all that comes from outside (an import, another book, a backup), and for the doctor.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator

from courtlog.logbook.rows.ids import COUNT_BITS, LAST_COUNT, LAST_TAG
from courtlog.logbook.schema.tables import LATEST_MOMENT, Column, Kind, Table, tables

_HIGHEST = ((LAST_TAG + 1) << COUNT_BITS) - 1
_COUNT = (1 << COUNT_BITS) - 1

_LARGEST = 2**31 - 1
"""No count of balls, seconds or places comes near."""

_LARGEST_MEASURE = 1e6
"""Degrees, per cent, balls credited: more is none of them, and infinity least of all."""

_ANY_NUMBER = {("round", "feed_seed")}


def conditions(table: Table) -> Iterator[tuple[str, str]]:
    """What a row of the table cannot have, as SQL, each with the words for it."""
    for column in table.columns:
        condition, words = _beyond(table.name, column)
        if condition:
            yield condition, words


def count_beyond(db: sqlite3.Connection) -> int:
    """Rows that hold what no book can write."""
    found = 0
    for table in tables(db):
        wrong = " OR ".join(condition for condition, _ in conditions(table))
        if wrong:
            found += db.execute(f"SELECT count(*) FROM {table.name} WHERE {wrong}").fetchone()[0]
    return found


def _beyond(table: str, column: Column) -> tuple[str, str]:
    name = f'"{column.name}"'
    match column.kind:
        case Kind.INTEGER if table == "erased":
            whole = f"CASE WHEN {name} < 0 THEN -{name} ELSE {name} END"
            return _no_id(f"({whole})"), "the id is out of range"
        case Kind.INTEGER if column.name == "id":
            return _no_id(name), "the id is out of range"
        case Kind.INTEGER if column.parent or column.name.endswith("_id"):
            return _no_id(name), f"{column.name} is out of range"
        case Kind.INTEGER if (table, column.name) == ("book", "tag"):
            return f"{name} NOT BETWEEN 1 AND {LAST_TAG}", "the book's number is out of range"
        case Kind.INTEGER if (table, column.name) not in _ANY_NUMBER:
            # A clock that is set right or wrong makes a span as long as time itself.
            size = LATEST_MOMENT if column.name.endswith("_ms") else _LARGEST
            return f"{name} NOT BETWEEN -{size} AND {size}", f"{column.name} is too large"
        case Kind.NUMBER:
            most = _LARGEST_MEASURE
            return f"{name} NOT BETWEEN -{most} AND {most}", f"{column.name} is too large"
        case Kind.MOMENT:
            return (
                f"{name} NOT BETWEEN 0 AND {LATEST_MOMENT}",
                f"{column.name} is not a time from 1970 to 9999",
            )
    return "", ""


def _no_id(name: str) -> str:
    return f"{name} NOT BETWEEN 1 AND {_HIGHEST} OR ({name} & {_COUNT}) > {LAST_COUNT}"
