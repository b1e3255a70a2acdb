"""How fast a book goes out, comes in and joins another, beside the sqlite3 command line.

Run with `python -m tests.bench.exchange [balls]`; prints a table and writes exchange.json beside
this file. Every figure is of a whole command in a process of its own, from its start to its end:
seconds of the processors (user and system), by the clock on the wall, and the most memory it held.
Three grades a ball, three journal lines for every second ball and one for the others; a sheet has
no journal. The yardstick moves the same rows with `sqlite3 -csv` and `.import`, into the same
tables with their keys and indexes, but without types, checks, references and tallies (by Python's
csv and sqlite3 where that program is not there).
"""

from __future__ import annotations

import csv
import json
import os
import platform
import random
import shutil
import sqlite3
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from contextlib import closing
from dataclasses import asdict, dataclass
from itertools import pairwise
from operator import attrgetter
from pathlib import Path

from tests.terminal.console import command, environment

BALLS = 100_000
A_ROUND, A_DAY = 20, 2_000
REPEATS = 3
SEED = 20260512
PACE, EMPTY_PACE, MOST = 50_000, 100_000, 4.0
TARGETS = (
    f"at least {PACE:,} balls a second of the processors ({EMPTY_PACE:,} gathered into a new book),"
    f" at most {MOST:g} x the yardstick"
)


@dataclass(frozen=True, slots=True)
class Took:
    """Seconds of the processors and by the clock on the wall, and megabytes at the peak."""

    processors: float
    wall: float
    megabytes: float


def run(argv: Sequence[str | Path], home: Path, script: Path | None = None) -> Took:
    """One command, from its start to its end."""
    if sys.platform == "win32":
        raise NotImplementedError("only POSIX says what a process used")
    start = time.perf_counter()
    with Path(script or os.devnull).open("rb") as told, (home / "said").open("wb") as said:
        process = subprocess.Popen(
            [*map(str, argv)], stdin=told, stdout=said, stderr=said, env=environment(home)
        )
        _, status, used = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        raise RuntimeError((home / "said").read_text())
    wall = time.perf_counter() - start
    return Took(used.ru_utime + used.ru_stime, wall, used.ru_maxrss / 1024)


def median(job: Callable[[], Took]) -> Took:
    """The middle of several runs."""
    return sorted((job() for _ in range(REPEATS)), key=attrgetter("processors"))[REPEATS // 2]


@dataclass(frozen=True, slots=True)
class Lane:
    """One way in or out, and the yardstick run beside it."""

    name: str
    balls: int
    ours: Took
    yardstick: Took
    pace: int = PACE

    def figures(self) -> dict[str, float | bool | dict[str, float]]:
        """Paces, ratios, and whether the targets are met."""
        pace = self.balls / self.ours.processors
        ratio = self.ours.processors / self.yardstick.processors
        return {
            "balls_a_second": round(pace),
            "times_yardstick": round(ratio, 2),
            "wall_balls_a_second": round(self.balls / self.ours.wall),
            "wall_times_yardstick": round(self.ours.wall / self.yardstick.wall, 2),
            "megabytes": round(self.ours.megabytes),
            "met": pace >= self.pace and ratio <= MOST,
            "ours": asdict(self.ours),
            "yardstick": asdict(self.yardstick),
        }

    def row(self) -> str:
        """One line of the table."""
        f = self.figures()
        return (
            f"{self.name:12}{self.ours.processors:8.2f}{self.yardstick.processors:8.2f}"
            f"{f['balls_a_second']:10,}{f['times_yardstick']:8}"
            f"{f['wall_balls_a_second']:12,}{f['wall_times_yardstick']:8}"
            f"{f['megabytes']:8}   {'met' if f['met'] else 'MISSED'}"
        )


HEAD = (
    f"{'':12}{'processors, s':>16}{'balls':>10}{'':8}{'by the wall':>20}{'most':>8}\n"
    f"{'':12}{'ours':>8}{'theirs':>8}{'a second':>10}{'ratio':>8}"
    f"{'a second':>12}{'ratio':>8}{'MB':>8}"
)


def fill(folder: Path, balls: int) -> None:
    """A clinic of three players with that many rated balls and their keys."""
    from courtlog.logbook.rows import tallies
    from tests.court import START, desk_in

    folder.mkdir()
    desk = desk_in(folder)
    book, db, dice = desk.book, desk.book.db, random.Random(SEED)
    (template,) = db.execute("SELECT id FROM round").fetchone()
    people = [id_ for (id_,) in db.execute("SELECT id FROM player")]
    names = [column for _, column, *_ in db.execute("PRAGMA table_info(round)")]
    rest = ", ".join(name for name in names if name not in ("id", "place", "player_id"))
    at = START
    with book.writing():
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
            rows: dict[str, list[tuple[object, ...]]] = {"ball": [], "rating": [], "journal": []}
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
                db.executemany(f"INSERT INTO {table} VALUES ({marks})", some)
        tallies.recount(db)
    db.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    book.close()


def write_a_sheet(file: Path, balls: int) -> None:
    """The sheet of a clinic with that many rated balls."""
    from datetime import timedelta

    from courtlog.coaching.game.clinic_record import (
        BallRecord,
        ClinicRecord,
        DayRecord,
        RoundRecord,
    )
    from courtlog.coaching.game.rounds import Ball, Purpose
    from courtlog.library.sheet_out import write_sheet
    from tests.court import DAY

    dice = random.Random(SEED)
    cues = ("turn", "spacing", "finish")
    names = ("Maren", "Tove", "Ruben")

    def a_round(number: int) -> RoundRecord:
        hit = ("".join(dice.choices("012", k=3)) for _ in range(A_ROUND))
        taken = tuple(BallRecord(Ball.from_token(token, 3)) for token in hit)
        who = names[number % 3]
        return RoundRecord(
            player=who,
            drill="forehand/racquet-feed",
            purpose=Purpose.PRACTICE,
            cues=cues,
            balls=taken,
        )

    days = tuple(
        DayRecord(
            DAY + timedelta(days=day), "2", "Ines", tuple(map(a_round, range(A_DAY // A_ROUND)))
        )
        for day in range(balls // A_DAY)
    )
    file.write_text(write_sheet(ClinicRecord("Harbour Week", "UTC", (), days)))


def plain_out(book: Path, folder: Path) -> None:
    """The yardstick of the export without the sqlite3 program."""
    with closing(sqlite3.connect(book)) as reader:
        for name in names_of(book):
            with (folder / f"{name}.csv").open("w", newline="") as file:
                csv.writer(file).writerows(reader.execute(f"SELECT * FROM {name}"))


def plain_in(folder: Path, schema: Path, book: Path) -> None:
    """The yardstick of the import without the sqlite3 program."""
    with closing(sqlite3.connect(book)) as writer:
        writer.executescript(schema.read_text())
        for path in sorted(folder.glob("*.csv")):
            with path.open(newline="") as text:
                rows = csv.reader(text)
                marks = ", ".join("?" * len(next(rows)))
                writer.executemany(f"INSERT INTO {path.stem} VALUES ({marks})", rows)
        writer.commit()


def names_of(book: Path) -> list[str]:
    """The tables that travel."""
    with closing(sqlite3.connect(book)) as reader:
        return [
            name
            for (name,) in reader.execute(
                "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE '\\_%'"
                " ESCAPE '\\' AND name NOT IN ('tally', 'home')"
            )
        ]


def bare_schema(book: Path) -> str:
    """The book's tables and indexes without types, checks and what must be unique."""
    schema = "PRAGMA ignore_check_constraints = ON;\n"
    with closing(sqlite3.connect(book)) as reader:
        for (made,) in reader.execute(
            "SELECT sql FROM sqlite_master WHERE type IN ('table', 'index') AND sql IS NOT NULL"
            " AND tbl_name NOT LIKE '\\_%' ESCAPE '\\'"
        ):
            schema += made.replace(" STRICT, WITHOUT", " WITHOUT").replace(" STRICT", "") + ";\n"
    return schema.replace("UNIQUE INDEX", "INDEX")


class Bench:
    """The files of one run, in a folder of its own."""

    def __init__(self, home: Path, balls: int) -> None:
        self.home, self.balls = home, balls
        self.one, self.two = (home / name / "book.db" for name in ("one", "two"))
        self.sheet, self.out, self.from_sheet = home / "sheet.txt", home / "out", home / "short"
        for words in (
            ("fill", self.one.parent, balls),
            ("fill", self.two.parent, balls),
            ("write_a_sheet", self.sheet, balls),
        ):
            self._here(*words)
        self.schema = home / "schema.sql"
        self.schema.write_text(bare_schema(self.one))

    def _here(self, *words: object) -> Took:
        """A function of this module in a process of its own, so that this one stays small."""
        argv = [sys.executable, "-m", "tests.bench.exchange", *map(str, words)]
        return run(argv, self.home)

    def _on_book(self, book: Path, *words: str) -> Took:
        return run(command("--book", str(book), *words), self.home)

    def _new(self, name: str) -> Path:
        """A folder that is empty, whatever was in it before."""
        folder = self.home / name
        shutil.rmtree(folder, ignore_errors=True)
        folder.mkdir()
        return folder

    def export(self) -> Took:
        shutil.rmtree(self.out, ignore_errors=True)
        return self._on_book(self.one, "export", str(self.out), "--with-minors")

    def import_(self) -> Took:
        return self._on_book(self._new("again") / "book.db", "import", str(self.out))

    def sheet_in(self) -> Took:
        book = self._new("sheets") / "book.db"
        took = self._on_book(book, "sheet", "in", str(self.sheet))
        shutil.rmtree(self.from_sheet, ignore_errors=True)
        self._on_book(book, "export", str(self.from_sheet), "--with-minors")
        return took

    def gather_new(self) -> Took:
        return self._on_book(self._new("joined") / "book.db", "gather", str(self.two))

    def gather(self, into: Path, other: Path) -> Took:
        book = self._new("joined") / "book.db"
        shutil.copyfile(into, book)
        with closing(sqlite3.connect(into)) as db:
            same = db.execute("SELECT name FROM clinic UNION SELECT name FROM player").fetchall()
        said = [word for (name,) in same for word in ("--same", name)]
        return self._on_book(book, "gather", str(other), *said)

    def plain_out(self) -> Took:
        folder = self._new("plain")
        if not shutil.which("sqlite3"):
            return self._here("plain_out", self.one, folder)
        script = self.home / "script"
        script.write_text(
            "".join(
                f".once {folder / name}.csv\nSELECT * FROM {name};\n" for name in names_of(self.one)
            )
        )
        return run(["sqlite3", "-csv", "-header", self.one], self.home, script)

    def plain_in(self, source: Path) -> Took:
        book = self._new("plain") / "book.db"
        if not shutil.which("sqlite3"):
            return self._here("plain_in", source, self.schema, book)
        script = self.home / "script"
        files = sorted(source.glob("*.csv"))
        imports = "".join(f".import --csv --skip 1 {file} {file.stem}\n" for file in files)
        script.write_text(f"{self.schema.read_text()}BEGIN;\n{imports}COMMIT;\n")
        return run(["sqlite3", book], self.home, script)

    def lanes(self) -> list[Lane]:
        """Every way in and out; of the two ways of joining, one renames the rows of the first."""
        found = []

        def lane(
            name: str, ours: Callable[[], Took], yardstick: Callable[[], Took], pace: int = PACE
        ) -> None:
            found.append(Lane(name, self.balls, median(ours), median(yardstick), pace))
            print(found[-1].row(), flush=True)

        lane("sheet in", self.sheet_in, lambda: self.plain_in(self.from_sheet))
        lane("export", self.export, self.plain_out)
        lane("import", self.import_, lambda: self.plain_in(self.out))
        lane("gather new", self.gather_new, lambda: self.plain_in(self.out), EMPTY_PACE)
        for name, into, other in (
            ("gather", self.one, self.two),
            ("gather back", self.two, self.one),
        ):

            def join(into: Path = into, other: Path = other) -> Took:
                return self.gather(into, other)

            lane(name, join, lambda: self.plain_in(self.out))
        return found


def main() -> None:
    """Measure, print, write."""
    balls = int(sys.argv[1]) if len(sys.argv) > 1 else BALLS
    print(HEAD)
    with tempfile.TemporaryDirectory(prefix="courtlog-exchange-") as scratch:
        lanes = Bench(Path(scratch), balls).lanes()
    print(f"\ntargets: {TARGETS}")
    kept = {
        "python": platform.python_version(),
        "sqlite": sqlite3.sqlite_version,
        "cores": os.cpu_count(),
        "balls": balls,
        "targets": TARGETS,
        "lanes": {lane.name: lane.figures() for lane in lanes},
    }
    Path(__file__).with_suffix(".json").write_text(
        json.dumps(kept, indent=2, sort_keys=True) + "\n"
    )


if __name__ == "__main__":
    match sys.argv[1:]:
        case ["fill", folder, balls]:
            fill(Path(folder), int(balls))
        case ["write_a_sheet", file, balls]:
            write_a_sheet(Path(file), int(balls))
        case ["plain_out", book, folder]:
            plain_out(Path(book), Path(folder))
        case ["plain_in", folder, schema, book]:
            plain_in(Path(folder), Path(schema), Path(book))
        case _:
            main()
