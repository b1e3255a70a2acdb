"""What a rating's transaction costs beside one bare insert into SQLite with the same pragmas.

Run with `python -m tests.bench.transaction`.
"""

from __future__ import annotations

import sqlite3
import tempfile
import time
from contextlib import closing
from pathlib import Path
from statistics import median

from courtlog.coaching.on_court import feeding
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.writes.round_writer import RoundWriter
from tests.bench.keys import SEED, prepare, script

KEYS = 2000


def run(keys: int = KEYS) -> dict[str, float]:
    """Median microseconds of each kind of key, and of the bare insert, taken in turn."""
    found: dict[str, list[float]] = {"bare insert": []}
    with tempfile.TemporaryDirectory(prefix="courtlog-bench-") as folder:
        path = Path(folder) / "book.db"
        round_id, state = prepare(path), feeding.Feeding.fresh(3)
        with closing(create_or_open(path, 0)) as book, closing(_plain(folder)) as plain:
            door = RoundWriter(book)
            for number, (kind, _, meaning) in enumerate(script(keys, SEED)):
                undo = meaning is None
                state, step = (
                    feeding.take_back(state) if meaning is None else feeding.press(state, meaning)
                )
                assert step is not None
                start = time.perf_counter_ns()
                (door.take_back_key if undo else door.store_key)(round_id, step, number)
                middle = time.perf_counter_ns()
                plain.execute("BEGIN IMMEDIATE")
                plain.execute("INSERT INTO rating VALUES (?, ?, ?)", (number // 3, number % 3, 1))
                plain.execute("COMMIT")
                found.setdefault(kind, []).append((middle - start) / 1000)
                found["bare insert"].append((time.perf_counter_ns() - middle) / 1000)
    return {kind: round(median(times)) for kind, times in found.items()}


def _plain(folder: str) -> sqlite3.Connection:
    db = sqlite3.connect(Path(folder) / "plain.db", isolation_level=None)
    db.execute("PRAGMA journal_mode = WAL")
    db.execute("PRAGMA synchronous = FULL")
    db.execute(
        "CREATE TABLE rating (ball_id INTEGER, row INTEGER, grade INTEGER,"
        " PRIMARY KEY (ball_id, row)) STRICT, WITHOUT ROWID"
    )
    return db


if __name__ == "__main__":
    print(run())
