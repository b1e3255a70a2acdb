"""Reds that follow from check-ins, put into the book beside them; none is ever taken away."""

from __future__ import annotations

import sqlite3
from datetime import date

from courtlog.coaching.arm_care import Level, OnDate, cautions
from courtlog.logbook.check_ins import COLUMNS, as_check_in
from courtlog.logbook.ids import Ids
from courtlog.logbook.rows import insert


def said_by(db: sqlite3.Connection, clinic_id: int, player_id: int) -> list[tuple[int, OnDate]]:
    """A player's check-ins of a clinic with their ids, in order of dates and as they came in."""
    rows = db.execute(
        f"SELECT check_in.id, date, {COLUMNS}"
        " FROM day JOIN check_in ON check_in.day_id = day.id"
        " JOIN player ON player.id = player_id"
        " WHERE clinic_id = ? AND player_id = ? ORDER BY date, check_in.id",
        [clinic_id, player_id],
    )
    return [
        (row_id, OnDate(date.fromisoformat(on), as_check_in(*columns)))
        for row_id, on, *columns in rows
    ]


def is_minor(db: sqlite3.Connection, player_id: int) -> bool:
    """Whether the player's card says minor; a card that says nothing does not."""
    return age_group(db, player_id) == "minor"


def age_group(db: sqlite3.Connection, player_id: int) -> str:
    """`adult`, `minor`, or nothing where nobody asked."""
    row = db.execute("SELECT age_group FROM player WHERE id = ?", [player_id]).fetchone()
    return str(row[0])


def flag_reds(db: sqlite3.Connection, ids: Ids, clinic_id: int, player_id: int, at: int) -> None:
    """A red for every check-in of the player in a clinic that calls for one and has none yet.

    Runs inside the caller's transaction.
    """
    said = said_by(db, clinic_id, player_id)
    reasons: dict[int, list[str]] = {}
    for caution in cautions([on_date for _, on_date in said], is_minor(db, player_id)):
        if caution.level is Level.RED:
            reasons.setdefault(said[caution.place][0], []).append(caution.reason)
    for check_in, why in reasons.items():
        known = db.execute("SELECT 1 FROM red_flag WHERE check_in_id = ?", [check_in]).fetchone()
        if known is None:
            insert(
                db,
                ids,
                at,
                "red_flag",
                day_id=_day_of(db, check_in),
                player_id=player_id,
                check_in_id=check_in,
                reason="; ".join(why),
                at=at,
            )


def flag_reds_everywhere(db: sqlite3.Connection, ids: Ids, player_id: int, at: int) -> None:
    """The same in every clinic: what a card comes to say is said of all of them."""
    clinics = db.execute(
        "SELECT DISTINCT clinic_id FROM check_in JOIN day ON day.id = day_id WHERE player_id = ?",
        [player_id],
    ).fetchall()
    for (clinic,) in clinics:
        flag_reds(db, ids, clinic, player_id, at)


def _day_of(db: sqlite3.Connection, check_in: int) -> int:
    row = db.execute("SELECT day_id FROM check_in WHERE id = ?", [check_in]).fetchone()
    return int(row[0])
