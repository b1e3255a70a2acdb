"""Balls of two books: a ball is what the last line of its whole journal says.

Ids go up along the life of a book, so the lines of one book stand in their order. Where both books
went on with one ball, the line with the highest id has the last word, and the other reading shows
as a line that does not begin where the one before it ended.
"""

from __future__ import annotations

from dataclasses import dataclass

from courtlog.errors import BookError
from courtlog.logbook.database import Database
from courtlog.logbook.journal import ball_state

FORKS = (
    "SELECT ball_id, was, after FROM (SELECT ball_id, before, after,"
    " lag(after) OVER (PARTITION BY ball_id ORDER BY id) AS was"
    " FROM main.journal WHERE kind <> 'move') WHERE was <> before"
)


@dataclass(frozen=True, slots=True)
class Came:
    """New balls, and new lines of the journal."""

    balls: int
    keys: int


def join_balls(db: Database) -> Came:
    """Take in balls, grades and journal of the attached book `theirs`."""
    clash = db.execute(
        "SELECT count(*) FROM main.journal AS ours JOIN theirs.journal AS other USING (id)"
        " WHERE (ours.ball_id, ours.kind, ours.before, ours.after, ours.at)"
        " IS NOT (other.ball_id, other.kind, other.before, other.after, other.at)"
    ).fetchone()[0]
    if clash:
        raise BookError(
            f"The two books give the same number to different keys ({clash}).",
            "They cannot be joined; nothing was changed.",
        )
    db.execute(
        "CREATE TEMP TABLE line_came AS SELECT id, ball_id FROM theirs.journal"
        " WHERE id NOT IN (SELECT id FROM main.journal)"
    )
    db.execute(
        "CREATE TEMP TABLE ball_came AS SELECT id FROM theirs.ball"
        " WHERE id NOT IN (SELECT id FROM main.ball)"
    )
    went_on = [
        row
        for (row,) in db.execute(
            "SELECT DISTINCT ball_id FROM line_came WHERE ball_id IN (SELECT id FROM main.ball)"
        )
    ]
    db.execute(
        "INSERT INTO main.ball (id, round_id, number, taken, tough, clip_at, taken_at)"
        " SELECT id, round_id, -id, taken, tough, clip_at, taken_at FROM theirs.ball"
        " WHERE id IN (SELECT id FROM ball_came)"
    )
    db.execute(
        "INSERT INTO main.rating SELECT * FROM theirs.rating"
        " WHERE ball_id IN (SELECT id FROM ball_came)"
    )
    db.execute(
        "INSERT INTO main.journal SELECT * FROM theirs.journal"
        " WHERE id IN (SELECT id FROM line_came)"
    )
    for ball in went_on:
        _retell(db, ball)
    (balls,), (keys,) = (
        db.execute(f"SELECT count(*) FROM {what}").fetchone() for what in ("ball_came", "line_came")
    )
    for table in ("line_came", "ball_came"):
        db.execute(f"DROP TABLE temp.{table}")
    return Came(balls, keys)


def _retell(db: Database, ball: int) -> None:
    """The ball as its whole journal tells it."""
    last, moved, taken_at = "", None, None
    for kind, before, after, at in db.execute(
        "SELECT kind, before, after, at FROM main.journal WHERE ball_id = ? ORDER BY id", [ball]
    ):
        if kind == "move":
            moved = int(after)
            continue
        last = after
        if before.endswith("?") and not after.endswith("?"):
            taken_at = at
    if moved is not None:
        db.execute("UPDATE ball SET round_id = ?, number = -id WHERE id = ?", [moved, ball])
    if not last:
        return
    state, is_open = ball_state(last)
    kept = "NULL" if is_open else "coalesce(?, taken_at)"
    db.execute(
        f"UPDATE ball SET taken = ?, tough = ?, clip_at = ?, taken_at = {kept} WHERE id = ?",
        [not is_open, state.tough, state.clip, *([] if is_open else [taken_at]), ball],
    )
    db.execute("DELETE FROM rating WHERE ball_id = ?", [ball])
    db.conn.executemany(
        "INSERT INTO rating VALUES (?, ?, ?)",
        [(ball, row, int(grade)) for row, grade in enumerate(state.grades) if grade is not None],
    )
