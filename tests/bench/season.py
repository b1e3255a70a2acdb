"""A season of many courts in one query: Parquet files of an export, read by DuckDB.

Run with `python -m tests.bench.season` (ten million balls: some minutes, 4 GB of disk).
"""

from __future__ import annotations

import sqlite3
import tempfile
import time
from contextlib import closing
from pathlib import Path

import duckdb

from courtlog.logbook.exchange.export import export
from courtlog.logbook.exchange.export_choice import ExportOptions
from courtlog.logbook.file.open_book import open_existing
from tests.bench import big
from tests.court import START

SUMMARY = """
SELECT clinic.name, player.name, drill_used.stroke, round_cue.cue, round.purpose,
       count(*) FILTER (rating.grade = 2) AS made, count(rating.grade) AS seen
FROM '{folder}/ball.parquet' AS ball
JOIN '{folder}/round.parquet' AS round ON round.id = ball.round_id
JOIN '{folder}/day.parquet' AS day ON day.id = round.day_id
JOIN '{folder}/clinic.parquet' AS clinic ON clinic.id = day.clinic_id
JOIN '{folder}/player.parquet' AS player ON player.id = round.player_id
JOIN '{folder}/drill_used.parquet' AS drill_used ON drill_used.id = round.drill_id
JOIN '{folder}/round_cue.parquet' AS round_cue ON round_cue.round_id = round.id
LEFT JOIN '{folder}/rating.parquet' AS rating
    ON rating.ball_id = ball.id AND rating."row" = round_cue."row"
WHERE ball.taken AND ball.number > 0
GROUP BY ALL ORDER BY ALL
"""
"""Made and seen balls by clinic, player, stroke, cue and purpose."""

OWN = """
SELECT clinic.name, player.name, stroke, cue, purpose, sum(made), sum(missed + near + made)
FROM tally
JOIN day ON day.id = day_id
JOIN clinic ON clinic.id = clinic_id
JOIN player ON player.id = player_id
GROUP BY 1, 2, 3, 4, 5 ORDER BY 1, 2, 3, 4, 5
"""
"""The same from the tallies that courtlog's pages and trends are made of."""

Row = tuple[str, str, str, str, str, int, int]


def of_parquet(folder: Path) -> list[Row]:
    """The season by DuckDB, from an export with Parquet files."""
    found: list[Row] = duckdb.sql(SUMMARY.format(folder=folder)).fetchall()
    return found


def of_the_book(path: Path) -> list[Row]:
    """The season as courtlog keeps it."""
    with closing(sqlite3.connect(path)) as db:
        return [tuple(row) for row in db.execute(OWN)]


def main() -> None:
    """Ten million balls: how long the export takes, the query, and whether both say the same."""
    with tempfile.TemporaryDirectory(prefix="courtlog-season-") as scratch:
        path = big.book_of(Path(scratch) / "book.db", big.SEASONS)
        with closing(open_existing(path, START)) as book:
            (balls,) = book.db.execute("SELECT count(*) FROM ball").fetchone()
            start = time.perf_counter()
            export(book, Path(scratch) / "out", ExportOptions(with_minors=True, parquet=True), 0)
            print(f"{balls} balls, export {time.perf_counter() - start:.0f} s")
        start = time.perf_counter()
        found = of_parquet(Path(scratch) / "out")
        print(f"{len(found)} lines by DuckDB {time.perf_counter() - start:.1f} s")
        start = time.perf_counter()
        own = of_the_book(path)
        print(f"{len(own)} lines by tallies {time.perf_counter() - start:.1f} s")
        print("the same" if found == own else "NOT the same")


if __name__ == "__main__":
    main()
