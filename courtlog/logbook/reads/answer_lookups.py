"""A player's strokes from the book, ready for coaching: balls, cues, the clinic's dates."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from courtlog.coaching.answers.ball_history import History
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import day_lookups, history_lookups, lookups

if TYPE_CHECKING:
    # It loads numpy, and the court asks for histories without it.
    from courtlog.coaching.answers.player_answer import StrokeAnswer


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
    order = list(day_lookups.cue_names(book))
    dates = tuple(lookups.dates(book, clinic_id, until))
    pasts = [
        history_lookups.history(book, clinic_id, player_id, stroke, until)
        for stroke in history_lookups.strokes_of(book, clinic_id, player_id)
    ]
    return [StrokeHistory(past, _watched(past, order), dates) for past in pasts if past.balls]


def stroke_history(
    book: Book, clinic_id: int, player_id: int, stroke: str, until: date
) -> StrokeHistory:
    """One of them; without a ball where the player never hit the stroke."""
    past = history_lookups.history(book, clinic_id, player_id, stroke, until)
    dates = tuple(lookups.dates(book, clinic_id, until))
    return StrokeHistory(past, _watched(past, list(day_lookups.cue_names(book))), dates)


def answers(
    book: Book, clinic_id: int, player_id: int, until: date | None = None
) -> list[StrokeAnswer]:
    """An answer for each stroke the player hit, the one with most balls first."""
    # It loads numpy, and the court asks for histories without it.
    from courtlog.coaching.answers.player_answer import stroke_answer

    return [
        stroke_answer(past.history, past.dates, past.cues)
        for past in stroke_histories(book, clinic_id, player_id, until)
    ]


def _watched(history: History, order: Sequence[tuple[str, str]]) -> tuple[str, ...]:
    """The cues that the balls say matter, in the order of strokes and cues that is given."""
    watched = {cue for ball in history_lookups.watched_balls(history) for cue in ball.grades}
    return tuple(key for stroke, key in order if stroke == history.stroke and key in watched)
