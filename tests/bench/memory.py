"""Memory of the court screen after 1,000 and 5,000 keys, beside the bare counting app.

Run with `python -m tests.bench.memory`. Counted are the pages that are the program's own.
"""

from __future__ import annotations

import sqlite3
import sys
import tempfile
from contextlib import closing
from pathlib import Path

from tests.bench.keys import SEED, prepare, script
from tests.bench.machine import memory_kb
from tests.terminal.console import Console, court, environment

AFTER = (1000, 5000)
"""Keys after which it is looked at."""

SLICE = 100
"""Keys typed at once."""

TARGET = "at most 1.6 x bare after 5,000 keys, no growth from 1,000"


def run() -> dict[str, list[int]]:
    """Kilobytes of each program after so many keys."""
    with tempfile.TemporaryDirectory(prefix="courtlog-bench-") as folder:
        path = Path(folder) / "book.db"
        prepare(path)
        env = environment(path.parent)
        keys = [key for _, key, _ in script(AFTER[-1], SEED)]
        with (
            Console(court(path), env, 120, 40) as console,
            Console([sys.executable, "-m", "tests.bench.bare"], env, 120, 40) as bare,
            closing(sqlite3.connect(path)) as book,
        ):
            console.wait_for("next up")
            bare.wait_for("keys: 0")
            found: dict[str, list[int]] = {"court": [], "bare": []}
            for typed in range(0, AFTER[-1], SLICE):
                for program in (console, bare):
                    program.press(b"".join(keys[typed : typed + SLICE]))
                bare.wait_for(f"keys: {typed + SLICE}")
                while book.execute("SELECT count(*) FROM journal").fetchone()[0] < typed + SLICE:
                    console.read_for(0.005)
                if typed + SLICE in AFTER:
                    console.read_for(1.0)
                    found["court"].append(memory_kb(console.process))
                    found["bare"].append(memory_kb(bare.process))
            return found


def figures(found: dict[str, list[int]]) -> dict[str, float]:
    """Times the bare app, and times the first look."""
    court_, bare = found["court"], found["bare"]
    return {
        "court_mb": round(court_[-1] / 1024, 1),
        "bare_mb": round(bare[-1] / 1024, 1),
        "times_bare": round(court_[-1] / bare[-1], 2),
        "times_after_1000": round(court_[-1] / court_[0], 3),
    }


if __name__ == "__main__":
    print(figures(run()), "target:", TARGET)
