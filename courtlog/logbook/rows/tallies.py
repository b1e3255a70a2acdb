"""Day-by-cue counts: one SELECT says what a tally is; it is kept ball by ball and can be proved."""

from __future__ import annotations

import sqlite3

_COUNTED = """
SELECT round.player_id, drill_used.stroke, round_cue.cue, round.day_id, round.drill_id,
       round.purpose, counted.tough,
       {sign} * sum(missed) AS missed, {sign} * sum(near) AS near,
       {sign} * sum(made) AS made, {sign} * sum(unseen) AS unseen
FROM (
    SELECT round_id, round_cue.row, tough,
           sum(grade IS 0) AS missed, sum(grade IS 1) AS near,
           sum(grade IS 2) AS made, sum(grade IS NULL) AS unseen
    FROM ball
    JOIN round_cue USING (round_id)
    LEFT JOIN rating ON rating.ball_id = ball.id AND rating.row = round_cue.row
    WHERE ball.taken AND {which}
    GROUP BY 1, 2, 3
) AS counted
JOIN round ON round.id = counted.round_id
JOIN drill_used ON drill_used.id = round.drill_id
JOIN round_cue USING (round_id, row)
GROUP BY 1, 2, 3, 4, 5, 6, 7
"""
"""Counted by round first: many balls are sorted by three small numbers, few rows by names."""

_ADD = """
INSERT INTO tally {counted}
ON CONFLICT DO UPDATE SET
    missed = missed + excluded.missed, near = near + excluded.near,
    made = made + excluded.made, unseen = unseen + excluded.unseen
"""

_BALL_IN = _ADD.format(counted=_COUNTED.format(sign="1", which="ball.id = ?"))
_BALL_OUT = _ADD.format(counted=_COUNTED.format(sign="-1", which="ball.id = ?"))
_ROUND_IN = _ADD.format(counted=_COUNTED.format(sign="1", which="round_id = ?"))
_ROUND_OUT = _ADD.format(counted=_COUNTED.format(sign="-1", which="round_id = ?"))
_DAY_IN = _ADD.format(
    counted=_COUNTED.format(sign="1", which="round_id IN (SELECT id FROM round WHERE day_id = ?)")
)
_ALL = _COUNTED.format(sign="1", which="true")


def count_ball(db: sqlite3.Connection, ball_id: int) -> None:
    """Add a taken ball to the tallies; an open one counts for nothing."""
    db.execute(_BALL_IN, [ball_id])


def uncount_ball(db: sqlite3.Connection, ball_id: int) -> None:
    """Take a taken ball out of the tallies, before anything about it changes."""
    db.execute(_BALL_OUT, [ball_id])


def count_round(db: sqlite3.Connection, round_id: int) -> None:
    """Add all taken balls of a round that was not counted yet."""
    db.execute(_ROUND_IN, [round_id])


def uncount_round(db: sqlite3.Connection, round_id: int) -> None:
    """Take all taken balls of a round out of the tallies, before anything about it changes."""
    db.execute(_ROUND_OUT, [round_id])


def count_day(db: sqlite3.Connection, day_id: int) -> None:
    """Add all taken balls of a day of which none was counted yet."""
    db.execute(_DAY_IN, [day_id])


def forget_zeros(db: sqlite3.Connection) -> None:
    """Delete tallies whose balls have all moved elsewhere."""
    db.execute("DELETE FROM tally WHERE NOT (missed OR near OR made OR unseen)")


def recount(db: sqlite3.Connection) -> None:
    """Count all balls again."""
    db.execute("DELETE FROM tally")
    db.execute(_ADD.format(counted=_ALL))


def proof(db: sqlite3.Connection) -> list[tuple[object, ...]]:
    """Rows in which the kept tallies and a recount of all balls differ; none when all is well."""
    kept = set(db.execute("SELECT * FROM tally WHERE missed OR near OR made OR unseen").fetchall())
    return sorted(kept ^ set(db.execute(_ALL).fetchall()), key=repr)
