"""Look-ups of how a clinic was set up: its plan, its first day, and the one that is next."""

from __future__ import annotations

import json
from dataclasses import dataclass

from courtlog.coaching.game.people import Clinic
from courtlog.coaching.plans.clinic_plan import ClinicPlan
from courtlog.coaching.plans.rotation import TurnOrder
from courtlog.logbook.file.opening import Book
from courtlog.logbook.reads import lookups


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
