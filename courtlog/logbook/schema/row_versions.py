"""Former versions of each row, so that joined books can tell old from new.

A version is a row's values as a JSON list, with a revision: the number of changes before it.
Triggers put every version that is changed or deleted into `former`. Two versions of one row that
are former in neither book contradict each other. Both lie in `conflict` until the row is changed
again, or somebody decides. Balls need none of this: their journal orders their changes, and
`former` only notes which line was decided against.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterable, Iterator, Mapping, Sequence, Set
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Any

from courtlog.logbook.schema.tables import Table, tables

_UNVERSIONED = {
    *("book", "home", "bookmark", "standing", "erased"),
    *("ball", "rating", "journal", "former", "conflict", "matched"),
}
"""Tables of one laptop, tables with a rule of their own, and those that hold versions."""

RENUMBERED = {("round", "place")}
"""Counted again when books are joined, and so not part of a version."""

_ALL: Mapping[str, str] = {}

Key = tuple[str, str]
"""A table and the JSON list of a row's key."""

Version = tuple[int, str]
"""A revision and the row's values, as a JSON list."""


@dataclass(slots=True)
class RowHistory:
    """The current versions of one row (none: it was deleted) and its former ones."""

    current: set[Version] = field(default_factory=set)
    former: set[Version] = field(default_factory=set)

    def joined_with(self, other: RowHistory) -> RowHistory:
        """The history that both books know together."""
        return RowHistory(
            self.current | other.current, self.former | other.former
        ).without_outdated()

    def without_outdated(self) -> RowHistory:
        """Without current versions that are known to be former; of two with equal values, the
        later.
        """
        latest: dict[str, int] = {}
        for revision, reading in self.current - self.former:
            latest[reading] = max(revision, latest.get(reading, -1))
        heads = {(revision, reading) for reading, revision in latest.items()}
        return RowHistory(heads, self.former | (self.current - heads))

    def merged_values(self) -> str | None:
        """The row to show: of several current versions, column by column, the latest value not
        empty.
        """
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
    """The tables whose rows have versions, parents first."""
    return tuple(table for table in tables(db) if table.name not in _UNVERSIONED)


def version_columns(table: Table) -> tuple[str, ...]:
    """The columns of a version, in their order."""
    return tuple(
        name
        for name in table.names
        if name not in table.key and (table.name, name) not in RENUMBERED
    )


def create_triggers(db: sqlite3.Connection, only: Set[str] | None = None) -> None:
    """Create the triggers that keep former versions, of all tables or only of these."""
    for table in versioned_tables(db):
        if only is not None and table.name not in only:
            continue
        for event, when in (
            ("UPDATE", f"WHEN {values_sql(table, 'OLD')} IS NOT {values_sql(table, 'NEW')}"),
            ("DELETE", ""),
        ):
            db.execute(_trigger(table, event, when))


def load_histories(
    db: sqlite3.Connection, book: str = "main", only: Mapping[str, str] = _ALL
) -> RowHistories:
    """The history of every row, deleted ones too, of the book or an attached one.

    `only` says by table (as a WHERE) which of its rows are wanted.
    """
    histories: RowHistories = {}
    for name in ("former", "conflict"):
        for table, key, revision, reading in db.execute(f"SELECT * FROM {book}.{name}"):
            history = histories.setdefault((table, key), RowHistory())
            (history.former if name == "former" else history.current).add((revision, reading))
    for table in versioned_tables(db):
        for key, reading in db.execute(
            f"SELECT {key_sql(table, '')}, {values_sql(table, '')} FROM {book}.{table.name}"
            f" WHERE {only.get(table.name, 'true')}"
        ):
            history = histories.setdefault((table.name, key), RowHistory())
            if not history.current:
                revision = 1 + max((revision for revision, _ in history.former), default=-1)
                history.current.add((revision, reading))
    return histories


def accept_current(db: sqlite3.Connection, key: Key) -> None:
    """Make the row's current version the only one that counts; all others become former."""
    this_row = "tbl = ? AND key = ?"
    db.execute(f"INSERT OR IGNORE INTO former SELECT * FROM conflict WHERE {this_row}", key)
    db.execute(f"DELETE FROM conflict WHERE {this_row}", key)


def earlier_values(
    db: sqlite3.Connection, name: str, key: Sequence[Any], wanted: Iterable[str]
) -> list[tuple[Any, ...]]:
    """These columns of every former version of the row of that key, and of another book's."""
    (table,) = (table for table in versioned_tables(db) if table.name == name)
    places = [version_columns(table).index(column) for column in wanted]
    rows = db.execute(
        "SELECT reading FROM former WHERE tbl = ?1 AND key = ?2"
        " UNION SELECT reading FROM conflict WHERE tbl = ?1 AND key = ?2",
        [name, as_json(list(key))],
    )
    readings = [json.loads(reading) for (reading,) in rows]
    return [tuple(reading[index] for index in places) for reading in readings]


def bring_back_row(db: sqlite3.Connection, name: str, row: int) -> None:
    """Insert a deleted row of that id again, as its latest former version has it."""
    (table,) = (table for table in versioned_tables(db) if table.name == name)
    found = db.execute(
        "SELECT reading FROM former WHERE tbl = ? AND key = ? ORDER BY revision DESC LIMIT 1",
        [name, as_json([row])],
    ).fetchone()
    if found is None:
        return
    values = [row, *json.loads(found[0])]
    columns = ", ".join(_quoted("", column) for column in ("id", *version_columns(table)))
    marks = ", ".join("?" * len(values))
    db.execute(f"INSERT INTO {name} ({columns}) VALUES ({marks})", values)


def forget_player(db: sqlite3.Connection, player: int) -> None:
    """Delete former versions that name the player, and those of rows that no longer exist."""
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
    """Write the rows and versions that the book does not hold yet; triggers must be off."""
    by_name = {table.name: table for table in every}
    deleted: dict[str, list[list[Any]]] = {name: [] for name in by_name}
    added: dict[str, list[list[Any]]] = {name: [] for name in by_name}
    for key in before.keys() | after.keys():
        if before.get(key) is after.get(key):
            continue
        was = before.get(key, RowHistory()).merged_values()
        now = after.get(key, RowHistory()).merged_values()
        if was != now and was is not None:
            deleted[key[0]].append(json.loads(key[1]))
        if was != now and now is not None:
            added[key[0]].append([*json.loads(key[1]), *json.loads(now)])
    places = dict(db.execute("SELECT id, place FROM round").fetchall())
    for name, keys in deleted.items():
        where = " AND ".join(f"{column} = ?" for column in by_name[name].key)
        db.executemany(f"DELETE FROM {name} WHERE {where}", keys)
    for name, rows in added.items():
        names = [*by_name[name].key, *version_columns(by_name[name])]
        if name == "round":
            names.append("place")
            # Out of the way of other places until all are counted again.
            rows = [[*row, places.get(row[0], -row[0])] for row in rows]
        marks = ", ".join("?" * len(names))
        quoted = ", ".join(f'"{column}"' for column in names)
        db.executemany(f"INSERT INTO {name} ({quoted}) VALUES ({marks})", rows)
    _store_versions(db, after)


def _store_versions(db: sqlite3.Connection, histories: Mapping[Key, RowHistory]) -> None:
    wanted = {
        "former": {
            (*key, *version) for key, history in histories.items() for version in history.former
        },
        "conflict": {
            (*key, *version)
            for key, history in histories.items()
            if len(history.current) > 1
            for version in history.current
        },
    }
    for name, rows in wanted.items():
        held = set(db.execute(f"SELECT * FROM {name}").fetchall())
        db.executemany(
            f"DELETE FROM {name} WHERE (tbl, key, revision, reading) = (?, ?, ?, ?)", held - rows
        )
        db.executemany(f"INSERT INTO {name} VALUES (?, ?, ?, ?)", rows - held)


def key_sql(table: Table, row: str) -> str:
    """The SQL of a row's key as in Key; `row` is the row's alias where there are several."""
    return f"json_array({', '.join(_quoted(row, name) for name in table.key)})"


def values_sql(table: Table, row: str) -> str:
    """The SQL of a row's values as a version holds them."""
    return f"json_array({', '.join(_quoted(row, name) for name in version_columns(table))})"


def _quoted(row: str, name: str) -> str:
    return f'{row}."{name}"' if row else f'"{name}"'


def _trigger(table: Table, event: str, when: str) -> str:
    this_row = f"tbl = '{table.name}' AND key = {key_sql(table, 'OLD')}"
    return (
        f"CREATE TRIGGER {table.name}_was_{event.lower()} AFTER {event} ON {table.name} {when}"
        " BEGIN"
        f" INSERT OR IGNORE INTO former SELECT * FROM conflict WHERE {this_row};"
        f" DELETE FROM conflict WHERE {this_row};"
        f" INSERT OR IGNORE INTO former VALUES ('{table.name}', {key_sql(table, 'OLD')},"
        f" (SELECT coalesce(max(revision), -1) + 1 FROM former WHERE {this_row}),"
        f" {values_sql(table, 'OLD')}); END"
    )


@contextmanager
def without_triggers(db: sqlite3.Connection) -> Iterator[None]:
    """Drop the triggers for a while, so that rows change unguarded and leave no former version.

    For use in a transaction, whose failure restores them.
    """
    found = db.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").fetchall()
    for name, _ in found:
        db.execute(f"DROP TRIGGER {name}")
    yield
    for _, sql in found:
        db.execute(sql)
