"""Write second ratings: each entry is one committed transaction."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from courtlog.errors import CourtlogError
from courtlog.logbook.file.book import Book
from courtlog.logbook.rows.row_changes import coach_id, insert


def rate_ball(
    book: Book,
    coach: str,
    sitting: int,
    ball: int,
    grades: Mapping[int, int | None],
    at_ms: int,
) -> None:
    """Rate a ball in this sitting, by row; None means not seen. A row rated before is replaced.

    Raises CourtlogError for a ball that is no longer in the book.
    """
    rate_balls(book, coach, sitting, [(ball, grades)], at_ms)


def rate_balls(
    book: Book,
    coach: str,
    sitting: int,
    balls: Sequence[tuple[int, Mapping[int, int | None]]],
    at_ms: int,
) -> None:
    """Rate several balls: all of them, or none."""
    with book.writing() as db:
        who = coach_id(db, book.ids, at_ms, coach)
        for ball, grades in balls:
            if db.execute("SELECT 1 FROM ball WHERE id = ?", [ball]).fetchone() is None:
                raise CourtlogError("This ball is not in the book any more.")
            for row, grade in grades.items():
                _forget(book, who, sitting, ball, row)
                insert(
                    db,
                    book.ids,
                    at_ms,
                    "second_rating",
                    ball_id=ball,
                    coach_id=who,
                    sitting=sitting,
                    row=row,
                    grade=grade,
                    at=at_ms,
                )


def reopen_rows(
    book: Book, coach: str, sitting: int, ball: int, rows: Sequence[int], at_ms: int
) -> None:
    """Take back the grades of these rows, so that they are open again."""
    with book.writing() as db:
        who = coach_id(db, book.ids, at_ms, coach)
        for row in rows:
            _forget(book, who, sitting, ball, row)


def _forget(book: Book, who: int, sitting: int, ball: int, row: int) -> None:
    book.db.execute(
        "DELETE FROM second_rating WHERE coach_id = ? AND sitting = ? AND ball_id = ? AND row = ?",
        [who, sitting, ball, row],
    )
