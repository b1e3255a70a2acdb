"""Ball numbers of a round: 1, 2, 3 in the order in which the balls came; below 0 when struck out.

Ids rise with time, so their order is that of the balls, whichever round they went through.
"""

from __future__ import annotations

import sqlite3

_ORDER = (
    "CASE WHEN taken THEN 0 WHEN tough OR clip_at IS NOT NULL THEN 1"
    " ELSE 1 + NOT EXISTS (SELECT 1 FROM rating WHERE ball_id = ball.id) END, id"
)

_FAR = 10**9
"""Further than any round's balls reach."""


def renumber(db: sqlite3.Connection, round_id: int) -> None:
    """Number a round's balls again: taken ones, the open one, then any taken back to nothing."""
    rows = db.execute(
        f"SELECT id, number FROM ball WHERE round_id = ? ORDER BY {_ORDER}", [round_id]
    ).fetchall()
    kept = [ball for ball, number in rows if number > 0]
    struck = [ball for ball, number in rows if number < 0]
    wanted = [(place, ball) for place, ball in enumerate(kept, 1)]
    wanted += [(-place, ball) for place, ball in enumerate(struck, 1)]
    # First far out of the way: no two balls of a round may share a number for a moment.
    for far in (_FAR, 0):
        db.executemany(
            "UPDATE ball SET number = ? WHERE id = ?",
            [(place + far if place > 0 else place - far, ball) for place, ball in wanted],
        )


def renumber_all(db: sqlite3.Connection) -> int:
    """The same in every round that needs it; how many balls got another number."""
    db.execute(
        "CREATE TEMP TABLE counted AS SELECT * FROM (SELECT id, number AS had, row_number() OVER"
        f" (PARTITION BY round_id, number < 0 ORDER BY {_ORDER})"
        " * CASE WHEN number < 0 THEN -1 ELSE 1 END AS counted FROM ball) WHERE had <> counted"
    )
    # Here too first far out of the way; ids are as far as anything.
    db.execute(
        "UPDATE ball SET number = CASE WHEN had < 0 THEN -ball.id ELSE ball.id END"
        " FROM temp.counted WHERE ball.id = counted.id"
    )
    db.execute("UPDATE ball SET number = counted FROM temp.counted WHERE ball.id = counted.id")
    (changed,) = db.execute("SELECT count(*) FROM temp.counted").fetchone()
    db.execute("DROP TABLE temp.counted")
    return int(changed)
