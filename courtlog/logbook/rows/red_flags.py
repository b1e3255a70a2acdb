"""Reds that follow from check-ins, put into the book beside them; none is ever taken away."""

from __future__ import annotations

import sqlite3
from datetime import date

from courtlog.coaching.care.arm_care import CautionLevel, DatedCheckIn, cautions
from courtlog.logbook.rows.check_ins import COLUMNS, as_check_in


def check_ins_of(
    db: sqlite3.Connection, clinic_id: int, player_id: int
) -> list[tuple[int, DatedCheckIn]]:
    """A player's check-ins of a clinic with their ids, in order of dates and as they came in."""
    rows = db.execute(
        f"SELECT check_in.id, date, {COLUMNS}"
        " FROM day JOIN check_in ON check_in.day_id = day.id"
        " JOIN player ON player.id = player_id"
        " WHERE clinic_id = ? AND player_id = ? ORDER BY date, check_in.id",
        [clinic_id, player_id],
    )
    return [
        (row_id, DatedCheckIn(date.fromisoformat(on), as_check_in(*columns)))
        for row_id, on, *columns in rows
    ]


def is_minor(db: sqlite3.Connection, player_id: int) -> bool:
    """Whether the player's card says minor; a card that says nothing does not."""
    return age_group(db, player_id) == "minor"


def age_group(db: sqlite3.Connection, player_id: int) -> str:
    """`adult`, `minor`, or nothing where nobody asked."""
    row = db.execute("SELECT age_group FROM player WHERE id = ?", [player_id]).fetchone()
    return str(row[0])


def flag_reds(db: sqlite3.Connection, clinic_id: int, player_id: int) -> list[int]:
    """Set a red for each check-in of the player in a clinic that calls for one and has none yet.

    Such a red has its check-in's id and moment. So it is one and the same red whichever book set it
    first. Returns the ids of the new ones. Runs inside the caller's transaction.
    """
    check_ins = check_ins_of(db, clinic_id, player_id)
    reasons: dict[int, list[str]] = {}
    for caution in cautions([on_date for _, on_date in check_ins], is_minor(db, player_id)):
        if caution.level is CautionLevel.RED:
            reasons.setdefault(check_ins[caution.place][0], []).append(caution.reason)
    rows = db.execute("SELECT check_in_id FROM red_flag WHERE player_id = ?", [player_id])
    known = {row for (row,) in rows}
    new = [row for row in reasons if row not in known]
    for row in new:
        db.execute(
            "INSERT INTO red_flag SELECT check_in.id, day_id, player_id, check_in.id, ?,"
            " coalesce(at, 1000 * CAST(strftime('%s', date) AS INTEGER))"
            " FROM check_in JOIN day ON day.id = day_id WHERE check_in.id = ?",
            ["; ".join(reasons[row]), row],
        )
    return new


def flag_reds_everywhere(db: sqlite3.Connection, player_id: int | None = None) -> list[int]:
    """Set missing reds in every clinic, of one player or of all: a card counts in all of them."""
    rows = db.execute(
        "SELECT DISTINCT clinic_id, player_id FROM check_in JOIN day ON day.id = day_id"
        " WHERE player_id = ?1 OR ?1 IS NULL",
        [player_id],
    ).fetchall()
    return [red for clinic, player in rows for red in flag_reds(db, clinic, player)]
