"""Look-ups of a clinic: how it was set up, its first day, and the plan kept for a date."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import date

from courtlog.coaching.game.people import Clinic
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.plans.clinic_plan import ClinicPlan
from courtlog.coaching.plans.planned_round import PlannedRound, evening_holds
from courtlog.coaching.plans.rotation import TurnOrder
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.logbook.rows.ids import in_time


@dataclass(frozen=True, slots=True)
class FirstDay:
    """The court and coach of a clinic's first day, as far as they were named beforehand."""

    court: str = ""
    coach: str = ""


def upcoming(book: Book) -> Clinic | None:
    """The latest clinic, if it has no day yet and is later than the one on court."""
    row = book.db.execute(
        "SELECT id FROM clinic WHERE id = (SELECT max(id) FROM clinic)"
        " AND NOT EXISTS (SELECT 1 FROM day WHERE clinic_id = clinic.id)"
    ).fetchone()
    return None if row is None else lookups.clinic(book, row[0])


def plan(book: Book, clinic_id: int) -> ClinicPlan:
    """The plan by which the clinic is run."""
    stations, order, seconds, rest, modify, stop, rule = book.db.execute(
        "SELECT stations, turn_order, turn_seconds, rest_minutes, wbgt_modify, wbgt_stop, wbgt_rule"
        " FROM clinic WHERE id = ?",
        [clinic_id],
    ).fetchone()
    minutes = None if seconds is None else seconds / 60
    names = tuple(json.loads(stations))
    return ClinicPlan(names, TurnOrder(order), minutes, rest, modify, stop, rule)


def first_day(book: Book, clinic_id: int) -> FirstDay:
    """The court and coach named beforehand for the first day."""
    return FirstDay(
        *book.db.execute(
            "SELECT first_court, first_coach FROM clinic WHERE id = ?", [clinic_id]
        ).fetchone()
    )


def planned(book: Book, clinic_id: int, on: date) -> tuple[PlannedRound, ...]:
    """The kept plan of a date in its order; nothing where none was kept."""
    roster = {player.id: player for player in lookups.players(book, clinic_id)}
    rows = book.db.execute(
        "SELECT player_id, drill, purpose, balls FROM planned_round"
        " WHERE clinic_id = ? AND date = ? ORDER BY place",
        [clinic_id, on.isoformat()],
    )
    return tuple(
        PlannedRound(roster[player], drill, Purpose(purpose), balls)
        for player, drill, purpose, balls in rows
        if player in roster
    )


def left_to_play(book: Book, clinic_id: int, on: date, player_id: int) -> tuple[PlannedRound, ...]:
    """The player's planned rounds of a date, less as many as were played with a ball that day.

    An evening's hold waits until it was played: more practice than planned does not use it up.
    """
    rows = book.db.execute(
        "SELECT purpose FROM day JOIN round ON round.day_id = day.id"
        " WHERE clinic_id = ? AND date = ? AND player_id = ?"
        " AND EXISTS (SELECT 1 FROM ball WHERE round_id = round.id AND taken)"
        f" ORDER BY {in_time('round')}",
        [clinic_id, on.isoformat(), player_id],
    )
    played = [Purpose(purpose) for (purpose,) in rows]
    theirs = [round_ for round_ in planned(book, clinic_id, on) if round_.player.id == player_id]
    left = theirs[len(played) :]
    if not left and not evening_holds(played):
        evenings = evening_holds([round_.purpose for round_ in theirs])
        left = [theirs[place] for place in evenings[-1:]]
    return tuple(left)


def next_planned(book: Book, clinic_id: int, after: date) -> date | None:
    """The first date after this one with a kept plan, unless the clinic played in between."""
    (found,) = book.db.execute(
        "SELECT min(date) FROM planned_round WHERE clinic_id = :clinic AND date > :after"
        " AND date <= coalesce("
        "   (SELECT min(date) FROM day WHERE clinic_id = :clinic AND date > :after), date)",
        {"clinic": clinic_id, "after": after.isoformat()},
    ).fetchone()
    return None if found is None else date.fromisoformat(found)


def zone_of_clinic(book: Book, name: str) -> str | None:
    """The time zone of the only clinic of that name; None where there is none, or several."""
    rows = book.db.execute("SELECT zone FROM clinic WHERE name = ?", [name]).fetchall()
    return str(rows[0][0]) if len(rows) == 1 else None
