"""Books of many seasons, one clinic copied inside SQLite: ten million balls in half a minute."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.writes.sheets.take_in import take_in
from tests.bench.looks import DRILLS, generated
from tests.court import START, used

CLINIC = 10_000
"""Balls of one clinic: twelve players on ten days."""

SEASONS = 1000
"""Clinics of a book of ten million balls."""

PLAYERS = 12
STRIDE = 1 << 14
"""Ids a copy keeps for itself; the clinic has fewer rows with an id than that."""

BETWEEN = 14
"""Days from the beginning of one clinic to that of the next."""

IDS = {
    "clinic": ("id",),
    "player": ("id",),
    "roster": ("clinic_id", "player_id"),
    "day": ("id", "clinic_id"),
    "round": ("id", "day_id", "player_id"),
    "round_cue": ("round_id",),
    "ball": ("id", "round_id"),
    "rating": ("ball_id",),
    "tally": ("player_id", "day_id"),
}
"""The tables of a clinic, and what a copy of each moves."""


def book_of(path: Path, clinics: int, back: int = 0) -> Path:
    """A book of this many clinics of `CLINIC` balls; the last one's players were in `back` before.

    All other clinics have players of their own.
    """
    book = create_or_open(path, START)
    drills = {drill: used(drill) for drill in DRILLS}
    take_in(book, generated("Clinic", PLAYERS, CLINIC), drills, START)
    book.close()
    regulars = clinics - 1 - back
    with closing(sqlite3.connect(path, isolation_level=None)) as db:
        db.executescript("PRAGMA synchronous = OFF; PRAGMA cache_size = -200000")
        for name in IDS:
            db.execute(f"CREATE TEMP TABLE first_{name} AS SELECT * FROM {name}")
        for copy in range(1, clinics):
            db.execute("BEGIN")
            for name in IDS:
                if name != "player" or copy <= regulars:
                    columns = [row[1] for row in db.execute(f"PRAGMA table_info({name})")]
                    values = ", ".join(_moved(name, c, copy, min(copy, regulars)) for c in columns)
                    db.execute(f"INSERT INTO {name} SELECT {values} FROM first_{name}")
            db.execute("COMMIT")
        db.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    return path


def _moved(table: str, column: str, copy: int, people: int) -> str:
    """What stands in this column of a copy; `people` is the copy whose players play in it."""
    if column == "name":
        return f"name || ' {people if table == 'player' else copy}'"
    if (table, column) == ("day", "date"):
        return f"date(date, '+{copy * BETWEEN} days')"
    if column in IDS[table]:
        whose = people if column == "player_id" or table == "player" else copy
        return f"{column} + {whose * STRIDE}"
    return column
