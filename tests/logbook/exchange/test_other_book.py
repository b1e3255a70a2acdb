"""Another book that is not sound is refused as one, whenever its balls are looked at."""

from __future__ import annotations

import random
import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing
from functools import partial
from pathlib import Path

import pytest

from courtlog.errors import CourtlogError
from courtlog.logbook.exchange import other_book
from courtlog.logbook.exchange.join_books import join_book
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.schema.row_versions import without_triggers
from tests.court import START, desk_in, feed
from tests.doses import dose
from tests.faults.crafted import Crafted, crafted_values
from tests.logbook.exchange.books import full_book

TABLES = ("ball", "rating", "journal", "round_cue", "round")

_UNLIKE = (
    "UPDATE ball SET taken = 1 - taken WHERE id = :ball",
    "UPDATE ball SET tough = 1 - tough WHERE id = :ball",
    "UPDATE ball SET clip_at = 7 WHERE id = :ball",
    "UPDATE ball SET number = 100 + number WHERE id = :ball",
    "UPDATE ball SET number = -100 - number WHERE id = :ball",
    "UPDATE ball SET round_id = (SELECT max(id) FROM round), number = 50 WHERE id = :ball",
    "DELETE FROM ball WHERE id = :ball",
    "DELETE FROM rating WHERE ball_id = :ball",
    "UPDATE rating SET grade = (grade + 1) % 3 WHERE ball_id = :ball",
    "UPDATE rating SET row = row + 2 WHERE ball_id = :ball",
    "INSERT OR REPLACE INTO rating VALUES (:ball, 3, 1)",
    "DELETE FROM journal WHERE ball_id = :ball",
    "UPDATE journal SET after = '2' || after WHERE ball_id = :ball",
    "UPDATE journal SET before = 'two' WHERE ball_id = :ball",
    "UPDATE journal SET kind = 'move', after = '1' WHERE ball_id = :ball",
    "DELETE FROM round_cue WHERE (round_id, row) = (SELECT round_id, 2 FROM ball WHERE id = :ball)",
    "INSERT INTO round_cue SELECT round_id, 3, 'x' FROM ball WHERE id = :ball",
    "DELETE FROM round WHERE id = (SELECT round_id FROM ball WHERE id = :ball)",
)


@pytest.mark.parametrize("into", ["an empty book", "one with balls"])
def test_a_spoilt_book_is_refused_in_the_same_words(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, into: str
) -> None:
    """Whether its balls are looked at before they come in, or in the result."""
    sound = _file(full_book(tmp_path / "full").path, tmp_path / "sound.db")
    with closing(sqlite3.connect(sound)) as db:
        db.execute("DELETE FROM erased")  # whom a book erased is taken out of both before
        db.commit()
    own = create_or_open(tmp_path / "empty" / "book.db", START).path
    if into != "an empty book":
        desk = desk_in(tmp_path / "mine", ("Maren", "Anouk"))
        feed(desk, "222 _ 012 !_")
        own = desk.book.path
    own = _file(own, tmp_path / "own.db")
    refused = 0
    for craft in _spoilt(sound):
        other = _file(sound, tmp_path / "other.db")
        with closing(sqlite3.connect(other, isolation_level=None)) as db:
            try:
                craft.craft(db)
            except sqlite3.Error:
                continue  # not even SQLite makes such a file
        at_the_end = _answer(own, other, tmp_path / "one")
        with monkeypatch.context() as patched:
            patched.setattr(other_book, "balls_come_whole", lambda _db: False)
            at_once = _answer(own, other, tmp_path / "two")
        told = [answer if isinstance(answer, str) else "joined" for answer in (at_the_end, at_once)]
        assert told[0] == told[1], craft.name
        assert at_the_end == at_once, craft.name
        refused += isinstance(at_once, str)
    assert refused > 10
    with closing(create_or_open(own, START)) as book:
        book.db.execute("ATTACH ? AS theirs", [str(sound)])
        assert other_book.balls_come_whole(book.db)


def _spoilt(sound: Path) -> list[Crafted]:
    """Rows that fit one another no more, and values that no courtlog writes."""
    dice = random.Random(20)
    with closing(sqlite3.connect(sound)) as db:
        balls = [ball for (ball,) in db.execute("SELECT id FROM ball ORDER BY id")]
    unlike = [
        Crafted(f"{sql} ({ball})", partial(_changed, sql, ball))
        for sql in _UNLIKE
        for ball in dice.sample(balls, dose(1, len(balls)))
    ]
    values = [one for one in crafted_values(sound) if one.name.startswith(_STARTS)]
    return unlike + dice.sample(values, dose(8, len(values)))


_STARTS = tuple(f"{table}." for table in TABLES)


def _changed(sql: str, ball: int, db: sqlite3.Connection) -> None:
    db.execute("PRAGMA foreign_keys = OFF")
    db.execute("BEGIN")
    with without_triggers(db):
        db.execute(sql, {"ball": ball})
    db.execute("COMMIT")


def _file(book: Path, to: Path) -> Path:
    """The book alone in a file of that name."""
    with closing(sqlite3.connect(book)) as source, closing(sqlite3.connect(to)) as target:
        source.backup(target)
        target.execute("PRAGMA journal_mode = DELETE")
    return to


def _answer(own: Path, other: Path, folder: Path) -> object:
    """What was said where the other book was refused, else all that the own one holds then."""
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir()
    shutil.copyfile(own, folder / "book.db")
    book = create_or_open(folder / "book.db", START)
    before = list(book.db.iterdump())
    yes: Callable[[object], bool] = lambda _: True  # noqa: E731
    try:
        join_book(book, other, yes, START, yes)
    except CourtlogError as error:
        assert list(book.db.iterdump()) == before
        return str(error)
    else:
        # Where the file lies is of no account.
        return [row for row in book.db.iterdump() if not row.startswith('INSERT INTO "home"')]
    finally:
        book.close()
