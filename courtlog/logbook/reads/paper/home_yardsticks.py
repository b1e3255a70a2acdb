"""The yardsticks that somebody else watched at home, as the book holds them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from courtlog.coaching.answers.ball_history import BallKind
from courtlog.coaching.game.rounds import Ball
from courtlog.coaching.paper.home_yardstick import HomeYardstickRecord
from courtlog.logbook.file.book import Book
from courtlog.names import folded_name


@dataclass(frozen=True, slots=True)
class HomeYardstick:
    """One of them: its row, its stroke, its kind of ball, and what was written."""

    id: int
    stroke: str
    kind: BallKind
    record: HomeYardstickRecord


def home_yardsticks(book: Book, clinic_id: int, player_id: int) -> list[HomeYardstick]:
    """The player's in this clinic by date; what joined books have twice is once."""
    rows = book.db.execute(
        "SELECT home_yardstick.id, stroke, name, rung, feed, date, watcher, cues, balls"
        " FROM home_yardstick JOIN drill_used ON drill_used.id = drill_id"
        " WHERE clinic_id = ? AND player_id = ? AND NOT taken_back"
        " ORDER BY date, home_yardstick.id",
        [clinic_id, player_id],
    )
    found: dict[object, HomeYardstick] = {}
    for row, stroke, name, rung, feed, on, watcher, cue_keys, tokens in rows:
        cues = tuple(cue_keys.split())
        record = HomeYardstickRecord(
            on=date.fromisoformat(on),
            watcher=watcher,
            cues=cues,
            balls=tuple(Ball.from_token(token, len(cues)) for token in tokens.split()),
        )
        one = HomeYardstick(row, stroke, BallKind(name, rung, feed, False), record)
        same = (name, record.on, folded_name(watcher), record.cues, record.balls)
        found.setdefault(same, one)
    return list(found.values())


def other_version(
    book: Book, clinic_id: int, player_id: int, drill: str, record: HomeYardstickRecord
) -> HomeYardstick | None:
    """The one of the same drill, date and watcher in the book already; None without one.

    Where several are there, the one with the same balls.
    """
    fitting = [
        one
        for one in home_yardsticks(book, clinic_id, player_id)
        if one.kind.drill == drill
        and one.record.on == record.on
        and folded_name(one.record.watcher) == folded_name(record.watcher)
    ]
    same = [one for one in fitting if one.record.is_same(record)]
    return next(iter(same or fitting), None)
