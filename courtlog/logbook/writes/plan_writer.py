"""The write door of a day's plan: kept as a whole, or forgotten; one committed transaction each."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from courtlog.coaching.plans.planned_round import PlannedRound
from courtlog.errors import ChangedElsewhereError
from courtlog.logbook.file.opening import Book
from courtlog.logbook.reads.plan_lookups import planned
from courtlog.logbook.rows.row_changes import insert


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
    with book.writing() as db:
        now = [round_.same for round_ in planned(book, clinic_id, on)]
        if now != [round_.same for round_ in before]:
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
