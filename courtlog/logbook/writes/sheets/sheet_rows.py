"""Rows of what a sheet says: rounds, balls, notes and check-ins. Runs inside a transaction."""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from courtlog.coaching.game.clinic_record import BallRecord, CheckIn, RoundRecord
from courtlog.coaching.game.drills import UsedDrill
from courtlog.logbook.rows.check_ins import insert_check_in
from courtlog.logbook.rows.feed_rows import order_text
from courtlog.logbook.rows.ids import Ids
from courtlog.logbook.rows.row_changes import drill_id, insert


@dataclass(slots=True)
class SheetRows:
    """Writes the rows of one sheet; `at` is the moment (ms UTC) at which it is read in."""

    db: sqlite3.Connection
    ids: Ids
    drills: Mapping[str, UsedDrill]
    at: int
    drill_ids: dict[str, int] = field(default_factory=dict)

    def add_round(
        self, day: int, coach: int, player: int, round_: RoundRecord, place: int, row: int
    ) -> None:
        """Add a round with that id at that place, still without balls."""
        self.db.execute(
            "INSERT INTO round (id, day_id, player_id, coach_id, drill_id, purpose, place,"
            " feed_seed, feed_order, started_at, ended_at, paused_ms)"
            " VALUES (?, ?, ?, ?, ?, ?, ?, 0, ?, ?, ?, ?)",
            [
                *(row, day, player, coach, self.drill(round_.drill), str(round_.purpose), place),
                *(order_text(round_.order), round_.started, round_.ended, 1000 * round_.paused),
            ],
        )
        self.db.executemany(
            "INSERT INTO round_cue VALUES (?, ?, ?)",
            [(row, cue_row, cue) for cue_row, cue in enumerate(round_.cues)],
        )

    def add_balls(self, round_id: int, records: Sequence[BallRecord], held: int = 0) -> list[int]:
        """Add balls after the ones that the round holds, with their notes; returns their ids.

        Where it holds some already, their numbers are right once the round is numbered again.
        """
        balls = [(self.ids.next(self.at), record) for record in records]
        self.db.executemany(
            "INSERT INTO ball (id, round_id, number, taken, tough, clip_at)"
            " VALUES (?, ?, ?, 1, ?, ?)",
            [
                (row, round_id, row if held else number, record.ball.tough, record.ball.clip)
                for number, (row, record) in enumerate(balls, 1)
            ],
        )
        self.db.executemany(
            "INSERT INTO rating VALUES (?, ?, ?)",
            [
                (ball, row, int(grade))
                for ball, record in balls
                for row, grade in enumerate(record.ball.grades)
                if grade is not None
            ],
        )
        for ball, record in balls:
            for note in record.notes:
                self.add_note(round_id, ball, note)
        return [ball for ball, _ in balls]

    def add_note(self, round_id: int, ball: int | None, text: str) -> int:
        """Add a note to a round or to a ball of it; returns its id."""
        return insert(
            self.db, self.ids, self.at, "note", round_id=round_id, ball_id=ball, text=text
        )

    def add_check_in(self, day: int, player: int, round_id: int | None, said: CheckIn) -> int:
        """Add a check-in; returns its id."""
        return insert_check_in(self.db, self.ids, self.at, day, player, round_id, said)

    def drill(self, name: str) -> int:
        """The id of the drill as it reads now."""
        if name not in self.drill_ids:
            self.drill_ids[name] = drill_id(self.db, self.ids, self.at, self.drills[name])
        return self.drill_ids[name]
