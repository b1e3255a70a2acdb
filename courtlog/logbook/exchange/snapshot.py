"""A book as it stands, as Parquet files: one for each table with a row, for readers of many books.

What was said of a ball last is told; how it was typed, and where this laptop was left, stays here.
"""

from __future__ import annotations

import hashlib
import sqlite3
from dataclasses import dataclass
from pathlib import Path

from courtlog.logbook.exchange.export_choice import ExportOptions, choosing
from courtlog.logbook.exchange.parquet import write_parquet
from courtlog.logbook.file.book import Book
from courtlog.logbook.rows.ids import COUNT_BITS
from courtlog.logbook.schema.database import Database
from courtlog.logbook.schema.migrations import migrations
from courtlog.logbook.schema.tables import Table, columns_of, tables

_STAYS_IN_THE_BOOK = {
    *("journal", "amendment", "amended", "former", "conflict"),
    *("bookmark", "standing", "court_book", "court_reading"),
}
"""Every key and every former value; and what one laptop alone needs to go on."""

_COUNT = (1 << COUNT_BITS) - 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Snapshot:
    """What was written of a book."""

    rows: dict[str, int]
    """How many rows each table has, and so which files there are."""
    minors_left_out: int
    """Players who stayed at home."""


def write_tables(book: Book, folder: Path, wish: ExportOptions) -> Snapshot:
    """Write `TABLE.parquet` into the folder for each table that has a row."""
    with book.reading(), choosing(book.db, wish) as choice:
        travel = [table for table in choice.tables if table.name not in _STAYS_IN_THE_BOOK]
        rows = {table.name: count for table in travel if (count := choice.count(table))}
        for table in travel:
            if table.name in rows:
                write_parquet(folder / f"{table.name}.parquet", table, choice.values(table))
        return Snapshot(rows=rows, minors_left_out=choice.minors)


def file_number(db: sqlite3.Connection) -> int:
    """A number for this file of this book: a copy that others wrote in has another."""
    (uuid,) = db.execute("SELECT uuid FROM book").fetchone()
    home = db.execute("SELECT place FROM home").fetchone()
    words = f"{uuid} {home[0] if home else ''}"
    return int.from_bytes(hashlib.sha256(words.encode()).digest()[:8], "big") >> 2


def progress(db: sqlite3.Connection) -> tuple[int, ...]:
    """How far a book has come: of two states of one file the later one has the higher value.

    People are only ever erased, which takes their rows along. So that counts first; then the
    latest id by its clock, then how often rows were changed.
    """
    (erased,) = db.execute("SELECT count(*) FROM erased").fetchone()
    latest = 0
    for table in tables(db):
        if "id" in columns_of(db, table.name):
            (highest,) = db.execute(f"SELECT max(id & {_COUNT}) FROM {table.name}").fetchone()
            latest = max(latest, highest or 0)
    changes = db.execute("SELECT coalesce(sum(revision), 0), count(*) FROM former").fetchone()
    return (erased, latest, *changes)


def tables_of_today() -> tuple[Table, ...]:
    """The tables that such a snapshot may have, as this version of courtlog knows them."""
    db = sqlite3.connect(":memory:")
    try:
        migrations.apply(Database(db, execute_plugins=False))
        return tuple(table for table in tables(db) if table.name not in _STAYS_IN_THE_BOOK)
    finally:
        db.close()
