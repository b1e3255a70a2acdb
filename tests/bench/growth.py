"""What ten million balls change: looks into a book of 10,000 and of ten million, and bytes a ball.

Run with `python -m tests.bench.growth`; needs 2 GB of disk for a minute.
"""

from __future__ import annotations

import sqlite3
import tempfile
import time
from collections.abc import Callable
from contextlib import ExitStack, closing
from functools import partial
from pathlib import Path
from statistics import median

from courtlog.coaching.game.speaking import Speak
from courtlog.courtside.screens.review import page_of
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.reads import lookups
from courtlog.reports.facts.day_facts import day_facts
from tests.bench import big
from tests.bench.looks import trends, view_of
from tests.court import START

REPEATS = 21
REGULARS = 19
"""Earlier clinics of the same twelve players: ten seasons, in a third book of a million balls."""

LINE = """
SELECT clinic.name || ',' || date || ',' || court || ',' || coach.name || ',' || player.name || ','
    || drill_used.name || ',' || purpose || ',' || round.place || ',' || ball.number || ','
    || CASE tough WHEN 1 THEN 'tough' ELSE '' END || ','
    || (SELECT group_concat(cue || '=' || CASE grade WHEN 0 THEN 'missed' WHEN 1 THEN 'near'
        WHEN 2 THEN 'made' ELSE '' END) FROM round_cue LEFT JOIN rating
        ON rating.ball_id = ball.id AND rating.row = round_cue.row
        WHERE round_cue.round_id = round.id) || char(10) AS line
FROM ball JOIN round ON round.id = round_id JOIN day ON day.id = day_id
JOIN clinic ON clinic.id = clinic_id JOIN player ON player.id = player_id
JOIN coach ON coach.id = round.coach_id JOIN drill_used ON drill_used.id = drill_id
"""
"""A ball as one line of CSV: everything that a page says of it, each fact in words."""


def bytes_a_ball(small: Path, large: Path) -> dict[str, float]:
    """Of books with all their indexes and tallies, and of one CSV line of the same facts.

    The tables without a row take 0.3 MB: of a small book that is 30 bytes a ball.
    """
    with closing(sqlite3.connect(small)) as db:
        (lines,) = db.execute(f"SELECT sum(length(line)) FROM ({LINE})").fetchone()
    return {
        "book_bytes": round(large.stat().st_size / _balls(large), 1),
        "small_book_bytes": round(small.stat().st_size / _balls(small), 1),
        "line_bytes": round(lines / _balls(small), 1),
    }


def _balls(path: Path) -> int:
    with closing(sqlite3.connect(path)) as db:
        return int(db.execute("SELECT count(*) FROM ball").fetchone()[0])


def looks(path: Path, opened: ExitStack) -> dict[str, Callable[[], object]]:
    """What a coach looks at, on an open book."""
    book = create_or_open(path, START)
    opened.callback(book.close)
    clinic = lookups.clinics(book)[-1]
    view = view_of(book, clinic.id)
    assert view.live is not None
    return {
        "day summary": partial(day_facts, book, clinic, None, None),
        "trend screen": partial(trends, book, clinic.id, view.day.date),
        "quick review": partial(page_of, book, view, view.live, Speak.PLAN),
    }


def side_by_side(paths: dict[str, Path]) -> dict[str, dict[str, float]]:
    """Median milliseconds of each look at each book, taken in turn."""
    with ExitStack() as opened:
        all_looks = {name: looks(path, opened) for name, path in paths.items()}
        times: dict[str, dict[str, list[float]]] = {}
        for _ in range(REPEATS):
            for name, found in all_looks.items():
                for what, look in found.items():
                    start = time.process_time()
                    look()
                    spent = (time.process_time() - start) * 1000
                    times.setdefault(what, {}).setdefault(name, []).append(spent)
    return {
        what: {name: round(median(found), 2) for name, found in by_book.items()}
        for what, by_book in times.items()
    }


def run(clinics: int = big.SEASONS) -> dict[str, dict[str, float]]:
    """Milliseconds of processor time by look and book, and bytes a ball."""
    with tempfile.TemporaryDirectory(prefix="courtlog-growth-") as folder:
        paths = {
            "one clinic": big.book_of(Path(folder) / "small.db", 1),
            "many": big.book_of(Path(folder) / "big.db", clinics),
            "regulars": big.book_of(Path(folder) / "regulars.db", clinics // 10, REGULARS),
        }
        return side_by_side(paths) | {"a ball": bytes_a_ball(paths["one clinic"], paths["many"])}


if __name__ == "__main__":
    for line, costs in run().items():
        print(f"{line:14}", costs)
