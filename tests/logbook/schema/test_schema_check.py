"""What is known at once as a book of ours, and what is told of one that is not."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from courtlog.errors import NotABookError
from courtlog.logbook.file.open_book import create_or_open, open_existing
from courtlog.logbook.schema import schema_check
from courtlog.logbook.schema.schema_check import DIGESTS, SCHEMA
from tests.court import START
from tests.logbook.exchange.books import book_of_version, full_book


@pytest.fixture
def of_each_version(tmp_path: Path) -> dict[int, Path]:
    """A closed book of every version there was."""
    book = full_book(tmp_path / "today")
    older = {
        version: book_of_version(book, tmp_path / f"{version}.db", version)
        for version in range(1, SCHEMA)
    }
    book.close()
    return {**older, SCHEMA: book.path}


def test_the_short_names_are_those_of_what_the_migrations_make(
    of_each_version: dict[int, Path],
) -> None:
    assert of_each_version.keys() == DIGESTS.keys()
    for version, path in of_each_version.items():
        with sqlite3.connect(path) as db:
            rows = db.execute("SELECT type, name, tbl_name, sql FROM sqlite_master").fetchall()
        assert schema_check.digest(rows) == DIGESTS[version]


def test_where_sqlite_words_it_otherwise_the_objects_are_compared(
    of_each_version: dict[int, Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(schema_check, "DIGESTS", {})
    for path in of_each_version.values():
        with sqlite3.connect(path) as db:
            assert schema_check.strangeness(db) is None
            db.execute("PRAGMA writable_schema = ON")
            db.execute(
                "UPDATE sqlite_master SET sql = replace(sql, 'NOT NULL', 'NOT  /* so */ NULL')"
            )
            assert schema_check.strangeness(db) is None


@pytest.mark.parametrize(
    ("change", "what"),
    [
        ("CREATE VIEW mine AS SELECT 1", "it has a view 'mine' of its own"),
        ("DROP INDEX round_player", "the index round_player is missing"),
        ("ALTER TABLE heat ADD COLUMN wind REAL", "the table heat is another"),
        ("PRAGMA user_version = -1", "its version is -1"),
    ],
)
def test_what_differs_is_named(tmp_path: Path, change: str, what: str) -> None:
    path = tmp_path / "book.db"
    create_or_open(path, START).close()
    with sqlite3.connect(path) as db:
        db.execute(change)
    db.close()
    with pytest.raises(NotABookError, match=what):
        open_existing(path, START)


def test_counts_that_sqlite_keeps_for_its_planner_are_nobodys_own(tmp_path: Path) -> None:
    """ANALYZE (sqlite.org/lang_analyze.html), as any tool on the book may run it."""
    book = full_book(tmp_path)
    book.close()
    path = book.path
    with sqlite3.connect(path) as db:
        db.execute("ANALYZE")
    db.close()
    open_existing(path, START).close()
