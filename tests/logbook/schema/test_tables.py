"""The tables are what the schema of the book says, and a schema read before costs little."""

from __future__ import annotations

import sqlite3
from contextlib import closing

from courtlog.logbook.schema.database import Database
from courtlog.logbook.schema.migrations import migrations
from courtlog.logbook.schema.row_versions import versioned_tables
from courtlog.logbook.schema.tables import tables

CLUB = "CREATE TABLE club (id INTEGER PRIMARY KEY)"
COURT = "CREATE TABLE court (id INTEGER PRIMARY KEY, club_id INTEGER REFERENCES club)"


def columns(db: sqlite3.Connection) -> dict[str, tuple[str, ...]]:
    """The names of each table's columns."""
    return {table.name: table.names for table in tables(db)}


def test_a_schema_that_changes_is_read_again() -> None:
    with closing(sqlite3.connect(":memory:")) as db:
        db.execute(CLUB)
        assert columns(db) == {"club": ("id",)}
        db.execute("ALTER TABLE club ADD COLUMN name TEXT")
        assert columns(db) == {"club": ("id", "name")}
        db.execute(COURT)
        assert columns(db) == {"club": ("id", "name"), "court": ("id", "club_id")}


def test_books_of_one_schema_share_what_was_read() -> None:
    asked: list[str] = []
    with closing(sqlite3.connect(":memory:")) as one, closing(sqlite3.connect(":memory:")) as other:
        for db in (one, other):
            db.execute(CLUB)
            db.execute(COURT)
        first = tables(one)
        other.set_trace_callback(asked.append)
        assert tables(other) is first
    assert len(asked) == 1


def test_a_schema_that_is_no_text_can_still_be_named() -> None:
    """As of a file from anywhere: these bytes are not UTF-8."""
    with closing(sqlite3.connect(":memory:")) as db:
        db.execute(CLUB)
        db.execute("PRAGMA writable_schema = ON")
        db.execute("UPDATE sqlite_master SET sql = CAST(sql || X'20FF' AS TEXT)")
        assert columns(db) == {"club": ("id",)}


def test_every_row_that_is_joined_by_versions_keeps_its_former_ones() -> None:
    """A migration that makes a table makes its triggers too."""
    with closing(sqlite3.connect(":memory:")) as db:
        migrations.apply(Database(db, execute_plugins=False))
        triggers = {name for (name,) in db.execute("SELECT name FROM sqlite_master")}
        names = [table.name for table in versioned_tables(db)]
    wanted = {f"{name}_was_{event}" for name in names for event in ("update", "delete")}
    assert len(wanted) > 50
    assert wanted - triggers == set()
