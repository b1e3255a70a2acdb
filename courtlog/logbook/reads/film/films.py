"""The films that a book knows: name, length, start, and how the start is known."""

from __future__ import annotations

import json
from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace

from courtlog.film.film_start import StartSource
from courtlog.logbook.file.book import Book


@dataclass(frozen=True, slots=True)
class Film:
    """One film of a clinic; moments and lengths are milliseconds, moments UTC since 1970."""

    id: int
    name: str
    """The file's name without its folder."""
    fingerprint: str
    """The same for a copy of the file under any name."""
    length_ms: int
    began_ms: int
    """The start by the book's clock."""
    source: StartSource
    """How the start is known."""
    hit_ms: int
    """By how much the hit is moved in all clips of it."""

    @property
    def ended_ms(self) -> int:
        """The moment at which it ends."""
        return self.began_ms + self.length_ms


ROWS_OF_FILM = (
    "SELECT same.id FROM film JOIN film AS same ON same.id = film.id"
    " OR (same.clinic_id = film.clinic_id AND same.fingerprint = film.fingerprint"
    " AND film.fingerprint != '')"
    " WHERE film.id = :film"
)
"""The rows that joined books have of one film, by the id of any of them."""


@dataclass(frozen=True, slots=True)
class HitMoves:
    """A film with all that is known of by how much the hits on it are moved."""

    film: Film
    moved: Mapping[int, int]
    """By how much single balls are moved beyond the film, by the ball's id."""

    def of(self, ball_id: int) -> int:
        """By how much a ball's hit is moved, for the film and for the ball together."""
        return self.film.hit_ms + self.moved.get(ball_id, 0)

    @property
    def reach(self) -> tuple[int, int]:
        """The first and the last moment at which a ball of the film can have been rated."""
        farthest = abs(self.film.hit_ms) + max(map(abs, self.moved.values()), default=0)
        return self.film.began_ms - farthest, self.film.ended_ms + farthest


_COLUMNS = "id, name, fingerprint, length_ms, began_at, known_by, hit_ms"


def films(book: Book, clinic_id: int) -> list[Film]:
    """The clinic's films by their start.

    Joined books may both have one: then the surest start counts, and of equal ones the latest. Its
    hits stay moved as any of these rows has them, so that a joining forgets no move.
    """
    rows = book.db.execute(f"SELECT {_COLUMNS} FROM film WHERE clinic_id = ?", [clinic_id])
    kept: dict[object, Film] = {}
    for film in sorted(map(_film, rows), key=_sureness):
        same = film.fingerprint or film.id
        hit_ms = film.hit_ms or (kept[same].hit_ms if same in kept else 0)
        kept[same] = replace(film, hit_ms=hit_ms)
    return sorted(kept.values(), key=lambda film: (film.began_ms, film.id))


def moved_hits(book: Book, film_id: int) -> dict[int, int]:
    """By how much the hit of single balls is moved in this film, by the ball's id.

    The film's other rows in joined books count too, its own row before them.
    """
    rows = book.db.execute(
        f"SELECT ball_id, hit_ms FROM moved_hit WHERE film_id IN ({ROWS_OF_FILM})"
        " ORDER BY film_id = :film, film_id",
        {"film": film_id},
    )
    return dict(rows.fetchall())


def hit_moves(book: Book, film: Film) -> HitMoves:
    """The film with its moved hits."""
    return HitMoves(film, moved_hits(book, film.id))


def clip_marks(book: Book, clinic_id: int) -> list[int]:
    """The moments of the clinic's clip marks, in order."""
    rows = book.db.execute(
        "SELECT clip_at FROM day JOIN round ON round.day_id = day.id"
        " JOIN ball ON ball.round_id = round.id AND clip_at IS NOT NULL"
        " WHERE clinic_id = ? ORDER BY clip_at",
        [clinic_id],
    )
    return [at for (at,) in rows]


def films_of_person(book: Book, ids: Collection[int]) -> list[str]:
    """The names of all films that run while the first key of a ball of this person came."""
    rows = book.db.execute(
        "SELECT DISTINCT film.name FROM film JOIN day ON day.clinic_id = film.clinic_id"
        " JOIN round ON round.day_id = day.id JOIN ball ON ball.round_id = round.id"
        " WHERE player_id IN (SELECT value FROM json_each(?))"
        " AND (SELECT min(at) FROM journal WHERE ball_id = ball.id)"
        " BETWEEN began_at AND began_at + length_ms ORDER BY film.name",
        [json.dumps(sorted(ids))],
    )
    return [name for (name,) in rows]


def _film(row: tuple[object, ...]) -> Film:
    film_id, name, fingerprint, length, began, source, hit = row
    return Film(film_id, name, fingerprint, length, began, StartSource(str(source)), hit)  # type: ignore[arg-type] # as the schema says


def _sureness(film: Film) -> tuple[int, int]:
    return -film.source.doubt, film.id
