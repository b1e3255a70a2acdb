"""Small inserts shared by the writers and the intake of sheets. Runs inside their transaction."""

from __future__ import annotations

import hashlib
import sqlite3
from datetime import date

from courtlog.coaching.game.drills import UsedDrill
from courtlog.logbook.rows.ids import Ids
from courtlog.values import json_of


def insert(db: sqlite3.Connection, ids: Ids, moment: int, table: str, /, **values: object) -> int:
    """A row with a new id; returns the id."""
    row = ids.next(moment)
    names = ", ".join(("id", *values))
    marks = ", ".join("?" * (len(values) + 1))
    db.execute(f"INSERT INTO {table} ({names}) VALUES ({marks})", [row, *values.values()])
    return row


def coach_id(db: sqlite3.Connection, ids: Ids, at_ms: int, name: str) -> int:
    """The coach of that name, made new if need be."""
    row = db.execute("SELECT id FROM coach WHERE name = ?", [name]).fetchone()
    return int(row[0]) if row else insert(db, ids, at_ms, "coach", name=name)


def day_id(
    db: sqlite3.Connection, ids: Ids, at_ms: int, clinic: int, day: date, court: str, coach: int
) -> int:
    """The clinic's day of that date on that court, made new if need be."""
    row = db.execute(
        "SELECT id FROM day WHERE clinic_id = ? AND date = ? AND court = ?",
        [clinic, day.isoformat(), court],
    ).fetchone()
    if row:
        return int(row[0])
    return insert(
        db, ids, at_ms, "day", clinic_id=clinic, date=day.isoformat(), court=court, coach_id=coach
    )


def drill_id(db: sqlite3.Connection, ids: Ids, at_ms: int, used: UsedDrill) -> int:
    """The drill exactly as it reads now, kept once."""
    card = json_of(used)
    digest = hashlib.sha256(card.encode()).hexdigest()
    row = db.execute("SELECT id FROM drill_used WHERE digest = ?", [digest]).fetchone()
    if row:
        return int(row[0])
    return insert(
        db,
        ids,
        at_ms,
        "drill_used",
        name=used.name,
        stroke=used.stroke,
        rung=used.drill.rung,
        feed=str(used.drill.feed),
        card=card,
        digest=digest,
    )


def player_id(db: sqlite3.Connection, ids: Ids, at_ms: int, name: str, hand: str) -> int:
    """A player for a clinic's roster: the book's only one of exactly that name, else a new one."""
    known = db.execute("SELECT id FROM player WHERE name = ?", [name]).fetchall()
    if len(known) == 1:
        return int(known[0][0])
    return insert(db, ids, at_ms, "player", name=name, hand=hand)


def add_to_roster(db: sqlite3.Connection, clinic: int, player: int) -> None:
    """Add the player at the end of the clinic's roster."""
    db.execute(
        "INSERT INTO roster (clinic_id, player_id, place)"
        " SELECT ?, ?, coalesce(max(place), 0) + 1 FROM roster WHERE clinic_id = ?",
        [clinic, player, clinic],
    )


def next_place(db: sqlite3.Connection, day: int) -> int:
    """The place of the day's next round."""
    (place,) = db.execute(
        "SELECT coalesce(max(place), 0) + 1 FROM round WHERE day_id = ?", [day]
    ).fetchone()
    return int(place)


def leave_round(db: sqlite3.Connection, at_ms: int) -> None:
    """End the round on court; delete it when it never had a ball, a note or a check-in."""
    end_pause(db, at_ms)
    if not forget_if_empty(db):
        db.execute(
            "UPDATE round SET ended_at"
            " = coalesce(ended_at, max(coalesce(started_at + paused_ms, 0), ?))"
            " WHERE id = (SELECT round_id FROM bookmark)",
            [at_ms - at_ms % 1000],
        )


def forget_if_empty(db: sqlite3.Connection) -> bool:
    """Delete the round on court when it holds nothing; returns whether it did."""
    row = db.execute(
        "SELECT round_id FROM bookmark WHERE round_id IS NOT NULL"
        " AND NOT EXISTS (SELECT 1 FROM ball WHERE ball.round_id = bookmark.round_id)"
        " AND NOT EXISTS (SELECT 1 FROM note WHERE note.round_id = bookmark.round_id)"
        " AND NOT EXISTS (SELECT 1 FROM check_in WHERE check_in.round_id = bookmark.round_id)"
        " AND NOT EXISTS (SELECT 1 FROM amendment"
        "   WHERE bookmark.round_id IN (amendment.round_id, other_id))"
    ).fetchone()
    if row is None:
        return False
    db.execute("UPDATE bookmark SET round_id = NULL")
    db.execute("DELETE FROM round_cue WHERE round_id = ?", row)
    db.execute("DELETE FROM round WHERE id = ?", row)
    return True


def pass_over(db: sqlite3.Connection, day: int, began: int, ended: int) -> None:
    """Let a pause be no time at a station of that day; moments in milliseconds UTC."""
    db.execute(
        "UPDATE standing SET since = since + max(0, :ended - max(since, :began))"
        " WHERE day_id = :day",
        {"day": day, "began": began, "ended": ended},
    )


def end_pause(db: sqlite3.Connection, at_ms: int) -> None:
    """Add a running pause to the round on court, and end it; it is no time at a station either."""
    for day, paused_at in db.execute(
        "SELECT day_id, paused_at FROM bookmark WHERE paused_at IS NOT NULL"
    ).fetchall():
        pass_over(db, day, paused_at, at_ms)
    db.execute(
        "UPDATE round SET paused_ms = paused_ms + max(0, ? - bookmark.paused_at) FROM bookmark"
        " WHERE round.id = bookmark.round_id AND paused_at IS NOT NULL",
        [at_ms],
    )
    db.execute("UPDATE bookmark SET paused_at = NULL WHERE paused_at IS NOT NULL")
