"""Putting a ball right: other grades for it, or striking it out; each is one amendment."""

from __future__ import annotations

import sqlite3

from courtlog.coaching.game.rounds import Ball
from courtlog.errors import BookError
from courtlog.logbook.file.book import Book
from courtlog.logbook.rows.journal import state_text
from courtlog.logbook.writes.amendments import (
    AmendedValue,
    AmendmentKind,
    current_ball,
    open_amendment,
)
from courtlog.logbook.writes.round_repairs import (
    count_taken,
    keep_spots,
    round_value,
    spots_by_ball,
    taken_balls,
)
from courtlog.plain_text import many


def amend_ball(book: Book, round_id: int, number: int, ball: Ball, who: str, at_ms: int) -> None:
    """Give a taken ball other grades, or make it tough or not; a clip mark stays.

    The journal has it as a key, so that Backspace in that round takes it back like one.
    """
    row = _rated_ball(book.db, round_id, number)
    now, _ = current_ball(book.db, row)
    if len(ball.grades) != len(now.grades):
        raise BookError(f"This round has {many(len(now.grades), 'cue')}.")
    after = Ball(ball.grades, ball.tough, now.clip)
    if after == now:
        return
    with open_amendment(book, AmendmentKind.BALL, (round_id,), who, at_ms) as amendment:
        amendment.change(AmendedValue.STATE, row, state_text(after, False))


def strike_ball(book: Book, round_id: int, number: int, who: str, at_ms: int) -> None:
    """Strike out a ball that should not count; the ones after it move up.

    Where every second ball is rated, the ball fed after it is struck out too.
    """
    row = _rated_ball(book.db, round_id, number)
    rows = [row, *_fed_between(book.db, round_id, number)]
    with open_amendment(book, AmendmentKind.STRIKE, (round_id,), who, at_ms) as amendment:
        spots = spots_by_ball(amendment.db, round_id)
        for row in rows:
            amendment.change(AmendedValue.STRUCK, row, 1)
        keep_spots(amendment, round_id, spots)


def _rated_ball(db: sqlite3.Connection, round_id: int, number: int) -> int:
    """The id of a taken ball that is rated. Raises BookError."""
    if round_value(db, round_id, "rate_every") == 2 and number % 2 == 0:
        raise BookError(f"Ball {number} was fed in between and is not rated.")
    return taken_balls(db, round_id, [number])[0]


def _fed_between(db: sqlite3.Connection, round_id: int, number: int) -> list[int]:
    """The ball fed after this one, where every second ball is rated."""
    if round_value(db, round_id, "rate_every") == 1 or number >= count_taken(db, round_id):
        return []
    return taken_balls(db, round_id, [number + 1])
