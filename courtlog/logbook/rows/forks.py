"""Where two joined books went on with one ball, and which of these forks is decided."""

from __future__ import annotations

import sqlite3

FORKS = (
    "SELECT line.id, line.ball_id, last.after AS was, line.after FROM main.journal AS line"
    " JOIN main.journal AS last ON last.id = (SELECT max(id) FROM main.journal AS one"
    "   WHERE one.ball_id = line.ball_id AND one.id < line.id AND one.kind <> 'move')"
    " WHERE line.kind <> 'move' AND last.after <> line.before"
)
"""Lines that do not go on from the line before, and what that one left: two books' words."""


_DECIDED = "'journal', json_array(fork.id), 0, json_quote(fork.was)"


IS_DECIDED = f"(({_DECIDED}) IN (SELECT tbl, key, revision, reading FROM main.former))"
"""A fork that somebody decided: what the line before it left counts among former readings."""


def decide_forks(db: sqlite3.Connection, ball: int) -> None:
    """Somebody has put the ball right, or said that it is right, since it was joined."""
    db.execute(
        f"INSERT OR IGNORE INTO former SELECT {_DECIDED} FROM ({FORKS}) AS fork WHERE ball_id = ?",
        [ball],
    )
