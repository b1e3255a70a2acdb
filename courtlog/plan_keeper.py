"""The plan of one day as the coach changes it: what is kept is on disk before it is shown.

The court screen and the command line share it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from courtlog import times
from courtlog.coaching.game.people import Clinic
from courtlog.coaching.plans.plan_edits import Plan
from courtlog.errors import CourtlogError
from courtlog.library.drill_files import Library
from courtlog.logbook.file.book import Book
from courtlog.logbook.writes import clinic_writer
from courtlog.logbook.writes.courts.deal_writer import deal_players
from courtlog.reports.facts.plan_facts import (
    PlanRequest,
    Plans,
    facts_of,
    last_played,
    plans,
)
from courtlog.reports.facts.plan_models import (
    PlanFacts,
)


@dataclass(frozen=True, slots=True)
class PlanKeeper:
    """The plan of a date; a change to the proposal keeps it with the change."""

    book: Book
    clinic: Clinic
    library: Library
    on: date
    asked: PlanRequest

    def plans(self) -> Plans:
        """The kept plan and the proposal."""
        return plans(self.book, self.clinic, self.on, self.library, self.asked)

    def facts(self, both: Plans | None = None) -> PlanFacts:
        """The facts that are printed of it."""
        both = both or self.plans()
        return facts_of(both, self.book, self.clinic, self.library, self.asked.hours)

    def keep_proposal(self, at_ms: int, both: Plans | None = None) -> None:
        """Keep the proposal as it is, and with it who goes to which court.

        Raises CourtlogError without a round, or over a kept plan.
        """
        both = both or self.plans()
        if both.kept:
            raise CourtlogError("A plan is kept for this day already.", "Forget that one first.")
        if not both.proposal.rounds:
            raise CourtlogError("There is no round to keep.", "The plan says why.")
        with self.book.writing():
            self._keep(both.kept, both.proposal.rounds, at_ms)
            if both.courts is not None:
                deal_players(self.book, self.clinic.id, self.on, both.courts.groups, at_ms)

    def edit(self, change: Callable[[Plan], Plan], at_ms: int, both: Plans | None = None) -> None:
        """Keep the plan with this change; the proposal if none is kept yet. Raises CourtlogError.

        `both` are the plans that the coach was looking at, if that was a while ago.
        """
        both = both or self.plans()
        self._keep(both.kept, change(both.rounds), at_ms)

    def forget(self, at_ms: int, both: Plans | None = None) -> None:
        """Go back to the proposal. Raises CourtlogError when no plan is kept."""
        both = both or self.plans()
        if not both.kept:
            raise CourtlogError("No plan is kept for this day.", "The proposal stands anyway.")
        self._keep(both.kept, (), at_ms)

    def _keep(self, before: Plan, after: Plan, at_ms: int) -> None:
        last = last_played(self.book, self.clinic)
        if last is not None and self.on < last:
            raise CourtlogError(
                f"{times.date_words(self.on)} is past: the clinic played on"
                f" {times.date_words(last)}.",
                "A plan is for that day or a later one.",
            )
        clinic_writer.keep_plan(self.book, self.clinic.id, self.on, before, after, at_ms)
