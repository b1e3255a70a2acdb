"""Which rows of a spoilt book are named, against the same rules worked out in Python."""

from __future__ import annotations

import random
import sqlite3
from collections.abc import Iterator
from itertools import groupby
from pathlib import Path

import pytest

from courtlog.logbook.rows.soundness import balls_unlike_journal, faults
from courtlog.logbook.schema.row_versions import without_triggers
from courtlog.logbook.schema.tables import tables
from tests.logbook.exchange.books import full_book

_SPOIL = (
    "UPDATE ball SET taken = 1 - taken WHERE id = :ball",
    "UPDATE ball SET tough = 1 - tough WHERE id = :ball",
    "UPDATE ball SET clip_at = 7 WHERE id = :ball",
    "UPDATE ball SET number = 100 + number WHERE id = :ball",
    "UPDATE ball SET number = -100 - number WHERE id = :ball",
    "DELETE FROM rating WHERE ball_id = :ball AND row = :row",
    "UPDATE rating SET grade = (grade + 1) % 3 WHERE ball_id = :ball AND row = :row",
    "INSERT OR REPLACE INTO rating VALUES (:ball, :row, 1)",
    "DELETE FROM journal WHERE ball_id = :ball",
    "UPDATE journal SET kind = 'move' WHERE ball_id = :ball",
    "UPDATE journal SET after = after || '!' WHERE ball_id = :ball",
)


@pytest.mark.parametrize("seed", range(40))
def test_a_spoilt_ball_is_named_and_no_other(tmp_path: Path, seed: int) -> None:
    """One to three rows of a book with something in every table are changed behind its back."""
    dice = random.Random(seed)
    book = full_book(tmp_path)
    db = book.db
    balls = [ball for (ball,) in db.execute("SELECT id FROM ball ORDER BY id").fetchall()]
    assert list(balls_unlike_journal(db)) == []
    assert _out_of_place(db) == set()
    db.execute("PRAGMA foreign_keys = OFF")
    with book.writing(), without_triggers(db):
        for _ in range(dice.randint(1, 3)):
            values = {"ball": dice.choice(balls), "row": dice.randrange(4)}
            db.execute(dice.choice(_SPOIL), values)
    assert set(balls_unlike_journal(db)) == set(_unlike(db))
    named = {
        fault.key[0]
        for fault in faults(db, tables(db))
        if fault.table == "ball" and "not numbered" in fault.sentence
    }
    assert named == _out_of_place(db)
    book.close()


def _unlike(db: sqlite3.Connection) -> Iterator[int]:
    for ball, round_id, number, taken, tough, clip in db.execute(
        "SELECT id, round_id, number, taken, tough, clip_at FROM ball"
    ).fetchall():
        lines = db.execute(
            "SELECT after FROM journal WHERE ball_id = ? AND kind <> 'move' ORDER BY id", [ball]
        ).fetchall()
        grades = dict(db.execute("SELECT row, grade FROM rating WHERE ball_id = ?", [ball]))
        (cues,) = db.execute(
            "SELECT count(*) FROM round_cue WHERE round_id = ?", [round_id]
        ).fetchone()
        state = "".join(str(grades.get(row, "-")) for row in range(cues))
        state += "!" if tough else ""
        state += "" if clip is None else f"@{clip}"
        state += "" if taken or number < 0 else "?"
        if lines and lines[-1] != (state,):
            yield ball


def _out_of_place(db: sqlite3.Connection) -> set[int]:
    rows = db.execute(
        "SELECT round_id, number, id FROM ball WHERE number > 0"
        " ORDER BY round_id, taken DESC, number"
    ).fetchall()
    return {
        ball
        for _, of_round in groupby(rows, key=lambda row: row[0])
        for place, (_, number, ball) in enumerate(of_round, 1)
        if number != place
    }
