"""Store what one key did to a ball: grades, tallies, basket and the line of the journal.

Runs inside the caller's transaction. `at_ms` is the moment of the key, milliseconds UTC.
"""

from __future__ import annotations

import sqlite3

from courtlog.coaching.game.drills import Feed
from courtlog.coaching.on_court.feeding import Step
from courtlog.errors import BookError, ChangedElsewhereError
from courtlog.logbook.rows import tallies
from courtlog.logbook.rows.ids import Ids
from courtlog.logbook.rows.journal import state_text
from courtlog.logbook.rows.row_changes import insert

_FROM_BASKET = ", ".join(f"'{feed}'" for feed in Feed if feed.from_basket)


def last_key(db: sqlite3.Connection, round_id: int, number: int) -> int:
    """The round's last key that stands, which must be one of that ball."""
    last, of_ball = db.execute(
        "SELECT max(journal.id), number FROM journal JOIN ball ON ball.id = journal.ball_id"
        " WHERE ball.round_id = ? AND number > 0 AND kind = 'key'"
        " AND NOT EXISTS (SELECT 1 FROM journal AS undo WHERE undo.undoes = journal.id)",
        [round_id],
    ).fetchone()
    if last is None:
        raise BookError("There is no key to take back in this round.")
    if of_ball != number:
        raise _changed_elsewhere()
    return int(last)


def write_step(
    db: sqlite3.Connection,
    ids: Ids,
    round_id: int,
    step: Step,
    at_ms: int,
    kind: str,
    undoes: int | None,
) -> None:
    """Write a step to its ball; `undoes` is the journal line it takes back, if it is an undo."""
    ball = ball_of(db, ids, round_id, step.number, at_ms)
    _check_unchanged(db, ball, step)
    if not step.was_open:
        tallies.uncount_ball(db, ball)
    after = step.after
    db.execute(
        "UPDATE ball SET taken = ?, tough = ?, clip_at = ?,"
        " taken_at = CASE WHEN ? THEN NULL ELSE coalesce(taken_at, ?) END WHERE id = ?",
        [not step.is_open, after.tough, after.clip, step.is_open, at_ms, ball],
    )
    for row, (old, new) in enumerate(zip(step.before.grades, after.grades, strict=True)):
        if new is None and old is not None:
            db.execute("DELETE FROM rating WHERE ball_id = ? AND row = ?", [ball, row])
        elif new is not None and new is not old:
            db.execute("INSERT OR REPLACE INTO rating VALUES (?, ?, ?)", [ball, row, int(new)])
    if not step.is_open:
        tallies.count_ball(db, ball)
    if step.was_open is not step.is_open:
        _move_basket(db, round_id, -1 if step.took else 1)
    insert(
        db,
        ids,
        at_ms,
        "journal",
        ball_id=ball,
        kind=kind,
        before=state_text(step.before, step.was_open),
        after=state_text(after, step.is_open),
        undoes=undoes,
        at=at_ms,
    )


def _check_unchanged(db: sqlite3.Connection, ball: int, step: Step) -> None:
    """Refuse to write when the ball differs from what this window shows."""
    last = db.execute(
        "SELECT after FROM journal WHERE ball_id = ? AND kind <> 'move' ORDER BY id DESC LIMIT 1",
        [ball],
    ).fetchone()
    if last is not None and last[0] != state_text(step.before, step.was_open):
        raise _changed_elsewhere()
    (others,) = db.execute(
        "SELECT count(*) FROM ball WHERE round_id = (SELECT round_id FROM ball WHERE id = ?)"
        " AND taken AND id <> ?",
        [ball, ball],
    ).fetchone()
    if step.was_open and step.number != others + 1:
        raise _changed_elsewhere()


def ball_of(db: sqlite3.Connection, ids: Ids, round_id: int, number: int, at_ms: int) -> int:
    """The id of the round's ball of that number; a new ball where there is none yet."""
    row = db.execute(
        "SELECT id FROM ball WHERE round_id = ? AND number = ?", [round_id, number]
    ).fetchone()
    if row is not None:
        return int(row[0])
    return insert(db, ids, at_ms, "ball", round_id=round_id, number=number, taken=0, tough=0)


def _move_basket(db: sqlite3.Connection, round_id: int, by: int) -> None:
    """One ball out of the basket, or back into it, on feeds that take from it."""
    db.execute(
        "UPDATE bookmark SET basket_left = max(0, min(basket_size, basket_left + ?))"
        " WHERE (SELECT feed FROM drill_used JOIN round ON round.drill_id = drill_used.id"
        f" WHERE round.id = ?) IN ({_FROM_BASKET})",
        [by, round_id],
    )


def _changed_elsewhere() -> ChangedElsewhereError:
    return ChangedElsewhereError(
        "Another window has changed this ball; here is what the book holds.",
        "Close one of the two.",
    )
