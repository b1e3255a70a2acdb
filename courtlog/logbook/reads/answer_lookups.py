"""A player's strokes from the book, ready for coaching: balls, cues, the clinic's dates."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from courtlog.coaching.answers.ball_history import History
from courtlog.coaching.answers.player_answer import StrokeAnswer, stroke_answer
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import day_lookups, history_lookups, lookups


@dataclass(frozen=True, slots=True)
class StrokeHistory:
    """One stroke of a player: all balls, the cues watched after choosing, the dates so far.

    Which cue is judged first is the history's `main`.
    """

    history: History
    cues: tuple[str, ...]
    dates: tuple[date, ...]


def stroke_histories(
    book: Book, clinic_id: int, player_id: int, until: date | None = None
) -> list[StrokeHistory]:
    """Each stroke the player hit, the one with most balls first, cues in stroke order."""
    dates = lookups.dates(book, clinic_id, until)
    order = list(day_lookups.cue_names(book))
    found = []
    for stroke in history_lookups.strokes_of(book, clinic_id, player_id):
        history = history_lookups.history(book, clinic_id, player_id, stroke, until)
        watched = {cue for ball in history_lookups.watched_balls(history) for cue in ball.grades}
        cues = tuple(key for on, key in order if on == stroke and key in watched)
        if history.balls:
            found.append(StrokeHistory(history, cues, tuple(dates)))
    return found


def answers(
    book: Book, clinic_id: int, player_id: int, until: date | None = None
) -> list[StrokeAnswer]:
    """An answer for each stroke the player hit, the one with most balls first."""
    return [
        stroke_answer(past.history, past.dates, past.cues)
        for past in stroke_histories(book, clinic_id, player_id, until)
    ]
