"""Give a round of the book the balls of the sheet, or have a round of the sheet take its place."""

from __future__ import annotations

import sqlite3

from courtlog.coaching.game.clinic_record import RoundRecord
from courtlog.coaching.game.round_versions import differing, extra_balls
from courtlog.coaching.game.rounds import Ball
from courtlog.logbook.rows.journal import state_text
from courtlog.logbook.writes.amendments import AmendedValue, Amendment
from courtlog.logbook.writes.sheets.sheet_rows import SheetRows


def mend_round(
    amendment: Amendment, rows: SheetRows, book: RoundRecord, sheet: RoundRecord, round_id: int
) -> list[int]:
    """Give the book's round the sheet's balls, one by one; returns the ids of those added."""
    held = taken_ids(amendment.db, round_id)
    both = zip(held, book.balls, sheet.balls, differing(book, sheet), strict=False)
    for row, was, now, differs in both:
        if differs:
            clip = was.ball.clip if now.ball.clip is None else now.ball.clip
            after = state_text(Ball(now.ball.grades, now.ball.tough, clip), False)
            amendment.change(AmendedValue.STATE, row, after)
    for row in held[len(sheet.balls) :]:
        amendment.change(AmendedValue.STRUCK, row, 1)
    added = rows.add_balls(round_id, extra_balls(book, sheet), len(held))
    amendment.change(AmendedValue.PURPOSE, round_id, str(sheet.purpose))
    if book.drill != sheet.drill:
        amendment.change(AmendedValue.DRILL, round_id, rows.drill(sheet.drill))
    return added


def replace_round(amendment: Amendment, old: int, new: int) -> None:
    """Strike out the balls of the old round; its notes and check-ins go to the new one."""
    db = amendment.db
    for ball in taken_ids(db, old):
        amendment.change(AmendedValue.STRUCK, ball, 1)
    for what, sql in (
        (AmendedValue.NOTE, "SELECT id FROM note WHERE round_id = ? AND ball_id IS NULL"),
        (AmendedValue.CHECK_IN, "SELECT id FROM check_in WHERE round_id = ?"),
    ):
        for (row,) in db.execute(sql, [old]).fetchall():
            amendment.change(what, row, new)


def taken_ids(db: sqlite3.Connection, round_id: int) -> list[int]:
    """The ids of a round's taken balls, in their order."""
    rows = db.execute(
        "SELECT id FROM ball WHERE round_id = ? AND taken ORDER BY number", [round_id]
    )
    return [row for (row,) in rows]
