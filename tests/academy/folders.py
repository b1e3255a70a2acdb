"""Books for an academy's folder, and what such a folder holds."""

from __future__ import annotations

import shutil
from contextlib import closing
from functools import cache
from pathlib import Path
from typing import Any

from pyarrow import parquet

from courtlog.academy.index import files_of, read_index
from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Ball
from courtlog.logbook.exchange.snapshot import tables_of_today
from courtlog.logbook.file.open_book import open_existing
from courtlog.logbook.writes.ball_repairs import amend_ball
from tests.cli.program import HARBOUR, WEEKEND, Home, home_with
from tests.court import START
from tests.faults.library import new_folder

Content = dict[str, list[str]]


def held(folder: Path) -> Content:
    """Every row that counts, by table and book."""
    index = read_index(folder)
    return {
        f"{table.name} {part.parts[1]}": sorted(
            map(repr, parquet.ParquetFile(folder / part).read().to_pylist())
        )
        for table in tables_of_today()
        for part in files_of(index, table.name)
    }


def files_in(folder: Path) -> set[str]:
    """The Parquet files that lie in the folder, whether they count or not."""
    return {str(path.relative_to(folder)) for path in folder.rglob("*.parquet")}


STATES = ("one.db", "two.db", "three.db")
"""One book as it was, with one ball put right, and without a player who was erased."""

WEEKEND_BOOK = "weekend.db"
"""Another book."""

GONE = "Maren"
"""Who was erased from the third state."""


def sample_home(folder: Path) -> Home:
    """A home with those four books."""
    shutil.copytree(_made(), folder)
    return Home(folder)


@cache
def _made() -> Path:
    home = home_with(new_folder(), HARBOUR)
    shutil.copyfile(home.book, home.folder / "one.db")
    with closing(open_existing(home.book, START)) as book:
        round_id, number, cues = book.db.execute(
            "SELECT round.id, number, (SELECT count(*) FROM round_cue WHERE round_id = round.id)"
            " FROM round JOIN player ON player.id = player_id JOIN ball ON ball.round_id = round.id"
            " JOIN rating ON ball_id = ball.id WHERE purpose = 'yardstick' AND name <> ?"
            " AND row = 0 AND grade = 0 ORDER BY ball.id LIMIT 1",
            [GONE],
        ).fetchone()
        amend_ball(book, round_id, number, Ball((Grade.MADE,) * cues), "Ines", START)
    shutil.copyfile(home.book, home.folder / "two.db")
    assert home.run("erase", GONE, "--yes").lines
    home.book.rename(home.folder / "three.db")
    assert home.run("sheet", "in", WEEKEND, "--book", WEEKEND_BOOK).lines
    return home.folder


def add(home: Home, *books: str, options: tuple[str, ...] = ()) -> list[str]:
    """Add the books to the folder `academy`; what was said."""
    return home.run("academy", "add", *books, "--in", "academy", *options).lines


def as_of_version_one(folder: Path, index: dict[str, Any]) -> None:
    """Make the smallest book of the folder one of the first schema, as far as a reader can see."""
    book = min(index["books"], key=lambda book: index["books"][book]["rows"]["ball"])
    index["books"][book]["schema"] = 1
    for table, columns in (("round", ["speak", "rate_every"]), ("player", ["level", "contact"])):
        (path,) = folder.glob(f"{table}/book={book}/*/part.parquet")
        parquet.write_table(parquet.ParquetFile(path).read().drop_columns(columns), path)
