"""What a row read before, so that a joined book knows old from new.

A reading is a row's columns as a JSON list; its revision counts the changes before it. Triggers put
every reading that is changed or deleted into `former`. Two readings of one row that no `former` of
either book holds stand against each other. All of them lie in `conflict` until the row is changed
again, or somebody decides. Balls need none of this: their journal says what came after what, and
`former` only which line of it was decided against.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Any

from courtlog.logbook.schema.tables import Table, tables

_UNVERSIONED = {
    *("book", "home", "bookmark", "standing", "erased"),
    *("ball", "rating", "journal", "former", "conflict", "matched"),
}
"""Tables of one laptop, tables with a rule of their own, and those that hold readings."""

RENUMBERED = {("round", "place")}
"""Counted anew when books are joined, and so no part of a reading."""

_ALL: Mapping[str, str] = {}

Key = tuple[str, str]
"""A table and the JSON list of a row's key."""

Version = tuple[int, str]
"""A revision and its reading."""


@dataclass(slots=True)
class RowHistory:
    """One row: the readings that stand now (none: it is gone) and those that were before."""

    current: set[Version] = field(default_factory=set)
    former: set[Version] = field(default_factory=set)

    def joined_with(self, other: RowHistory) -> RowHistory:
        """What both books know of the row together."""
        return RowHistory(
            self.current | other.current, self.former | other.former
        ).without_outdated()

    def without_outdated(self) -> RowHistory:
        """Without heads that are known to be old; of two heads that read the same, the later."""
        latest: dict[str, int] = {}
        for revision, reading in self.current - self.former:
            latest[reading] = max(revision, latest.get(reading, -1))
        heads = {(revision, reading) for reading, revision in latest.items()}
        return RowHistory(heads, self.former | (self.current - heads))

    def merged_values(self) -> str | None:
        """The row as it stands: of several heads, column by column, the last word that says any."""
        if len(self.current) < 2:
            return next((reading for _, reading in self.current), None)
        ordered = [json.loads(reading) for _, reading in sorted(self.current, reverse=True)]
        row = [
            next((value for value in values if value not in (None, "")), values[0])
            for values in zip(*ordered, strict=True)
        ]
        return as_json(row)


RowHistories = dict[Key, RowHistory]


def as_json(values: object) -> str:
    """A list as SQLite's json_array writes it."""
    return json.dumps(values, ensure_ascii=False, separators=(",", ":"))


def versioned_tables(db: sqlite3.Connection) -> tuple[Table, ...]:
    """The tables whose rows have readings, parents first."""
    return tuple(table for table in tables(db) if table.name not in _UNVERSIONED)


def version_columns(table: Table) -> tuple[str, ...]:
    """The columns of a reading, in their order."""
    return tuple(
        name
        for name in table.names
        if name not in table.key and (table.name, name) not in RENUMBERED
    )


def create_triggers(db: sqlite3.Connection) -> None:
    """Make the triggers."""
    for table in versioned_tables(db):
        for event, when in (
            ("UPDATE", f"WHEN {values_sql(table, 'OLD')} IS NOT {values_sql(table, 'NEW')}"),
            ("DELETE", ""),
        ):
            db.execute(_trigger(table, event, when))


def load_histories(
    db: sqlite3.Connection, book: str = "main", only: Mapping[str, str] = _ALL
) -> RowHistories:
    """Every row that has readings, and every one that had, of the book or an attached one.

    `only` says by table (as a WHERE) which of its rows are wanted.
    """
    pasts: RowHistories = {}
    for name in ("former", "conflict"):
        for table, key, revision, reading in db.execute(f"SELECT * FROM {book}.{name}"):
            past = pasts.setdefault((table, key), RowHistory())
            (past.former if name == "former" else past.current).add((revision, reading))
    for table in versioned_tables(db):
        for key, reading in db.execute(
            f"SELECT {key_sql(table, '')}, {values_sql(table, '')} FROM {book}.{table.name}"
            f" WHERE {only.get(table.name, 'true')}"
        ):
            past = pasts.setdefault((table.name, key), RowHistory())
            if not past.current:
                revision = 1 + max((revision for revision, _ in past.former), default=-1)
                past.current.add((revision, reading))
    return pasts


def accept_current(db: sqlite3.Connection, key: Key) -> None:
    """What the row says now is right, and later than everything that was said of it."""
    one = "tbl = ? AND key = ?"
    db.execute(f"INSERT OR IGNORE INTO former SELECT * FROM conflict WHERE {one}", key)
    db.execute(f"DELETE FROM conflict WHERE {one}", key)


def earlier_values(
    db: sqlite3.Connection, name: str, row: int, wanted: Iterable[str]
) -> list[tuple[Any, ...]]:
    """These columns of every reading a row had before, or has in another book."""
    (table,) = (table for table in versioned_tables(db) if table.name == name)
    places = [version_columns(table).index(column) for column in wanted]
    rows = db.execute(
        "SELECT reading FROM former WHERE tbl = ?1 AND key = ?2"
        " UNION SELECT reading FROM conflict WHERE tbl = ?1 AND key = ?2",
        [name, as_json([row])],
    )
    readings = [json.loads(reading) for (reading,) in rows]
    return [tuple(reading[at] for at in places) for reading in readings]


def forget_player(db: sqlite3.Connection, player: int) -> None:
    """Nothing of what rows read before that speaks of the player, or of a row that is gone."""
    db.execute(
        "DELETE FROM former WHERE tbl = 'journal'"
        " AND key NOT IN (SELECT json_array(id) FROM journal)"
    )
    for name in ("former", "conflict"):
        db.execute(f"DELETE FROM {name} WHERE instr(key, ?1) OR instr(reading, ?1)", [str(player)])
        for table in versioned_tables(db):
            db.execute(
                f"DELETE FROM {name} WHERE tbl = ? AND key NOT IN"
                f" (SELECT {key_sql(table, '')} FROM {table.name})",
                [table.name],
            )


def store_histories(
    db: sqlite3.Connection, every: Iterable[Table], before: RowHistories, after: RowHistories
) -> None:
    """Write what is not in the book yet; the triggers are off meanwhile."""
    by_name = {table.name: table for table in every}
    gone: dict[str, list[list[Any]]] = {name: [] for name in by_name}
    come: dict[str, list[list[Any]]] = {name: [] for name in by_name}
    for key in before.keys() | after.keys():
        if before.get(key) is after.get(key):
            continue
        was = before.get(key, RowHistory()).merged_values()
        now = after.get(key, RowHistory()).merged_values()
        if was != now and was is not None:
            gone[key[0]].append(json.loads(key[1]))
        if was != now and now is not None:
            come[key[0]].append([*json.loads(key[1]), *json.loads(now)])
    places = dict(db.execute("SELECT id, place FROM round").fetchall())
    for name, keys in gone.items():
        where = " AND ".join(f"{column} = ?" for column in by_name[name].key)
        db.executemany(f"DELETE FROM {name} WHERE {where}", keys)
    for name, rows in come.items():
        names = [*by_name[name].key, *version_columns(by_name[name])]
        if name == "round":
            names.append("place")
            # Out of the way of other places until all are counted anew.
            rows = [[*row, places.get(row[0], -row[0])] for row in rows]
        marks = ", ".join("?" * len(names))
        quoted = ", ".join(f'"{column}"' for column in names)
        db.executemany(f"INSERT INTO {name} ({quoted}) VALUES ({marks})", rows)
    _store_versions(db, after)


def _store_versions(db: sqlite3.Connection, pasts: Mapping[Key, RowHistory]) -> None:
    wanted = {
        "former": {(*key, *version) for key, past in pasts.items() for version in past.former},
        "conflict": {
            (*key, *version)
            for key, past in pasts.items()
            if len(past.current) > 1
            for version in past.current
        },
    }
    for name, rows in wanted.items():
        held = set(db.execute(f"SELECT * FROM {name}").fetchall())
        db.executemany(
            f"DELETE FROM {name} WHERE (tbl, key, revision, reading) = (?, ?, ?, ?)", held - rows
        )
        db.executemany(f"INSERT INTO {name} VALUES (?, ?, ?, ?)", rows - held)


def key_sql(table: Table, row: str) -> str:
    """The key of a row as it stands in a Key; `row` names it where there are several."""
    return f"json_array({', '.join(_quoted(row, name) for name in table.key)})"


def values_sql(table: Table, row: str) -> str:
    """The reading of a row."""
    return f"json_array({', '.join(_quoted(row, name) for name in version_columns(table))})"


def _quoted(row: str, name: str) -> str:
    return f'{row}."{name}"' if row else f'"{name}"'


def _trigger(table: Table, event: str, when: str) -> str:
    one = f"tbl = '{table.name}' AND key = {key_sql(table, 'OLD')}"
    return (
        f"CREATE TRIGGER {table.name}_was_{event.lower()} AFTER {event} ON {table.name} {when}"
        " BEGIN"
        f" INSERT OR IGNORE INTO former SELECT * FROM conflict WHERE {one};"
        f" DELETE FROM conflict WHERE {one};"
        f" INSERT OR IGNORE INTO former VALUES ('{table.name}', {key_sql(table, 'OLD')},"
        f" (SELECT coalesce(max(revision), -1) + 1 FROM former WHERE {one}),"
        f" {values_sql(table, 'OLD')}); END"
    )


@contextmanager
def without_triggers(db: sqlite3.Connection) -> Iterator[None]:
    """Rows go and come unguarded and unnoted; for use in a transaction, whose failure undoes it."""
    found = db.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").fetchall()
    for name, _ in found:
        db.execute(f"DROP TRIGGER {name}")
    yield
    for _, sql in found:
        db.execute(sql)
