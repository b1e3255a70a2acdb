"""Join the balls of two books: a ball is what the last line of its whole journal says.

Ids only rise in the life of a book, so the lines of one book keep their order. Where both books
changed one ball, the line with the highest id decides. The other change shows as a fork: a line
that does not begin where the line before it ended (ball_conflicts.py).
"""

from __future__ import annotations

import sqlite3
from collections.abc import Set
from dataclasses import dataclass

from courtlog.errors import BookError
from courtlog.logbook.rows.journal import ball_state


@dataclass(frozen=True, slots=True)
class JoinedCounts:
    """New balls, and new lines of the journal."""

    balls: int
    keys: int


def join_balls(db: sqlite3.Connection, united: Set[int], whole: bool) -> JoinedCounts:
    """Take in balls, grades and journal of the attached book `theirs`.

    `united` are balls of sheets that both books had read in. `whole`: all of them come in as they
    are (other_book.py).
    """
    if whole:
        return _copy_whole_tables(db)
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
    for came, table in (("line_came", "journal"), ("ball_came", "ball")):
        db.execute(f"CREATE TEMP TABLE {came} (id INTEGER PRIMARY KEY)")
        db.execute(
            f"INSERT INTO {came} SELECT id FROM theirs.{table}"
            f" WHERE id NOT IN (SELECT id FROM main.{table}) ORDER BY id"
        )
    db.execute(
        "CREATE TEMP TABLE put_right AS SELECT id, row_id, what, after FROM main.amended"
        " UNION SELECT id, row_id, what, after FROM theirs.amended"
    )
    went_on = [
        row
        for (row,) in db.execute(
            "SELECT ball_id FROM theirs.journal JOIN line_came USING (id)"
            " WHERE ball_id IN (SELECT id FROM main.ball)"
            " UNION SELECT row_id FROM theirs.amended WHERE what IN ('place', 'struck')"
            " AND row_id IN (SELECT id FROM main.ball) ORDER BY 1"
        )
    ]
    _insert_what_came(db)
    for ball in sorted({*united, *went_on}):
        _follow_journal(db, ball)
    (balls,), (keys,) = (
        db.execute(f"SELECT count(*) FROM {what}").fetchone() for what in ("ball_came", "line_came")
    )
    for table in ("line_came", "ball_came", "put_right"):
        db.execute(f"DROP TABLE temp.{table}")
    return JoinedCounts(balls, keys)


def _copy_whole_tables(db: sqlite3.Connection) -> JoinedCounts:
    """Copy all balls, grades and lines, since this book holds none of them.

    Into an empty table SQLite copies whole records and the entries of their indexes. That they keep
    the table's rules, its `integrity_check` of the other book has seen before.
    Source: sqlite.org/src, insert.c, "the transfer optimization".
    """
    balls, _, keys = (
        db.execute(f"INSERT INTO main.{table} SELECT * FROM theirs.{table}").rowcount
        for table in ("ball", "rating", "journal")
    )
    return JoinedCounts(balls, keys)


def _insert_what_came(db: sqlite3.Connection) -> None:
    """Insert the balls, grades and lines that this book does not hold."""
    db.execute(
        "INSERT INTO main.ball (id, round_id, number, taken, tough, clip_at, taken_at)"
        # In a round of both books out of the way of other numbers until all are counted again.
        " SELECT id, round_id, CASE WHEN round_id NOT IN (SELECT id FROM main.round)"
        " THEN number WHEN number < 0 THEN -id ELSE id END, taken, tough, clip_at, taken_at"
        " FROM ball_came CROSS JOIN theirs.ball USING (id)"
    )
    db.execute(
        "INSERT INTO main.rating SELECT rating.*"
        " FROM ball_came CROSS JOIN theirs.rating ON ball_id = ball_came.id"
    )
    db.execute(
        "INSERT INTO main.journal SELECT journal.*"
        " FROM line_came CROSS JOIN theirs.journal USING (id)"
    )


def _follow_journal(db: sqlite3.Connection, ball: int) -> None:
    """The ball as its whole journal tells it."""
    last, moved, taken_at = "", None, None
    (struck,) = db.execute("SELECT number < 0 FROM ball WHERE id = ?", [ball]).fetchone()
    for kind, before, after, at in db.execute(
        "SELECT kind, before, after, at FROM (SELECT id, kind, before, after, at FROM main.journal"
        " WHERE ball_id = :ball UNION ALL SELECT id, what, '', after, 0 FROM put_right"
        " WHERE row_id = :ball AND what IN ('place', 'struck')) ORDER BY id",
        {"ball": ball},
    ):
        if kind == "struck":
            struck = int(after)
            continue
        if kind in ("move", "place"):
            moved = int(after)
            continue
        last = after
        if before.endswith("?") and not after.endswith("?"):
            taken_at = at
    if moved is not None:
        db.execute("UPDATE ball SET round_id = ? WHERE id = ?", [moved, ball])
    db.execute(
        "UPDATE ball SET number = CASE WHEN ? THEN -id ELSE id END WHERE id = ?", [struck, ball]
    )
    if not last:
        db.execute("UPDATE ball SET taken = NOT ? WHERE id = ?", [struck, ball])
        return
    state, is_open = ball_state(last)
    kept = "NULL" if is_open else "coalesce(?, taken_at)"
    db.execute(
        f"UPDATE ball SET taken = ?, tough = ?, clip_at = ?, taken_at = {kept} WHERE id = ?",
        [
            not is_open and not struck,
            state.tough,
            state.clip,
            *([] if is_open else [taken_at]),
            ball,
        ],
    )
    db.execute("DELETE FROM rating WHERE ball_id = ?", [ball])
    db.executemany(
        "INSERT INTO rating VALUES (?, ?, ?)",
        [(ball, row, int(grade)) for row, grade in enumerate(state.grades) if grade is not None],
    )
