"""The season over many books: drawn Parquet folders of 10^6 balls and more, by both engines.

Run with `nice python -m tests.bench.academy [--balls 1e6 1e7] [--engines duckdb spark]
[--memory 6GB]` (what DuckDB may use; else four fifths of the machine's). The files are drawn by
DuckDB, since no book of that size is in question.
"""

from __future__ import annotations

import argparse
import json
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

import duckdb

from courtlog.academy.asking import ask_session, session_of
from courtlog.academy.engine_name import EngineName
from courtlog.academy.folder import shipped
from courtlog.academy.index import BookEntry, Index, part_of, write_index
from courtlog.academy.season.season import season
from courtlog.logbook.schema.schema_check import SCHEMA

CLINIC = 10_000
"""Balls of a clinic: ten players on ten days, four rounds a day of 25 balls with three cues."""

MOST_BOOKS = 1_000
EXPORT = "20260512T180000Z"

TABLES = {
    "clinic": "SELECT {base} + c AS id, 'Clinic ' || {book} || ' ' || c AS name, 10::BIGINT AS"
    " planned_days FROM range({clinics}) AS r(c)",
    "player": "SELECT {base} + 1000000 + c * 10 + p AS id, 'Player ' || p AS name"
    " FROM range({clinics}) AS r(c), range(10) AS q(p)",
    "coach": "SELECT {base} + 1 AS id, 'Coach' AS name",
    "day": "SELECT {base} + 2000000 + c * 10 + d AS id, {base} + c AS clinic_id,"
    " DATE '2026-05-01' + d::INTEGER AS date, '1' AS court, {base} + 1 AS coach_id"
    " FROM range({clinics}) AS r(c), range(10) AS q(d)",
    "drill_used": "SELECT {base} + 3000000 + k AS id, 'forehand/drill-' || k AS name, 'forehand' AS"
    " stroke, k AS rung, 'racquet' AS feed, '' AS card, '' AS digest FROM range(4) AS r(k)",
    "round": "SELECT {base} + 4000000 + r AS id, {base} + 2000000 + r // 40 AS day_id,"
    " {base} + 1000000 + r // 400 * 10 + r // 4 % 10 AS player_id, {base} + 1 AS coach_id,"
    " {base} + 3000000 + CASE WHEN r % 4 = 0 THEN 0 ELSE 1 + (r + r // 4) % 3 END AS drill_id,"
    " CASE WHEN r % 4 > 0 THEN 'practice' WHEN r // 40 % 10 IN (0, 9) THEN 'yardstick'"
    " ELSE 'hold' END AS purpose, r % 40 + 1 AS place FROM range({clinics} * 400) AS q(r)",
    "round_cue": 'SELECT {base} + 4000000 + r AS round_id, w AS "row",'
    " ['turn', 'spacing', 'finish'][w + 1] AS cue FROM range({clinics} * 400) AS q(r),"
    " range(3) AS p(w) ORDER BY r, w",
    "ball": "SELECT {base} + 100000000 + b AS id, {base} + 4000000 + b // 25 AS round_id,"
    " b % 25 + 1 AS number, true AS taken, hash(b) % 7 = 0 AS tough"
    " FROM range({clinics} * 10000) AS q(b)",
    "rating": 'SELECT {base} + 100000000 + b AS ball_id, w AS "row",'
    " (hash(b, w, {book}) % 3)::BIGINT AS grade FROM range({clinics} * 10000) AS q(b),"
    " range(3) AS p(w) WHERE hash(w, b) % 20 > 0 ORDER BY b, w",
}
"""What questions ask of each table; other columns are empty, as in a book of an earlier schema."""


def drawn(folder: Path, balls: int) -> int:
    """Draw a folder of this many balls; how many bytes it takes."""
    clinics = balls // CLINIC
    books = min(MOST_BOOKS, clinics)
    index = Index()
    with duckdb.connect() as db:
        for book in range(1, books + 1):
            here = clinics * book // books - clinics * (book - 1) // books
            rows = {}
            for table, select in TABLES.items():
                path = folder / part_of(table, book, EXPORT)
                path.parent.mkdir(parents=True)
                of_book = select.format(base=book << 40, book=book, clinics=here)
                found = db.execute(f"COPY ({of_book}) TO '{path}' (FORMAT parquet)").fetchone()
                assert found is not None
                rows[table] = found[0]
            entry = BookEntry(
                export=EXPORT,
                progress=(0, book),
                schema=SCHEMA - 1,
                anonymous=False,
                with_minors=True,
                minors_left_out=0,
                rows=rows,
            )
            index = index.with_book(book, entry)
    write_index(folder, index)
    return sum(path.stat().st_size for path in folder.rglob("*.parquet"))


def asked(folder: Path, engine: str, what: str, memory: str) -> dict[str, float]:
    """The season whole or its lines alone: seconds, processor seconds, megabytes, lines."""
    start = time.perf_counter()

    def lines(session: Any, books: Any) -> int:
        if what == "whole":
            return len(season(session, books).lines)
        return len(session.rows(shipped("questions", "season")).rows)

    with (
        tempfile.TemporaryDirectory(prefix="courtlog-academy-") as scratch,
        session_of(EngineName(engine), Path(scratch), "local[2]") as session,
    ):
        if memory and engine == EngineName.DUCKDB:
            session.rows(f"SET memory_limit = '{memory}'")
        found = ask_session(session, folder, lines)
    if sys.platform == "win32":
        raise NotImplementedError("only POSIX says what a process used")
    used = [resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]
    return {
        "seconds": time.perf_counter() - start,
        "processor": sum(one.ru_utime + one.ru_stime for one in used),
        "megabytes": max(one.ru_maxrss for one in used) / 1024,
        "lines": found,
    }


def main() -> None:
    """Draw each folder and ask it in a program of its own."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--balls", nargs="+", type=float, default=[1e6, 1e7])
    parser.add_argument("--engines", nargs="+", default=["duckdb", "spark"])
    parser.add_argument("--memory", default="")
    parser.add_argument("--ask", nargs=3)
    wish = parser.parse_args()
    if wish.ask:
        folder, engine, what = wish.ask
        print(json.dumps(asked(Path(folder), engine, what, wish.memory)))
        return
    for balls in map(int, wish.balls):
        with tempfile.TemporaryDirectory(prefix="courtlog-academy-") as scratch:
            start = time.perf_counter()
            size = drawn(Path(scratch), balls)
            drawn_in = time.perf_counter() - start
            print(f"{balls:.0e} balls: {size / 1e6:.0f} MB, drawn in {drawn_in:.0f} s", flush=True)
            for engine in wish.engines:
                for what in ("lines", "whole"):
                    argv = [sys.executable, "-m", "tests.bench.academy", "--memory", wish.memory]
                    done = subprocess.run(
                        [*argv, "--ask", scratch, engine, what],
                        check=True,
                        stdout=subprocess.PIPE,
                        text=True,
                    )
                    found = json.loads(done.stdout.splitlines()[-1])
                    figures = ", ".join(f"{name} {value:.1f}" for name, value in found.items())
                    print(f"  {engine}, {what}: {figures}", flush=True)


if __name__ == "__main__":
    main()
