"""Which round of the book came from which sheet, as `sheet_round` has it.

A paper sheet has a number of its day, which its code says again when it is typed in once more. A
sheet of plain text has none, and its rounds have the number 0.
"""

from __future__ import annotations

import hashlib
import sqlite3
from collections.abc import Sequence
from datetime import date

from courtlog.coaching.game.clinic_record import RoundRecord
from courtlog.logbook.rows.feed_rows import order_text

NO_NUMBER = 0
"""The number of a sheet of plain text."""

_DIGITS = 32


def numbers_of_day(db: sqlite3.Connection, day: int) -> dict[int, frozenset[int]]:
    """The numbers of the paper sheets that each round of the day was kept from, by the round's id.

    Rounds that were joined afterwards have several.
    """
    numbers: dict[int, frozenset[int]] = {}
    for row, number in db.execute(
        # A round that was joined to another one took its balls there.
        "SELECT CASE WHEN EXISTS (SELECT 1 FROM ball WHERE round_id = round.id AND number > 0)"
        " THEN round.id ELSE coalesce((SELECT round_id FROM ball WHERE id = first_ball_id),"
        " round.id) END, number FROM sheet_round JOIN round ON round.id = sheet_round.round_id"
        " WHERE day_id = ? AND number <> ?",
        [day, NO_NUMBER],
    ):
        numbers[row] = numbers.get(row, frozenset()) | {number}
    return numbers


def rounds_of_player(db: sqlite3.Connection, day: int) -> dict[int, int]:
    """Which of its player's rounds of the day each one is, from 1, as paper counts; by its id.

    A round without a ball counts for itself alone.
    """
    rows = db.execute(
        "SELECT id, (SELECT count(*) FROM round AS other"
        " WHERE other.day_id = round.day_id AND other.player_id = round.player_id"
        " AND other.place <= round.place AND (other.id = round.id"
        " OR EXISTS (SELECT 1 FROM ball WHERE round_id = other.id AND number > 0)))"
        " FROM round WHERE day_id = ?",
        [day],
    )
    return dict(rows.fetchall())


def day_of_number(
    db: sqlite3.Connection, clinic: int, on: date, player: int, number: int
) -> tuple[int, str] | None:
    """The day and court that has this sheet of the player's date already; None where none has."""
    row: tuple[int, str] | None = db.execute(
        "SELECT day.id, court FROM sheet_round JOIN round ON round.id = round_id"
        " JOIN day ON day.id = day_id"
        " WHERE clinic_id = ? AND date = ? AND player_id = ? AND sheet_round.number = ?"
        " AND EXISTS (SELECT 1 FROM ball WHERE ball.number > 0"
        " AND (ball.round_id = round.id OR ball.id = first_ball_id))"
        " ORDER BY round.id",
        [clinic, on.isoformat(), player, number],
    ).fetchone()
    return row


def note_new_round(
    db: sqlite3.Connection, row: int, number: int | None, round_: RoundRecord, balls: Sequence[int]
) -> None:
    """Note the sheet that this round came with, and which balls those were.

    Nothing is noted of a round of plain text without a time: nothing could tell it from another.
    """
    if number is None and (round_.started is None or not balls):
        return
    db.execute(
        "INSERT INTO sheet_round (round_id, number, digest, first_ball_id, balls)"
        " VALUES (?, ?, ?, ?, ?)",
        [
            *(row, number or NO_NUMBER, digest_of(round_) if balls else ""),
            *(balls[0] if balls else None, len(balls)),
        ],
    )


def note_known_round(db: sqlite3.Connection, row: int, number: int | None) -> None:
    """Note the paper sheet of a round that the book had already."""
    if number is not None:
        db.execute(
            "INSERT INTO sheet_round (round_id, number) VALUES (?, ?) ON CONFLICT DO NOTHING",
            [row, number],
        )


def digest_of(round_: RoundRecord) -> str:
    """A short name of what was written: two sheets that say the same of a round have the same."""
    words = (
        *(round_.drill, str(round_.purpose), " ".join(round_.cues), order_text(round_.order)),
        *map(str, (round_.started, round_.ended, round_.paused)),
        *(f"{one.ball.token()} {one.ball.clip}" for one in round_.balls),
    )
    return hashlib.sha256("\n".join(words).encode()).hexdigest()[:_DIGITS]
