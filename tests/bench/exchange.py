"""How fast a book goes out, comes back and joins another, beside the sqlite3 command line.

Run with `python -m tests.bench.exchange [balls]`; prints balls a second and ratios. Three grades a
ball, three journal lines for every second ball and one for the others. The yardstick moves the same
CSV files with `sqlite3 -csv` and `.import`, into the same tables with their keys and indexes, but
without types, checks, references and tallies (by Python's csv and sqlite3 without that program).
"""

from __future__ import annotations

import csv
import os
import random
import shutil
import sqlite3
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path

from courtlog.logbook import tallies
from courtlog.logbook.bring_in import bring_in
from courtlog.logbook.export import Wish, export
from courtlog.logbook.gather import gather
from courtlog.logbook.opening import Book, create_or_open
from courtlog.logbook.rows import insert
from tests.court import START, desk_in

BALLS = 50_000
A_ROUND = 20
REPEATS = 3
SEED = 20260512
TARGET, MOST = 50_000, 4.0


def filled(folder: Path, balls: int) -> Book:
    """A clinic of three players with that many rated balls and their keys."""
    folder.mkdir()
    desk = desk_in(folder)
    book, db, dice = desk.book, desk.book.db, random.Random(SEED)
    (template,) = db.execute("SELECT id FROM round").fetchone()
    people = [id_ for (id_,) in db.execute("SELECT id FROM player")]
    names = [column for _, column, *_ in db.execute("PRAGMA table_info(round)")]
    rest = ", ".join(name for name in names if name not in ("id", "place", "player_id"))
    rows: dict[str, list[tuple[object, ...]]] = {"ball": [], "rating": [], "journal": []}
    at = START
    with db.atomic():
        for number in range(balls // A_ROUND):
            round_id = book.ids.next(at)
            db.execute(
                f"INSERT INTO round (id, place, player_id, {rest})"
                f" SELECT ?, ?, ?, {rest} FROM round WHERE id = ?",
                [round_id, number + 2, people[number % 3], template],
            )
            db.execute(
                "INSERT INTO round_cue SELECT ?, row, cue FROM round_cue WHERE round_id = ?",
                [round_id, template],
            )
            for place in range(1, A_ROUND + 1):
                at += 4000
                ball = book.ids.next(at)
                grades = dice.choices("012", k=3)
                rows["ball"].append((ball, round_id, place, 1, 0, None, at))
                rows["rating"] += [(ball, row, int(grade)) for row, grade in enumerate(grades)]
                states = ["---?", "".join(grades)]
                if place % 2:
                    one, two, _ = grades
                    states[1:1] = [f"{one}--?", f"{one}{two}-?"]
                rows["journal"] += [
                    (book.ids.next(at), ball, "key", before, after, None, at)
                    for before, after in pairwise(states)
                ]
        for table, some in rows.items():
            marks = ", ".join("?" * len(some[0]))
            db.conn.executemany(f"INSERT INTO {table} VALUES ({marks})", some)
        tallies.recount(db)
        insert(db, book.ids, at, "note", round_id=template, text="the last")
    return book


@dataclass(frozen=True, slots=True)
class Took:
    """Seconds by the clock on the wall, and of the processors, this process and its children."""

    wall: float
    processors: float


def median(job: Callable[[], object], repeats: int = REPEATS) -> Took:
    """The middle of several runs."""
    walls, works = [], []
    for _ in range(repeats):
        start, before = time.perf_counter(), sum(os.times()[:4])
        job()
        walls.append(time.perf_counter() - start)
        works.append(sum(os.times()[:4]) - before)
    return Took(statistics.median(walls), statistics.median(works))


def row(name: str, ours: Took, balls: int, yardstick: Took) -> str:
    """One line of the table; on a busy machine the processors' seconds say more than the wall's."""
    paces = balls / ours.wall, balls / ours.processors
    ratios = ours.wall / yardstick.wall, ours.processors / yardstick.processors
    met = "met" if max(paces) >= TARGET and min(ratios) <= MOST else "MISSED"
    told = "".join(f"{pace:12,.0f}" for pace in paces) + "".join(f"{one:8.2f}" for one in ratios)
    return f"{name:10}{told}   {met}"


def by_hand_out(book: Path, folder: Path) -> None:
    """The yardstick of the export."""
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir()
    reader = sqlite3.connect(book)
    names = [
        name
        for (name,) in reader.execute(
            "SELECT name FROM sqlite_master WHERE type = 'table' AND name <> 'tally'"
        )
    ]
    reader.close()
    script = "".join(f".once {folder / name}.csv\nSELECT * FROM {name};\n" for name in names)
    if shutil.which("sqlite3"):
        subprocess.run(["sqlite3", "-csv", "-header", book], input=script, text=True, check=True)
        return
    reader = sqlite3.connect(book)
    for name in names:
        with (folder / f"{name}.csv").open("w", newline="") as file:
            csv.writer(file).writerows(reader.execute(f"SELECT * FROM {name}"))
    reader.close()


def by_hand_in(like: Book, folder: Path, book: Path) -> None:
    """The yardstick of the import."""
    book.unlink(missing_ok=True)
    files = sorted(folder.glob("*.csv"))
    schema = "PRAGMA ignore_check_constraints = ON;\n"
    for (made,) in like.db.execute(
        "SELECT sql FROM sqlite_master WHERE type IN ('table', 'index') AND sql IS NOT NULL"
        " AND tbl_name NOT LIKE '\\_%' ESCAPE '\\'"
    ):
        schema += made.replace(" STRICT, WITHOUT", " WITHOUT").replace(" STRICT", "")
        schema = schema.replace("UNIQUE INDEX", "INDEX") + ";\n"
    if shutil.which("sqlite3"):
        script = schema + "BEGIN;\n"
        script += "".join(f".import --csv --skip 1 {file} {file.stem}\n" for file in files)
        script += "COMMIT;\n"
        subprocess.run(["sqlite3", book], input=script, text=True, check=True, capture_output=True)
        return
    writer = sqlite3.connect(book)
    writer.executescript(schema)
    for file in files:
        with file.open(newline="") as text:
            rows = csv.reader(text)
            marks = ", ".join("?" * len(next(rows)))
            writer.executemany(f"INSERT INTO {file.stem} VALUES ({marks})", rows)
    writer.commit()
    writer.close()


def out_and_in(folder: Path, book: Book, balls: int) -> list[str]:
    """Export and import, each beside its yardstick."""

    def out() -> None:
        shutil.rmtree(folder / "out", ignore_errors=True)
        export(book, folder / "out", Wish(with_minors=True), START)

    def back() -> None:
        for file in folder.glob("again.db*"):
            file.unlink()
        again = create_or_open(folder / "again.db", START)
        bring_in(again, folder / "out")
        again.close()

    plain_out = median(lambda: by_hand_out(book.path, folder / "plain"))
    ours_out = median(out)
    plain_in = median(lambda: by_hand_in(book, folder / "out", folder / "plain.db"))
    ours_in = median(back)
    return [
        row("export", ours_out, balls, plain_out),
        row("import", ours_in, balls, plain_in),
    ]


def together(folder: Path, book: Book, balls: int) -> list[str]:
    """Another book of as many balls joined to this one, beside the import of its rows."""
    filled(folder / "two", balls).close()

    def join() -> None:
        gather(mine, folder / "two" / "book.db", lambda question: True, START)

    took = []
    for number in range(REPEATS):
        shutil.copytree(folder / "one", folder / f"mine{number}")
        mine = create_or_open(folder / f"mine{number}" / "book.db", START)
        took.append(median(join, 1))
        mine.close()
    taken = sorted(took, key=lambda one: one.wall)[REPEATS // 2]
    yardstick = median(lambda: by_hand_in(book, folder / "out", folder / "plain.db"))
    return [row("gather", taken, balls, yardstick)]


def main() -> None:
    """Measure and print."""
    balls = int(sys.argv[1]) if len(sys.argv) > 1 else BALLS
    print(f"{'':10}{'balls a second':>24}{'ratio':>16}")
    print(f"{'':10}{'wall':>12}{'processors':>12}{'wall':>8}{'proc.':>8}")
    with tempfile.TemporaryDirectory(prefix="courtlog-exchange-") as scratch:
        folder = Path(scratch)
        book = filled(folder / "one", balls)
        print("\n".join(out_and_in(folder, book, balls)))
        book.db.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        print("\n".join(together(folder, book, balls)))


if __name__ == "__main__":
    main()
