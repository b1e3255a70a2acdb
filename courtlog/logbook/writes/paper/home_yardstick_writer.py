"""Write yardsticks that somebody else watched at home. Each entry is one committed transaction.

They are no rounds: no count or verdict of the coach's own has them in it.
"""

from __future__ import annotations

from courtlog.coaching.game.drills import UsedDrill
from courtlog.coaching.paper.home_yardstick import HomeYardstickRecord
from courtlog.errors import BookError
from courtlog.logbook.file.book import Book
from courtlog.logbook.rows.row_changes import drill_id, insert


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
            raise BookError("This step has been taken back already.")
