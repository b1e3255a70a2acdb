"""How far each player has come before a day: what the plan for that day starts from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

from courtlog.coaching.answers.ball_history import BallKind, History
from courtlog.coaching.game.people import Player
from courtlog.coaching.plans.day_plan import StrokeStanding, where_left
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import day_lookups, lookups
from courtlog.logbook.reads.answer_lookups import StrokeHistory, stroke_histories
from courtlog.logbook.reads.care_lookups import ask_first_on, held_back_on
from courtlog.logbook.rows.ids import in_time


def roster_progress(
    book: Book, clinic_id: int, on: date, fresh: BallKind | None, stroke: str | None = None
) -> list[StrokeStanding]:
    """Everyone on the roster before a date, on the stroke named or the main one.

    `fresh` is the drill of those who have no ball yet; without it they are left out.
    """
    until = on - timedelta(days=1)
    held_back, ask_first = held_back_on(book, clinic_id, on), ask_first_on(book, clinic_id, on)
    found = []
    for player in lookups.players(book, clinic_id):
        past = stroke_histories(book, clinic_id, player.id, until)
        if stroke is not None:
            past = [one for one in past if one.history.stroke == stroke]
        standing = progress_of(book, clinic_id, player, past, until, fresh)
        if standing is not None:
            found.append(
                replace(
                    standing,
                    held_back=held_back.get(player.id, ""),
                    ask_first=ask_first[player.id].words if player.id in ask_first else "",
                )
            )
    return found


def progress_of(
    book: Book,
    clinic_id: int,
    player: Player,
    past: Sequence[StrokeHistory],
    until: date,
    fresh: BallKind | None = None,
) -> StrokeStanding | None:
    """One player after the balls of a date, from the strokes hit until then."""
    main = main_stroke(past)
    history = History(fresh.drill.partition("/")[0], ()) if fresh and not main else None
    history = main.history if main else history
    at = where_left(history) if history and history.balls else fresh
    if history is None or at is None:
        return None
    put_down, limit = book.db.execute(
        "SELECT next_drill, ball_limit FROM roster WHERE clinic_id = ? AND player_id = ?",
        [clinic_id, player.id],
    ).fetchone()
    return StrokeStanding(
        player=player,
        balls=day_lookups.balls_until(book, clinic_id, player.id, until),
        history=history,
        cues=main.cues if main else (),
        left_on=at,
        put_down=put_down,
        limit=limit,
    )


def main_stroke(past: Sequence[StrokeHistory]) -> StrokeHistory | None:
    """Of the strokes hit on the player's last day the one with most balls in the clinic.

    `past` has the stroke with most balls first; None without any.
    """
    last = max((one.history.balls[-1].day for one in past), default=None)
    return next((one for one in past if one.history.balls[-1].day == last), None)


def latest_drill(
    book: Book, clinic_id: int, on: date, stroke: str | None = None
) -> BallKind | None:
    """The drill last on court up to a date: in this clinic, else in the book; None in a new one."""
    for whose in ("=", "<>"):  # other clinics, which may be many, are looked at last
        row = book.db.execute(
            "SELECT drill_used.name, rung, feed FROM day JOIN round ON day_id = day.id"
            " JOIN drill_used ON drill_used.id = drill_id"
            f" WHERE clinic_id {whose} :clinic AND date <= :on"
            " AND (:stroke IS NULL OR stroke = :stroke)"
            f" ORDER BY date DESC, {in_time('round', descending=True)} LIMIT 1",
            {"clinic": clinic_id, "on": on.isoformat(), "stroke": stroke},
        ).fetchone()
        if row is not None:
            drill, rung, feed = row
            return BallKind(drill, rung, feed, tough=False)
    return None
