"""Write blind pages and who rates them: each entry is one committed transaction."""

from __future__ import annotations

from collections.abc import Sequence

from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import second_rating_lookups
from courtlog.logbook.reads.film.blind_lookups import BlindPage
from courtlog.logbook.rows.row_changes import coach_id, insert


def add_page(
    book: Book,
    clinic_id: int,
    player_id: int,
    stroke: str,
    cues: Sequence[str],
    code: str,
    seed: int,
    balls: Sequence[int],
    at_ms: int,
) -> int:
    """Add a page that plays these balls under the numbers from 1; returns its id."""
    with book.writing() as db:
        page = insert(
            db,
            book.ids,
            at_ms,
            "blind_page",
            clinic_id=clinic_id,
            player_id=player_id,
            stroke=stroke,
            cues=" ".join(cues),
            code=code,
            seed=seed,
            at=at_ms,
        )
        db.executemany(
            "INSERT INTO blind_ball (page_id, number, ball_id) VALUES (?, ?, ?)",
            [(page, number, ball) for number, ball in enumerate(balls, 1)],
        )
        return page


def blind_sitting(book: Book, page: BlindPage, coach: str, at_ms: int, anew: bool) -> int:
    """The number under which the coach rates this page: the last one of it, or a new one."""
    with book.writing() as db:
        who = coach_id(db, book.ids, at_ms, coach)
        (last,) = db.execute(
            "SELECT max(sitting) FROM blind_sitting WHERE page_id = ? AND coach_id = ?",
            [page.id, who],
        ).fetchone()
        if last is not None and not anew:
            return int(last)
        sitting = second_rating_lookups.last_sitting(book, coach) + 1
        db.execute("INSERT INTO blind_sitting VALUES (?, ?, ?)", [page.id, who, sitting])
        return sitting
