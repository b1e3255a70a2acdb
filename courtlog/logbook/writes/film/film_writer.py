"""Write films: each entry is one committed transaction. Moments are milliseconds UTC."""

from __future__ import annotations

from courtlog.errors import CourtlogError
from courtlog.film.film_start import FilmStart
from courtlog.film.video_times import VideoTimes
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads.film.films import ROWS_OF_FILM
from courtlog.logbook.rows.row_changes import insert


def add_film(
    book: Book,
    clinic_id: int,
    name: str,
    video: VideoTimes,
    start: FilmStart,
    court: str,
    at_ms: int,
) -> int:
    """Add a film of the clinic, of that court; returns its id."""
    with book.writing() as db:
        film_id = insert(
            db,
            book.ids,
            at_ms,
            "film",
            clinic_id=clinic_id,
            name=name,
            fingerprint=video.fingerprint,
            length_ms=video.length_ms,
            began_at=start.began_ms,
            known_by=start.source.value,
            at=at_ms,
        )
        say_court(book, film_id, court, at_ms)
        return film_id


def say_court(book: Book, film_id: int, court: str, at_ms: int) -> None:
    """Say which court a film shows, of every row that joined books have of it.

    The moment is after every one known of the film, as in `move_player`.
    """
    with book.writing() as db:
        of_film = db.execute(ROWS_OF_FILM, {"film": film_id}).fetchall()
        for (row,) in of_film:
            (clinic_id, last) = db.execute(
                "SELECT film.clinic_id, coalesce(max(film_court.at), 0) FROM film"
                " LEFT JOIN film_court ON film_id = film.id WHERE film.id = ?",
                [row],
            ).fetchone()
            insert(
                db,
                book.ids,
                at_ms,
                "film_court",
                clinic_id=clinic_id,
                film_id=row,
                court=court,
                at=max(at_ms, last + 1),
            )


def change_start(book: Book, clinic_id: int, fingerprint: str, start: FilmStart) -> None:
    """Give a film another start, in every row that joined books have of it."""
    with book.writing() as db:
        db.execute(
            "UPDATE film SET began_at = ?, known_by = ? WHERE clinic_id = ? AND fingerprint = ?",
            [start.began_ms, start.source.value, clinic_id, fingerprint],
        )


def move_hits(book: Book, film_id: int, hit_ms: int) -> None:
    """Say by how much the hit is moved in all clips of a film, in every row of joined books."""
    with book.writing() as db:
        db.execute(
            f"UPDATE film SET hit_ms = :hit WHERE id IN ({ROWS_OF_FILM})",
            {"film": film_id, "hit": hit_ms},
        )


def move_hit(book: Book, film_id: int, ball_id: int, hit_ms: int) -> None:
    """Say by how much the hit of one ball is moved in a film; 0 takes that back.

    Raises CourtlogError for a ball that is no longer in the book.
    """
    with book.writing() as db:
        if db.execute("SELECT 1 FROM ball WHERE id = ?", [ball_id]).fetchone() is None:
            raise CourtlogError("This ball is not in the book any more.")
        values = {"film": film_id, "ball": ball_id, "hit": hit_ms}
        if hit_ms:
            db.execute(
                f"INSERT INTO moved_hit SELECT id, :ball, :hit FROM ({ROWS_OF_FILM}) WHERE true"
                " ON CONFLICT (film_id, ball_id) DO UPDATE SET hit_ms = :hit",
                values,
            )
        else:
            db.execute(
                f"DELETE FROM moved_hit WHERE ball_id = :ball AND film_id IN ({ROWS_OF_FILM})",
                values,
            )
