"""What goes back beside the balls when a sheet is taken out of the book again: its players.

Everything that came with a sheet has an id between its amendment's and the last of its values.
"""

from __future__ import annotations

import sqlite3

from courtlog.logbook.rows.row_changes import add_to_roster
from courtlog.logbook.schema.tables import tables

_SPOKEN_OF_ELSEWHERE = {"round", "tally", "roster"}
"""Tables that name a player without a word about them: their balls are looked at instead."""


def rounds_of_amendment(db: sqlite3.Connection, amendment: int) -> set[int]:
    """Every round that an amendment is about: those it names, and those of its balls."""
    rows = db.execute(
        "SELECT round_id FROM amendment WHERE id = ?1"
        " UNION SELECT other_id FROM amendment WHERE id = ?1 AND other_id NOT NULL"
        " UNION SELECT ball.round_id FROM amended JOIN ball ON ball.id = row_id"
        "   WHERE amendment_id = ?1 AND what IN ('state', 'struck', 'place')",
        [amendment],
    )
    return {row for (row,) in rows}


def follow_players(db: sqlite3.Connection, amendment: int) -> None:
    """Take players who came with the sheet off the roster, or put them on it again.

    Only who has a ball, or is spoken of in the clinic, is on it.
    """
    first = amendment
    while row := db.execute("SELECT undoes FROM amendment WHERE id = ?", [first]).fetchone()[0]:
        first = row
    (clinic,) = db.execute(
        "SELECT clinic_id FROM amendment JOIN round ON round.id = round_id"
        " JOIN day ON day.id = day_id WHERE amendment.id = ?",
        [first],
    ).fetchone()
    came = db.execute(
        "SELECT id FROM player WHERE id > ?1 AND id <"
        " (SELECT max(id) FROM amended WHERE amendment_id = ?1) ORDER BY id",
        [first],
    ).fetchall()
    for (player,) in came:
        is_there = db.execute(
            "SELECT 1 FROM roster WHERE clinic_id = ? AND player_id = ?", [clinic, player]
        ).fetchone()
        if _has_balls(db, clinic, player) and not is_there:
            add_to_roster(db, clinic, player)
        elif is_there and not _is_spoken_of(db, clinic, player):
            db.execute("DELETE FROM roster WHERE clinic_id = ? AND player_id = ?", [clinic, player])


def _has_balls(db: sqlite3.Connection, clinic: int, player: int) -> bool:
    found = db.execute(
        "SELECT 1 FROM day JOIN round ON day_id = day.id JOIN ball ON round_id = round.id"
        " WHERE clinic_id = ? AND player_id = ? AND number > 0 LIMIT 1",
        [clinic, player],
    ).fetchone()
    return found is not None


def _is_spoken_of(db: sqlite3.Connection, clinic: int, player: int) -> bool:
    if _has_balls(db, clinic, player):
        return True
    untouched = db.execute(
        "SELECT 1 FROM roster WHERE clinic_id = ? AND player_id = ? AND goal = ''"
        " AND usual_week = '' AND ball_limit IS NULL AND next_drill IS NULL",
        [clinic, player],
    ).fetchone()
    if untouched is None:
        return True
    return any(
        db.execute(f"SELECT 1 FROM {table.name} WHERE {link.name} = ? LIMIT 1", [player]).fetchone()
        for table in tables(db)
        if table.name not in _SPOKEN_OF_ELSEWHERE
        for link in table.links
        if link.parent == "player" and {"clinic_id", "day_id"} & set(table.names)
    )
