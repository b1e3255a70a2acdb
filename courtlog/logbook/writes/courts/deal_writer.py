"""Write who belongs to which court: each entry is one committed transaction."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable
from datetime import date

from courtlog.coaching.game.court_book import Arrival
from courtlog.coaching.plans.court_dealing import CourtGroup
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads.courts.court_groups import player_courts
from courtlog.logbook.rows.row_changes import insert


def deal_players(
    book: Book, clinic_id: int, on: date, groups: Iterable[CourtGroup], at_ms: int
) -> int:
    """Deal these players to these courts; whoever is there already stays as they are.

    Returns how many were dealt anew.
    """
    dealt = 0
    with book.writing():
        now = player_courts(book, clinic_id, on)
        for group in groups:
            for player in group.players:
                if player.id not in now or now[player.id].court != group.court:
                    move_player(book, clinic_id, on, player.id, group.court, Arrival.DEALT, at_ms)
                    dealt += 1
    return dealt


def move_player(
    book: Book, clinic_id: int, on: date, player_id: int, court: str, kind: Arrival, at_ms: int
) -> int:
    """Add that the player belongs to this court from now on; returns the id of the row.

    The moment is after every one known of the player, so that a clock that is behind changes
    nothing of the order.
    """
    with book.writing() as db:
        return insert(
            db,
            book.ids,
            at_ms,
            "player_court",
            clinic_id=clinic_id,
            date=on.isoformat(),
            player_id=player_id,
            court=court,
            kind=str(kind),
            at=max(at_ms, _last_known(db, clinic_id, on, player_id) + 1),
        )


def _last_known(db: sqlite3.Connection, clinic_id: int, on: date, player_id: int) -> int:
    (last,) = db.execute(
        "SELECT coalesce(max(at), 0) FROM player_court"
        " WHERE clinic_id = ? AND date = ? AND player_id = ?",
        [clinic_id, on.isoformat(), player_id],
    ).fetchone()
    return int(last)
