"""The balls that one film shows, as captions say them, without players who have not agreed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from courtlog.coaching.game.grades import LOOKS
from courtlog.coaching.game.people import Clinic
from courtlog.film.film_balls import FilmBall, window
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads.film.ball_moments import BallFilter, BallsInTime, TimedBall, timed_balls
from courtlog.logbook.reads.film.filming_consent import FilmingConsent, filming_consent
from courtlog.logbook.reads.film.films import Film, HitMoves, hit_moves


@dataclass(frozen=True, slots=True)
class FilmedBalls:
    """What of the book a film shows."""

    balls: tuple[FilmBall, ...]
    """The balls in the film's order."""
    without_moment: int
    """Balls of the same dates without a key, such as those from a sheet."""
    not_agreed: dict[str, int]
    """Balls that are left out by the name of their player, who has not agreed to be filmed."""
    without_yes: tuple[str, ...]
    """All players of the clinic without a yes: they may be seen behind somebody else's ball."""


def filmed_balls(book: Book, clinic: Clinic, film: Film, wanted: BallFilter) -> FilmedBalls:
    """The balls of the clinic that this film shows and that are asked for."""
    (shown,) = balls_of_films(book, clinic, [film], wanted)
    return shown


def balls_of_films(
    book: Book, clinic: Clinic, chosen: Sequence[Film], wanted: BallFilter
) -> list[FilmedBalls]:
    """The same for each of some films, with one look at the book's balls."""
    consent = filming_consent(book, clinic.id)
    return [
        _shown_by(moves, found, consent)
        for moves, found in balls_in_reach(book, clinic, chosen, wanted)
    ]


def balls_in_reach(
    book: Book, clinic: Clinic, chosen: Sequence[Film], wanted: BallFilter
) -> Iterator[tuple[HitMoves, BallsInTime]]:
    """Each film with the balls that it may show, looked up once for all of them.

    A film whose court is not known shows none: a ball of the other court may be somebody else's.
    """
    moves = [hit_moves(book, film) for film in chosen]
    if moves:
        begins, ends = zip(*(film.reach for film in moves), strict=True)
        balls = timed_balls(book, clinic, min(begins), max(ends), wanted)
        for one in moves:
            found = balls.within(*one.reach, one.film.court)
            yield one, found if one.film.court is not None else replace(found, balls=())


def _shown_by(moves: HitMoves, found: BallsInTime, consent: FilmingConsent) -> FilmedBalls:
    film = moves.film
    shown, left_out = [], Counter[str]()
    for ball in found.balls:
        key_at = ball.first_key_at + moves.of(ball.ball_id)
        place = window(key_at, film.began_ms, film.length_ms)
        if place is None:
            continue
        if ball.player_id in consent.agreed:
            shown.append(_film_ball(ball, *place))
        else:
            left_out[ball.player] += 1
    others = tuple(one.player for one in consent.not_agreed.values())
    return FilmedBalls(tuple(shown), found.without_moment, dict(left_out), others)


def _film_ball(ball: TimedBall, start_ms: int, end_ms: int) -> FilmBall:
    return FilmBall(
        start_ms=start_ms,
        end_ms=end_ms,
        player=ball.player,
        drill=ball.drill,
        number=ball.number,
        cues=tuple((cue.name, LOOKS[cue.grade].word) for cue in ball.cues),
        tough=ball.tough,
        marked=ball.marked,
    )
