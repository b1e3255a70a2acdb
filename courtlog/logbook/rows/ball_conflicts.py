"""Where two joined books went on with one ball, and which of these forks is decided."""

from __future__ import annotations

import sqlite3

FORKS = (
    "SELECT line.id, line.ball_id, last.after AS was, line.after FROM main.journal AS line"
    " JOIN main.journal AS last ON last.id = (SELECT max(id) FROM main.journal AS one"
    "   WHERE one.ball_id = line.ball_id AND one.id < line.id AND one.kind <> 'move')"
    " WHERE line.kind <> 'move' AND last.after <> line.before"
)
"""Journal lines that do not begin where the line before them ended: two books changed one ball."""


_DECIDED = "'journal', json_array(fork.id), 0, json_quote(fork.was)"


IS_DECIDED = f"(({_DECIDED}) IN (SELECT tbl, key, revision, reading FROM main.former))"
"""Whether a fork was decided: then what the line before it left is among the former versions."""


def decide_forks(db: sqlite3.Connection, ball: int) -> None:
    """Note that the ball is right as it is: somebody amended or confirmed it after the joining."""
    db.execute(
        f"INSERT OR IGNORE INTO former SELECT {_DECIDED} FROM ({FORKS}) AS fork WHERE ball_id = ?",
        [ball],
    )
