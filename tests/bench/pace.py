"""Keys at 60 a second for a minute: whether one is lost, and how far the book is behind.

Run with `python -m tests.bench.pace`. A second connection asks every few milliseconds how many keys
the book holds; a key's wait is the time from its being typed to its being seen there.
"""

from __future__ import annotations

import os
import sqlite3
import tempfile
import time
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from statistics import median

from tests.bench.keys import SEED, prepare, script
from tests.terminal.console import Console, court, environment

A_SECOND = 60
"""Keys: ten times what a hand does."""

SECONDS = 60
LOOK = 0.004
"""Seconds between two looks into the book."""

TARGET = "none lost, never more than 250 ms behind"


@dataclass(frozen=True, slots=True)
class Pace:
    """Keys typed and stored, and the milliseconds each stored one waited."""

    typed: int
    stored: int
    waits: list[float]


def run(seconds: int = SECONDS) -> Pace:
    """Type the keys of a seeded coach at that pace, every one of which the book must hold."""
    with tempfile.TemporaryDirectory(prefix="courtlog-bench-") as folder:
        path = Path(folder) / "book.db"
        prepare(path)
        keys = [key for _, key, _ in script(A_SECOND * seconds, SEED)]
        with (
            Console(court(path), environment(path.parent), 120, 40) as console,
            closing(sqlite3.connect(path)) as book,
        ):
            console.wait_for("next up")
            console.read_for(1.0)
            start = time.perf_counter()
            waits: list[float] = []
            typed = 0
            while len(waits) < len(keys) and time.perf_counter() < start + seconds + 10:
                due = min(len(keys), int((time.perf_counter() - start) * A_SECOND) + 1)
                for key in keys[typed:due]:
                    os.write(console.fileno(), key)
                typed = due
                console.read_for(LOOK)
                (stored,) = book.execute("SELECT count(*) FROM journal").fetchone()
                now = time.perf_counter()
                waits += [(now - start - at / A_SECOND) * 1000 for at in range(len(waits), stored)]
            return Pace(typed, len(waits), waits)


def figures(pace: Pace) -> dict[str, float]:
    """Keys lost, and median and longest wait in milliseconds."""
    return {
        "typed": pace.typed,
        "lost": pace.typed - pace.stored,
        "median_wait_ms": round(median(pace.waits), 1),
        "longest_wait_ms": round(max(pace.waits), 1),
    }


if __name__ == "__main__":
    print(figures(run()), "target:", TARGET)
