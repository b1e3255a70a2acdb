"""Where balls of the book lie on its films with all of their window, as clips are cut from them."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from courtlog.coaching.game.people import Clinic
from courtlog.film.film_balls import AFTER_KEY_MS, BEFORE_KEY_MS
from courtlog.film.film_start import StartSource
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads.film.ball_moments import BallFilter, balls_in_time
from courtlog.logbook.reads.film.films import Film, films, moved_hits


@dataclass(frozen=True, slots=True)
class BallWindow:
    """A ball's window on one film, in milliseconds from the film's beginning."""

    film: Film
    start_ms: int
    end_ms: int


def whole_windows(book: Book, clinic: Clinic, player_id: int) -> dict[int, tuple[BallWindow, ...]]:
    """The windows of the player's balls by ball, the surest film first; none is cut short."""
    windows: dict[int, list[BallWindow]] = {}
    for film in sorted(films(book, clinic.id), key=_sureness):
        moved = moved_hits(book, film.id)
        farthest = _farthest(moved.values()) + abs(film.hit_ms)
        begin, end = film.began_ms - farthest, film.ended_ms + farthest
        for ball in balls_in_time(book, clinic, begin, end, BallFilter(player_id=player_id)).balls:
            key_at = ball.first_key_at + film.hit_ms + moved.get(ball.ball_id, 0) - film.began_ms
            start_ms, end_ms = key_at - BEFORE_KEY_MS, key_at + AFTER_KEY_MS
            if start_ms >= 0 and end_ms <= film.length_ms:
                window = BallWindow(film, start_ms, end_ms)
                windows.setdefault(ball.ball_id, []).append(window)
    return {ball: tuple(of_ball) for ball, of_ball in windows.items()}


def _farthest(moves: Collection[int]) -> int:
    return max(map(abs, moves), default=0)


def _sureness(film: Film) -> int:
    return list(StartSource).index(film.source)
