"""The films that a book knows: name, length, start, and how the start is known."""

from __future__ import annotations

import json
from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace

from courtlog import times
from courtlog.coaching.game.court_book import court_order
from courtlog.film.film_start import StartSource
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups


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
    court: str | None
    """The court that it shows; None where nobody has said and several were open."""

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
    hits stay moved as any of these rows has them, so that a joining forgets no move. Its court is
    the one said last of any of them, else the only one that was open then.
    """
    rows = book.db.execute(f"SELECT {_COLUMNS} FROM film WHERE clinic_id = ?", [clinic_id])
    kept: dict[str | int, Film] = {}
    rows_of: dict[str | int, set[int]] = {}
    for film in sorted(map(_film, rows), key=_sureness):
        same = film.fingerprint or film.id
        hit_ms = film.hit_ms or (kept[same].hit_ms if same in kept else 0)
        kept[same] = replace(film, hit_ms=hit_ms)
        rows_of.setdefault(same, set()).add(film.id)
    said = _said_courts(book, clinic_id)
    found = []
    for same, film in kept.items():
        of_film = [said[row] for row in rows_of[same] if row in said]
        court = max(of_film)[2] if of_film else _only_court(book, clinic_id, film)
        found.append(replace(film, court=court))
    return sorted(found, key=lambda film: (film.began_ms, film.id))


def courts_open(book: Book, clinic_id: int, begin: int, end: int) -> list[str]:
    """The courts that a film of that time may show, in their order.

    Those with a ball that was rated then, and those that players were dealt to on its date: their
    book may not have come yet.
    """
    on = times.local_date(begin, lookups.clinic(book, clinic_id).place)
    rows = book.db.execute(
        "SELECT court FROM day JOIN round ON round.day_id = day.id"
        " JOIN ball ON ball.round_id = round.id AND taken WHERE clinic_id = ? AND taken_at >= ?"
        " AND coalesce((SELECT min(at) FROM journal WHERE ball_id = ball.id), taken_at) <= ?"
        " UNION SELECT court FROM player_court WHERE clinic_id = ? AND date = ?",
        [clinic_id, begin, end, clinic_id, on.isoformat()],
    )
    return sorted((court for (court,) in rows), key=court_order)


def _said_courts(book: Book, clinic_id: int) -> dict[int, tuple[int, int, str]]:
    """What was said last of each row's court, by the row of the film: moment, id and court."""
    rows = book.db.execute(
        "SELECT film_id, at, id, court FROM film_court WHERE clinic_id = ? ORDER BY at, id",
        [clinic_id],
    )
    return {film_id: (at, row, court) for film_id, at, row, court in rows}


def _only_court(book: Book, clinic_id: int, film: Film) -> str | None:
    could = courts_open(book, clinic_id, film.began_ms, film.ended_ms)
    return could[0] if len(could) == 1 else None


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
        " BETWEEN began_at AND began_at + length_ms"
        # One of which nobody said the court is named of all courts.
        " AND coalesce((SELECT court FROM film_court WHERE film_id = film.id"
        " ORDER BY at DESC, id DESC LIMIT 1), day.court) = day.court ORDER BY film.name",
        [json.dumps(sorted(ids))],
    )
    return [name for (name,) in rows]


def _film(row: tuple[object, ...]) -> Film:
    film_id, name, fingerprint, length, began, source, hit = row
    return Film(film_id, name, fingerprint, length, began, StartSource(str(source)), hit, None)  # type: ignore[arg-type] # as the schema says


def _sureness(film: Film) -> tuple[int, int]:
    return -film.source.doubt, film.id
