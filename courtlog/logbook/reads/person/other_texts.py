"""Texts about other players that hold a person's name: where they stand, not what they say."""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping, Set
from dataclasses import dataclass
from datetime import date

from courtlog.logbook.rows.mentions import FREE_TEXT, unnamed_by
from courtlog.logbook.schema.tables import columns_of

_DATE = {
    "day_id": "(SELECT date FROM day WHERE day.id = day_id)",
    "round_id": "(SELECT date FROM round JOIN day ON day.id = day_id WHERE round.id = round_id)",
}
"""The date of a row, by the column that leads to it."""


@dataclass(frozen=True, slots=True)
class NamedElsewhere:
    """A text about another player with the person's name in it: its table, and its date if any."""

    table: str
    date: date | None


def named_elsewhere(
    db: sqlite3.Connection, names: Set[str], own: Mapping[str, str], values: Mapping[str, object]
) -> list[NamedElsewhere]:
    """Every such text; `own` is the WHERE of the person's own rows, by table."""
    unnamed = unnamed_by(names)
    found = []
    for table, columns in FREE_TEXT.items():
        there = columns_of(db, table)
        when = next((_DATE[column] for column in _DATE if column in there), "NULL")
        wanted = ", ".join(filter(there.__contains__, columns))
        rows = db.execute(
            f"SELECT {when}, {wanted} FROM {table} WHERE NOT ({own.get(table, 'false')})", values
        )
        found += [
            NamedElsewhere(table, None if on is None else date.fromisoformat(on))
            for on, *texts in rows
            for text in texts
            if text and text != unnamed(text)
        ]
    return sorted(found, key=lambda one: (one.date or date.min, one.table))
