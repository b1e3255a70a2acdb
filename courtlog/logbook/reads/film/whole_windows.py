"""Where balls of the book lie on its films with all of their window, as clips are cut from them."""

from __future__ import annotations

from dataclasses import dataclass

from courtlog.coaching.game.people import Clinic
from courtlog.film.film_balls import AFTER_KEY_MS, BEFORE_KEY_MS
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads.film.ball_moments import BallFilter
from courtlog.logbook.reads.film.filmed_balls import balls_in_reach
from courtlog.logbook.reads.film.films import Film, films


@dataclass(frozen=True, slots=True)
class BallWindow:
    """A ball's window on one film, in milliseconds from the film's beginning."""

    film: Film
    start_ms: int
    end_ms: int


def whole_windows(book: Book, clinic: Clinic, player_id: int) -> dict[int, tuple[BallWindow, ...]]:
    """The windows of the player's balls by ball, the surest film first; none is cut short."""
    windows: dict[int, list[BallWindow]] = {}
    surest_first = sorted(films(book, clinic.id), key=lambda film: film.source.doubt)
    wanted = BallFilter(player_id=player_id)
    for moves, found in balls_in_reach(book, clinic, surest_first, wanted):
        film = moves.film
        for ball in found.balls:
            key_at = ball.first_key_at + moves.of(ball.ball_id) - film.began_ms
            start_ms, end_ms = key_at - BEFORE_KEY_MS, key_at + AFTER_KEY_MS
            if start_ms >= 0 and end_ms <= film.length_ms:
                window = BallWindow(film, start_ms, end_ms)
                windows.setdefault(ball.ball_id, []).append(window)
    return {ball: tuple(of_ball) for ball, of_ball in windows.items()}
