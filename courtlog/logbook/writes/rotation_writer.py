"""Write the rotation: who is there, each player's station, repetitions alone.

Each entry is one transaction. `at_ms` is the moment, milliseconds UTC.
"""

from __future__ import annotations

from collections.abc import Mapping

from courtlog.coaching.plans.rotation import Presence
from courtlog.logbook.file.book import Book
from courtlog.logbook.rows.row_changes import insert


class RotationWriter:
    """Everything the rotation may write."""

    def __init__(self, book: Book) -> None:
        self._book = book

    def set_presence(
        self, day_id: int, player: int, state: Presence, head_start: float, at_ms: int
    ) -> None:
        """Note a player as here (with the balls credited to a late comer), late or left."""
        with self._book.writing() as db:
            db.execute(
                "INSERT OR REPLACE INTO attendance VALUES (?, ?, ?, ?, ?)",
                [day_id, player, str(state), head_start, at_ms],
            )
            if state is not Presence.HERE:
                db.execute(
                    "DELETE FROM standing WHERE day_id = ? AND player_id = ?", [day_id, player]
                )

    def set_stations(self, day_id: int, stations: Mapping[int, str], at_ms: int) -> None:
        """Put these players at these stations from now on."""
        with self._book.writing() as db:
            for player, station in stations.items():
                db.execute(
                    "INSERT INTO standing (day_id, player_id, station, since) VALUES (?, ?, ?, ?)"
                    " ON CONFLICT DO UPDATE SET before = station, station = excluded.station,"
                    " since = excluded.since",
                    [day_id, player, station, at_ms],
                )

    def swap_in_queue(self, day_id: int, turn: int, first: int, second: int, at_ms: int) -> None:
        """Swap two players in the queue of this rotation."""
        with self._book.writing() as db:
            insert(
                db,
                self._book.ids,
                at_ms,
                "queue_swap",
                day_id=day_id,
                turn=turn,
                one_id=first,
                other_id=second,
                at=at_ms,
            )

    def add_solo(self, day_id: int, player: int, station: str, reps: int, at_ms: int) -> None:
        """Add repetitions at a station alone, as the player reported them."""
        with self._book.writing() as db:
            insert(
                db,
                self._book.ids,
                at_ms,
                "solo",
                day_id=day_id,
                player_id=player,
                station=station,
                reps=reps,
                at=at_ms,
            )
