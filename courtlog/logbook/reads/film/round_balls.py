"""The balls of some rounds by their numbers, with spot and moment, and the films that show them."""

from __future__ import annotations

import json
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from courtlog.coaching.game.people import Clinic
from courtlog.film.film_balls import HIT_BEFORE_KEY_MS, window
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.logbook.reads.film.ball_moments import first_keys
from courtlog.logbook.reads.film.films import Film, HitMoves, films, hit_moves
from courtlog.logbook.rows.feed_rows import order_of


@dataclass(frozen=True, slots=True, kw_only=True)
class FilmPlace:
    """Where a film shows a ball; milliseconds from the film's beginning."""

    film: Film
    start_ms: int
    """Where its window begins."""
    hit_ms: int
    """Where the hit is."""
    end_ms: int
    """Where its window ends."""
    moved_ms: int
    """By how much the book has moved the hit, for the film and for the ball together."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundBall:
    """A taken ball of a round."""

    ball_id: int
    number: int
    """Its place in the round, from 1."""
    of: int
    """How many balls the round has."""
    tough: bool
    drill: str
    """The drill's name as shown."""
    spot: int
    """The spot's place in the drill, from 0; -1 where nobody knows it."""
    spot_words: str
    """The spot in words; empty where nobody knows it."""
    court: str
    """The court of its day."""
    first_key_at: int | None
    """The moment of its first key, milliseconds UTC; None for a ball from a sheet."""


_ROUNDS = (
    "SELECT round.id, card, feed_order, court,"
    " (SELECT count(*) FROM ball WHERE round_id = round.id AND taken)"
    " FROM round JOIN drill_used ON drill_used.id = drill_id JOIN day ON day.id = day_id"
    " WHERE round.id IN (SELECT value FROM json_each(?))"
)
_BALLS = (
    "SELECT id, round_id, number, tough FROM ball"
    " WHERE taken AND round_id IN (SELECT value FROM json_each(?))"
)


def round_balls(book: Book, rounds: Collection[int]) -> dict[tuple[int, int], RoundBall]:
    """The taken balls of these rounds, by round and number."""
    ids = json.dumps(sorted(rounds))
    fed = {}
    for round_id, card, order, court, count in book.db.execute(_ROUNDS, [ids]):
        drill = lookups.used_drill(card).drill
        fed[round_id] = (drill.name, drill.spots, order_of(order), count, court)
    rows = book.db.execute(_BALLS, [ids]).fetchall()
    keys = first_keys(book, [row[0] for row in rows])
    balls = {}
    for ball_id, round_id, number, tough in rows:
        name, spots, order, count, court = fed[round_id]
        spot = _spot(order, number, len(spots))
        balls[round_id, number] = RoundBall(
            ball_id=ball_id,
            number=number,
            of=count,
            tough=bool(tough),
            drill=name,
            spot=spot,
            spot_words=spots[spot] if spot >= 0 else "",
            court=court,
            first_key_at=keys.get(ball_id),
        )
    return balls


def film_places(
    book: Book, clinic: Clinic, balls: Collection[RoundBall]
) -> Mapping[int, FilmPlace]:
    """For each ball that a film of its court shows with its hit, where; by the ball's id.

    Of several films it is the one whose start is known best, then the one that shows most of it.
    """
    known = [hit_moves(book, film) for film in films(book, clinic.id)]
    places = {}
    for ball in balls:
        of_ball = [place for moves in known if (place := _place(moves, ball)) is not None]
        if of_ball:
            places[ball.ball_id] = min(of_ball, key=_worth)
    return places


def _place(moves: HitMoves, ball: RoundBall) -> FilmPlace | None:
    if ball.first_key_at is None or ball.court != moves.film.court:
        return None
    film, moved_ms = moves.film, moves.of(ball.ball_id)
    key_at = ball.first_key_at + moved_ms
    span = window(key_at, film.began_ms, film.length_ms)
    hit_ms = key_at - film.began_ms - HIT_BEFORE_KEY_MS
    if span is None or hit_ms < 0:
        return None
    return FilmPlace(film=film, start_ms=span[0], hit_ms=hit_ms, end_ms=span[1], moved_ms=moved_ms)


def _worth(place: FilmPlace) -> tuple[int, int, int]:
    return (
        place.film.source.doubt,
        place.start_ms - place.end_ms,
        place.film.began_ms,
    )


def _spot(order: Sequence[int], number: int, spots: int) -> int:
    if spots == 1:
        return 0
    spot = order[(number - 1) % len(order)] if order else -1
    return spot if spot < spots else -1
