"""Write yardsticks that somebody else watched at home. Each entry is one committed transaction.

They are no rounds: no count or verdict of the coach's own has them in it.
"""

from __future__ import annotations

import sqlite3

from courtlog.coaching.game.drills import UsedDrill
from courtlog.coaching.paper.home_yardstick import HomeYardstickRecord
from courtlog.errors import BookError
from courtlog.logbook.file.book import Book
from courtlog.logbook.rows.row_changes import drill_id, insert
from courtlog.names import folded_name

TAKEN_BACK = "This step has been taken back already."
FORWARD = "`courtlog history forward` and its number puts it into the book again."


def keep_home_yardstick(
    book: Book,
    clinic_id: int,
    player_id: int,
    record: HomeYardstickRecord,
    used: UsedDrill,
    at_ms: int,
    replaces: int | None = None,
) -> int:
    """Keep a yardstick, and take back the one it replaces; returns its id."""
    with book.writing() as db:
        if replaces is not None:
            db.execute("UPDATE home_yardstick SET taken_back = 1 WHERE id = ?", [replaces])
        return insert(
            db,
            book.ids,
            at_ms,
            "home_yardstick",
            clinic_id=clinic_id,
            player_id=player_id,
            drill_id=drill_id(db, book.ids, at_ms, used),
            date=record.on.isoformat(),
            watcher=record.watcher,
            cues=" ".join(record.cues),
            balls=" ".join(ball.token() for ball in record.balls),
            at=at_ms,
        )


def take_back_home_yardstick(book: Book, row: int) -> None:
    """Take a kept yardstick back; the row stays. Raises BookError where it is taken back."""
    with book.writing() as db:
        done = db.execute(
            "UPDATE home_yardstick SET taken_back = 1 WHERE id = ? AND NOT taken_back", [row]
        )
        if not done.rowcount:
            raise BookError(TAKEN_BACK, FORWARD)


def put_home_yardstick_forward(book: Book, row: int) -> None:
    """Put a yardstick that was taken back into the book again.

    Raises BookError where it stands, or where another version of the same sheet does.
    """
    with book.writing() as db:
        (is_back,) = db.execute(
            "SELECT taken_back FROM home_yardstick WHERE id = ?", [row]
        ).fetchone()
        if not is_back:
            raise BookError("This step stands: nothing took it back.")
        if _stands_otherwise(db, row):
            raise BookError(
                "The book has another version of the same sheet.", "Take that step back first."
            )
        db.execute("UPDATE home_yardstick SET taken_back = 0 WHERE id = ?", [row])


def _stands_otherwise(db: sqlite3.Connection, row: int) -> bool:
    """Whether a sheet of the same player, drill, date and watcher stands in the book."""
    watchers = db.execute(
        "SELECT its.watcher, other.watcher FROM home_yardstick AS its"
        " JOIN home_yardstick AS other USING (clinic_id, player_id, date)"
        " JOIN drill_used AS drill ON drill.id = its.drill_id"
        " JOIN drill_used AS again ON again.id = other.drill_id"
        " WHERE its.id = ? AND NOT other.taken_back"
        " AND (drill.stroke, drill.name) = (again.stroke, again.name)",
        [row],
    )
    return any(folded_name(its) == folded_name(other) for its, other in watchers)
