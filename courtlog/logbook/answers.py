"""A player's answers from the book: the stroke's balls looked up, then handed to coaching."""

from __future__ import annotations

from datetime import date

from courtlog.coaching.answer import StrokeAnswer, stroke_answer
from courtlog.coaching.rounds import Purpose
from courtlog.logbook import day_lookups, history_lookups, lookups
from courtlog.logbook.opening import Book


def answers(
    book: Book, clinic_id: int, player_id: int, until: date | None = None
) -> list[StrokeAnswer]:
    """An answer for each stroke the player hit, the one with most balls first.

    Its cues are those watched after choosing, in stroke order; all while there is only choosing.
    """
    days = lookups.days(book, clinic_id)
    dates = sorted({day.date for day in days if until is None or day.date <= until})
    order = list(day_lookups.cue_names(book))
    found = []
    for stroke in history_lookups.strokes_of(book, clinic_id, player_id):
        history = history_lookups.history(book, clinic_id, player_id, stroke, until)
        taught = history.where(lambda ball: ball.purpose is not Purpose.CHOOSING)
        watched = {cue for ball in (taught.balls or history.balls) for cue in ball.grades}
        cues = [key for on, key in order if on == stroke and key in watched]
        if history.balls:
            found.append(stroke_answer(history, dates, cues))
    return found
