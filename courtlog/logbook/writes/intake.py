"""A whole clinic into the book in one transaction: all of it, or nothing."""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from courtlog.coaching.game.clinic_record import (
    BallRecord,
    CheckIn,
    ClinicRecord,
    DayRecord,
    RoundRecord,
)
from courtlog.coaching.game.drills import UsedDrill
from courtlog.errors import BookError
from courtlog.logbook.file.book import Book
from courtlog.logbook.rows import tallies
from courtlog.logbook.rows.check_ins import insert_check_in
from courtlog.logbook.rows.feed_rows import order_text
from courtlog.logbook.rows.ids import Ids
from courtlog.logbook.rows.red_flags import flag_reds
from courtlog.logbook.rows.row_changes import (
    add_to_roster,
    coach_id,
    day_id,
    drill_id,
    insert,
    player_id,
)


@dataclass(frozen=True, slots=True)
class IntakeCounts:
    """What came in."""

    clinic_id: int
    days: int
    rounds: int
    balls: int


def add_record(
    book: Book, clinic: ClinicRecord, drills: Mapping[str, UsedDrill], at_ms: int
) -> IntakeCounts:
    """Write a clinic's days; a clinic of that name in the book is continued.

    Raises BookError, and writes nothing, for a day that already holds rounds.
    """
    with book.writing() as db:
        return _Writer(db, book.ids, drills, at_ms).clinic(clinic)


@dataclass(slots=True)
class _Writer:
    db: sqlite3.Connection
    ids: Ids
    drills: Mapping[str, UsedDrill]
    at: int
    drill_ids: dict[str, int] = field(default_factory=dict)

    def clinic(self, clinic: ClinicRecord) -> IntakeCounts:
        row = self.db.execute(
            "SELECT id FROM clinic WHERE name = ? AND zone = ?", [clinic.name, clinic.zone]
        ).fetchone()
        clinic_id = row[0] if row else self._insert("clinic", name=clinic.name, zone=clinic.zone)
        self.db.execute(
            "UPDATE clinic SET planned_days = coalesce(?, planned_days) WHERE id = ?",
            [clinic.planned_days, clinic_id],
        )
        players = self._players(clinic_id, clinic)
        for day in clinic.days:
            self._day(clinic_id, day, players)
        for player in players.values():
            flag_reds(self.db, clinic_id, player)
        rounds = [round_ for day in clinic.days for round_ in day.rounds]
        balls = sum(len(round_.balls) for round_ in rounds)
        return IntakeCounts(clinic_id, len(clinic.days), len(rounds), balls)

    def _players(self, clinic_id: int, clinic: ClinicRecord) -> dict[str, int]:
        known: dict[str, int] = dict(
            self.db.execute(
                "SELECT name, player.id FROM player JOIN roster ON player_id = player.id"
                " WHERE clinic_id = ? ORDER BY place DESC",
                [clinic_id],
            ).fetchall()
        )
        for entry in clinic.with_everyone_on_the_roster().roster:
            if entry.name not in known:
                known[entry.name] = player_id(self.db, self.ids, self.at, entry.name, entry.hand)
                add_to_roster(self.db, clinic_id, known[entry.name])
            elif entry.hand:
                self.db.execute(
                    "UPDATE player SET hand = ? WHERE id = ?", [entry.hand, known[entry.name]]
                )
        return known

    def _day(self, clinic_id: int, day: DayRecord, players: dict[str, int]) -> None:
        coach = coach_id(self.db, self.ids, self.at, day.coach)
        row = day_id(self.db, self.ids, self.at, clinic_id, day.date, day.court, coach)
        (held,) = self.db.execute(
            "SELECT (SELECT count(*) FROM round WHERE day_id = :day)"
            " + (SELECT count(*) FROM check_in WHERE day_id = :day AND round_id IS NULL)",
            {"day": row},
        ).fetchone()
        if held:
            where = f" on court {day.court}" if day.court else ""
            raise BookError(
                f"The book already holds {held} rounds or check-ins of {day.date}{where}.",
                "Nothing was written. Take that day out of the sheet, or name another book.",
            )
        for check_in in day.check_ins:
            self._check_in(row, players[check_in.player], None, check_in)
        for place, round_ in enumerate(day.rounds, 1):
            self._round(row, coach, place, players[round_.player], round_)
        tallies.count_day(self.db, row)

    def _round(self, day: int, coach: int, place: int, player: int, round_: RoundRecord) -> None:
        round_id = self._insert(
            "round",
            day_id=day,
            player_id=player,
            coach_id=coach,
            drill_id=self._drill(round_.drill),
            purpose=str(round_.purpose),
            place=place,
            feed_seed=0,
            feed_order=order_text(round_.order),
            started_at=round_.started,
            ended_at=round_.ended,
            paused_ms=1000 * round_.paused,
        )
        self.db.executemany(
            "INSERT INTO round_cue VALUES (?, ?, ?)",
            [(round_id, row, cue) for row, cue in enumerate(round_.cues)],
        )
        self._balls(round_id, round_.balls)
        for note in round_.notes:
            self._insert("note", round_id=round_id, text=note)
        for check_in in round_.check_ins:
            self._check_in(day, player, round_id, check_in)

    def _balls(self, round_id: int, records: Sequence[BallRecord]) -> None:
        """All balls of a round at once, then their grades, then their notes."""
        balls = [(self.ids.next(self.at), record) for record in records]
        self.db.executemany(
            "INSERT INTO ball (id, round_id, number, taken, tough, clip_at)"
            " VALUES (?, ?, ?, 1, ?, ?)",
            [
                (ball_id, round_id, number, record.ball.tough, record.ball.clip)
                for number, (ball_id, record) in enumerate(balls, 1)
            ],
        )
        self.db.executemany(
            "INSERT INTO rating VALUES (?, ?, ?)",
            [
                (ball_id, row, int(grade))
                for ball_id, record in balls
                for row, grade in enumerate(record.ball.grades)
                if grade is not None
            ],
        )
        for ball_id, record in balls:
            for note in record.notes:
                self._insert("note", round_id=round_id, ball_id=ball_id, text=note)

    def _drill(self, name: str) -> int:
        if name not in self.drill_ids:
            self.drill_ids[name] = drill_id(self.db, self.ids, self.at, self.drills[name])
        return self.drill_ids[name]

    def _check_in(self, day: int, player: int, round_id: int | None, check_in: CheckIn) -> None:
        insert_check_in(self.db, self.ids, self.at, day, player, round_id, check_in)

    def _insert(self, table: str, **values: object) -> int:
        return insert(self.db, self.ids, self.at, table, **values)
