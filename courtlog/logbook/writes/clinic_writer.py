"""Write a clinic: begin it, change it, keep the plan of a date; each entry is one transaction."""

from __future__ import annotations

import json
from collections.abc import Sequence
from datetime import date
from itertools import chain

from courtlog import times
from courtlog.coaching.game.people import Clinic
from courtlog.coaching.plans.clinic_plan import ClinicPlan
from courtlog.coaching.plans.planned_round import PlannedRound
from courtlog.errors import BookError, ChangedElsewhereError
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.logbook.reads.clinic_lookups import FirstDay, planned
from courtlog.logbook.rows.row_changes import insert
from courtlog.names import folded_name


def set_plan(book: Book, clinic_id: int, plan: ClinicPlan) -> None:
    """Set how the clinic is run from now on."""
    with book.setting_up() as db:
        db.execute(
            "UPDATE clinic SET stations = ?, turn_order = ?, turn_seconds = ?, rest_minutes = ?,"
            " wbgt_modify = ?, wbgt_stop = ?, wbgt_rule = ? WHERE id = ?",
            [
                json.dumps(plan.stations, ensure_ascii=False),
                str(plan.order),
                plan.turn_seconds,
                plan.rest_minutes,
                plan.wbgt_modify,
                plan.wbgt_stop,
                plan.wbgt_rule,
                clinic_id,
            ],
        )


def begin_clinic(book: Book, clinic: Clinic, first_day: FirstDay, at_ms: int) -> Clinic:
    """Begin a clinic without a day; returns it with its id. Raises BookError for a name in use."""
    with book.setting_up() as db:
        _check_name(book, clinic)
        made = insert(
            db,
            book.ids,
            at_ms,
            "clinic",
            name=clinic.name,
            zone=clinic.zone,
            planned_days=clinic.planned_days,
            first_court=first_day.court,
            first_coach=first_day.coach,
        )
    return lookups.clinic(book, made)


def change_clinic(book: Book, clinic: Clinic, plan: ClinicPlan) -> None:
    """Set the clinic's name, zone and days, and how it is run.

    Raises BookError for a name in use, and for a zone in which a ball would fall on another date.
    """
    with book.setting_up() as db:
        _check_name(book, clinic)
        _check_zone(book, clinic)
        db.execute(
            "UPDATE clinic SET name = ?, zone = ?, planned_days = ? WHERE id = ?",
            [clinic.name, clinic.zone, clinic.planned_days, clinic.id],
        )
        set_plan(book, clinic.id, plan)


def _check_name(book: Book, clinic: Clinic) -> None:
    for other in lookups.clinics(book):
        if other.id != clinic.id and folded_name(other.name) == folded_name(clinic.name):
            raise BookError(
                f"The book has a clinic called {other.name} already.",
                "Write a word more, for example the year.",
            )


def _check_zone(book: Book, clinic: Clinic) -> None:
    before = lookups.clinic(book, clinic.id).place
    moments = book.db.execute(
        "SELECT started_at, ended_at, min(taken_at), max(taken_at) FROM round"
        " JOIN day ON day.id = day_id LEFT JOIN ball ON ball.round_id = round.id"
        " WHERE clinic_id = ? GROUP BY round.id",
        [clinic.id],
    ).fetchall()
    moved: set[date] = {
        times.local_date(at, before)
        for at in chain.from_iterable(moments)
        if at is not None and times.local_date(at, before) != times.local_date(at, clinic.place)
    }
    if moved:
        raise BookError(
            f"The zone stays: in {clinic.zone} balls of {times.date_words(min(moved))} would be"
            " those of another date.",
            "A clinic at another place is a new one: courtlog clinic new.",
        )


def keep_plan(
    book: Book,
    clinic_id: int,
    on: date,
    before: Sequence[PlannedRound],
    after: Sequence[PlannedRound],
    at_ms: int,
) -> None:
    """Keep `after` (nothing: forget the plan) in place of `before`.

    Raises ChangedElsewhereError when the book no longer holds what the coach had before the eyes.
    """
    with book.setting_up() as db:
        now = [round_.identity for round_ in planned(book, clinic_id, on)]
        if now != [round_.identity for round_ in before]:
            raise ChangedElsewhereError(
                "Another window has changed this plan; here is what the book holds.",
                "Close one of the two.",
            )
        db.execute(
            "DELETE FROM planned_round WHERE clinic_id = ? AND date = ?",
            [clinic_id, on.isoformat()],
        )
        for player in {round_.player.id for round_ in after} if not before else ():
            # What a rung call put down is in the plan now; a later one goes before it.
            db.execute(
                "UPDATE roster SET next_drill = NULL WHERE clinic_id = ? AND player_id = ?",
                [clinic_id, player],
            )
        for place, round_ in enumerate(after, 1):
            insert(
                db,
                book.ids,
                at_ms,
                "planned_round",
                clinic_id=clinic_id,
                date=on.isoformat(),
                place=place,
                player_id=round_.player.id,
                drill=round_.drill,
                purpose=str(round_.purpose),
                balls=round_.balls,
            )
