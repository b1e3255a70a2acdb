"""Texts of a person's rows as they read before they were changed."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from courtlog.logbook.rows.mentions import FREE_TEXT
from courtlog.logbook.schema.row_versions import earlier_values, versioned_tables

_NAMES = {"player": ("name", "short_name")}


@dataclass(frozen=True, slots=True)
class EarlierText:
    """What one column of a row read before."""

    table: str
    column: str
    text: str


def earlier_texts(
    db: sqlite3.Connection, tables: Mapping[str, Sequence[Mapping[str, Any]]]
) -> list[EarlierText]:
    """Every former text of these rows that none of them has now, each once."""
    now = {(name, text) for name, rows in tables.items() for row in rows for text in row.values()}
    every = [*_former(db, tables), *_put_right(tables.get("amended", ()))]
    return list(
        dict.fromkeys(one for one in every if one.text and (one.table, one.text) not in now)
    )


def _former(
    db: sqlite3.Connection, tables: Mapping[str, Sequence[Mapping[str, Any]]]
) -> Iterator[EarlierText]:
    keys = {table.name: table.key for table in versioned_tables(db)}
    for name, texts in FREE_TEXT.items():
        columns = (*_NAMES.get(name, ()), *texts)
        for row in tables.get(name, ()):
            key = [row[column] for column in keys[name]]
            for values in earlier_values(db, name, key, columns):
                for column, text in zip(columns, values, strict=True):
                    yield EarlierText(name, column, text)


def _put_right(rows: Sequence[Mapping[str, Any]]) -> Iterator[EarlierText]:
    """Texts of notes that were put right after the round."""
    for row in rows:
        if row["what"] == "note":
            text = json.loads(row["before"])
            if isinstance(text, str):
                yield EarlierText("note", "text", text)
