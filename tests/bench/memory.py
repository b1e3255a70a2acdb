"""Memory of the court screen after 1,000 and 5,000 keys, beside the bare counting app.

Run with `python -m tests.bench.memory [PYTHON]`; PYTHON has courtlog and its run-time packages
alone. Keys come in rounds, each with its quick review, as on a court. Counted are the pages that
are the program's own.
"""

from __future__ import annotations

import sqlite3
import sys
import tempfile
from contextlib import closing
from pathlib import Path

from tests.bench import bare
from tests.bench.keys import SEED, prepare, script
from tests.bench.machine import installed, memory_kb
from tests.terminal.console import Console

AFTER = (1000, 5000)
"""Keys after which it is looked at."""

A_ROUND = 200
"""Keys of a round: sixty balls and what is taken back."""

TARGET = "at most 1.6 x bare after 5,000 keys, no growth from 1,000"


def run(python: str = sys.executable) -> dict[str, list[int]]:
    """Kilobytes of each program after so many keys."""
    with tempfile.TemporaryDirectory(prefix="courtlog-bench-") as folder:
        path = Path(folder) / "book.db"
        prepare(path)
        env = installed(path.parent)
        with (
            Console([python, "-m", "courtlog"], env, 120, 40) as court,
            Console([python, bare.__file__], env, 120, 40) as counter,
            closing(sqlite3.connect(path)) as book,
        ):
            court.wait_for("next up")
            counter.wait_for("keys: 0")
            found: dict[str, list[int]] = {"court": [], "bare": []}
            for typed in range(A_ROUND, AFTER[-1] + 1, A_ROUND):
                keys = b"".join(key for _, key, _ in script(A_ROUND, SEED + typed))
                counter.press(keys)
                counter.wait_for(f"keys: {typed}")
                before = _journal(book)
                court.press(keys)
                while _journal(book) < before + A_ROUND:
                    court.read_for(0.005)
                court.press(b"\t")
                court.wait_for("w why")
                court.press(b"\t")
                court.wait_for("next up")
                if typed in AFTER:
                    court.read_for(1.0)
                    found["court"].append(memory_kb(court.process))
                    found["bare"].append(memory_kb(counter.process))
            return found


def _journal(book: sqlite3.Connection) -> int:
    (lines,) = book.execute("SELECT count(*) FROM journal").fetchone()
    return int(lines)


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
    print(figures(run(*sys.argv[1:2])), "target:", TARGET)
