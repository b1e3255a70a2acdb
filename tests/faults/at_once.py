"""Commands given at once, to a new book and to one that a court screen has open.

What a command says it did is in the book; what it refuses is not; nothing stays beside the book.
"""

from __future__ import annotations

import random
import shutil
import sqlite3
from collections.abc import Callable
from contextlib import ExitStack, closing
from dataclasses import dataclass
from pathlib import Path

from tests.cli.program import Home
from tests.faults.calls import in_order
from tests.faults.figures import Figure
from tests.faults.library import MISSING, compiled
from tests.faults.runs import Runs
from tests.faults.traces import trouble
from tests.terminal import books
from tests.terminal.console import CTRL_Q, Console, court, environment

TRIALS, TRIALS_LONG = 4, 60
AT_ONCE = 5

SHEET = """clinic {name}  zone UTC
day 2026-05-12
player Ada  drill forehand/live  cues turn
2 1 0
"""


@dataclass(frozen=True)
class Order:
    """A command, and what stands in the book or beside it once it was carried out."""

    words: tuple[str, ...]
    is_done: Callable[[Path], bool] = lambda _home: True


def at_once(folder: Path, long: bool) -> Figure:
    """Five commands drawn at random begin together."""
    figure = Figure("commands at once, to a new book and beside the court")
    library = compiled()
    if library is None:
        figure.skipped = MISSING
        return figure
    dice = random.Random(11)
    parts = _parts(folder / "parts")
    with Runs.under(library) as runs:
        for number in range(TRIALS_LONG if long else TRIALS):
            home = folder / f"trial-{number}" / "home"
            shutil.copytree(parts, home)
            has_court = number % 8 == 1
            if number % 2:
                books.prepare(home / "book.db")
            orders = [_drawn(dice, at, number % 2 == 1) for at in range(AT_ONCE)]
            with figure.trial(f"{number}: " + ", ".join(" ".join(one.words) for one in orders)):
                _all_at_once(runs, Home(home), orders, has_court, figure)
            shutil.rmtree(home.parent)
    return figure


def _parts(folder: Path) -> Path:
    """What the commands bring along: sheets, another book, exported folders whole and spoilt."""
    folder.mkdir()
    for number in range(AT_ONCE):
        text = SHEET.format(name=f"Sheet {number}")
        (folder / f"sheet-{number}.txt").write_text(text, encoding="utf-8")
    home = Home(folder)
    for name in ("Away", "Import"):
        (folder / "one.txt").write_text(SHEET.format(name=name), encoding="utf-8")
        assert home.run("--book", f"{name}.db", "sheet", "in", "one.txt").lines
    assert home.run("--book", "Import.db", "export", "whole").lines
    shutil.copytree(folder / "whole", folder / "spoilt")
    with (folder / "spoilt" / "rating.csv").open("a", encoding="utf-8") as file:
        file.write("1,9,9\r\n")
    (folder / "Import.db").unlink()
    return folder


def _drawn(dice: random.Random, at: int, begun: bool) -> Order:
    adds = Order(("sheet", "in", f"sheet-{at}.txt"), _has("clinic", f"Sheet {at}"))
    others = [
        adds,
        Order(("import", "whole"), _has("clinic", "Import")),
        Order(("import", "spoilt"), lambda _home: False),
        Order(("gather", "Away.db"), _has("clinic", "Away")),
        Order(("day",)),
        Order(("backup",), lambda home: any((home / "backups").glob("book-*.db"))),
        Order(("backup", "copy.db"), lambda home: (home / "copy.db").is_file()),
        Order(("export", f"out-{at}"), lambda home: (home / f"out-{at}").is_dir()),
    ]
    if begun:
        others.append(Order(("roster", "add", f"Player {at}"), _has("player", f"Player {at}")))
    return adds if dice.random() < 0.5 else dice.choice(others)


def _has(table: str, name: str) -> Callable[[Path], bool]:
    def has(home: Path) -> bool:
        with closing(sqlite3.connect(f"file:{home / 'book.db'}?mode=ro", uri=True)) as db:
            return bool(db.execute(f"SELECT 1 FROM {table} WHERE name = ?", [name]).fetchone())

    return has


def _all_at_once(
    runs: Runs, place: Home, orders: list[Order], has_court: bool, figure: Figure
) -> None:
    home = place.folder
    env = environment(home)
    before = set(home.iterdir())
    with ExitStack() as open_court:
        if has_court:
            console = open_court.enter_context(Console(court(home / "book.db"), env))
            console.wait_for("next up")
            console.press(CTRL_Q)  # it closes while the commands are at work
        ended = runs.run_together(place, [one.words for one in orders], "none 0 0")
        if has_court:
            assert console.read_to_end() == 0
            assert "Traceback" not in console.text
    troubles = []
    for order, one in zip(orders, ended, strict=True):
        words = " ".join(order.words)
        in_order(one)
        if one.code == 0 and not order.is_done(home):
            figure.lost += 1
            troubles.append(f"{words}: said {one.out!r}, and it is not there")
        if one.code and order.words[0] == "sheet":
            troubles.append(f"{words}: refused: {one.err}")
    if (home / "book.db").exists():
        troubles += trouble(home / "book.db")
    asked_for = {home / name for name in ("book.db", "backups", "copy.db")}
    asked_for |= {home / order.words[1] for order in orders if order.words[0] == "export"}
    left = [one.name for one in set(home.iterdir()) - before - asked_for]
    left += [one.name for one in (home / "backups").glob("*") if one.suffix != ".db"]
    figure.left_behind += len(left)
    assert not troubles, "\n".join(troubles)
    assert not left, left
