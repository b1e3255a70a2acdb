"""Look-ups of load: balls at full speed by stroke, session loads by date, the week before."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from courtlog.coaching.care.arm_load import at_full_speed
from courtlog.coaching.game.drills import Feed
from courtlog.logbook.file.opening import Book
from courtlog.logbook.rows.reds import check_ins_of
from courtlog.measures.court_day.load import session_load


def full_speed_hits(book: Book, clinic_id: int, player_id: int, on: date) -> Mapping[str, int]:
    """Balls taken at full speed on a date by stroke, the most hit first; nothing where none was."""
    rows = book.db.execute(
        "SELECT stroke, feed, rung, count(*) FROM day JOIN round ON round.day_id = day.id"
        " JOIN drill_used ON drill_used.id = drill_id"
        " JOIN ball ON ball.round_id = round.id AND taken"
        " WHERE clinic_id = ? AND date = ? AND player_id = ? GROUP BY stroke, feed, rung",
        [clinic_id, on.isoformat(), player_id],
    )
    found: dict[str, int] = {}
    for stroke, feed, rung, balls in rows:
        if at_full_speed(stroke, Feed(feed), rung):
            found[stroke] = found.get(stroke, 0) + balls
    return dict(sorted(found.items(), key=lambda row: (-row[1], row[0])))


def loads_by_date(book: Book, clinic_id: int, player_id: int) -> Mapping[date, float]:
    """Effort times minutes by date, for dates on which both were said."""
    found: dict[date, float] = {}
    for _, said in check_ins_of(book.db, clinic_id, player_id):
        effort, minutes = said.check_in.effort, said.check_in.minutes
        if effort is not None and minutes is not None:
            found[said.date] = found.get(said.date, 0.0) + session_load(effort, minutes)
    return found


def usual_week(book: Book, clinic_id: int, player_id: int) -> str:
    """The player's word on a usual week before the clinic; empty where nobody asked."""
    row = book.db.execute(
        "SELECT usual_week FROM roster WHERE clinic_id = ? AND player_id = ?",
        [clinic_id, player_id],
    ).fetchone()
    return "" if row is None else str(row[0])
