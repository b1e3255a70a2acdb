"""What `courtlog plan` and its subcommands do; every change is kept, then printed."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import date

from courtlog import times
from courtlog.cli.actions.printing import Form, write
from courtlog.cli.commands.plan import Day
from courtlog.cli.common import chosen_clinic, existing_book, library, now, typed_date
from courtlog.cli.writing import book_beside
from courtlog.coaching.game.people import Clinic
from courtlog.coaching.plans import plan_edits
from courtlog.coaching.plans.day_plan import PRACTICE_TURNS
from courtlog.coaching.plans.plan_edits import Change, Plan, purpose_named
from courtlog.courtside.desk.plan_desk import PlanDesk
from courtlog.library.drill_files import Library
from courtlog.logbook.file.opening import Book
from courtlog.logbook.reads import lookups
from courtlog.reports.facts.plan_facts import Asked, plan_facts, usual_date


def print_plan(
    day: Day, stroke: str | None, turns: int | None, hours: float | None, form: Form
) -> None:
    """Print the kept plan of a day, else the proposal, as text or JSON."""
    asked = Asked(stroke, turns or PRACTICE_TURNS, hours)
    with existing_book(day.book) as book:
        clinic = chosen_clinic(book, day.clinic)
        facts = plan_facts(book, clinic, _date(book, clinic, day), library(), asked)

    def page() -> str:
        from courtlog.reports.pages.plan_text import plan_text

        return plan_text(facts)

    write(facts, page, form)


def keep_proposal(day: Day, stroke: str | None, turns: int | None) -> None:
    """Keep the proposal, where nothing is kept yet."""
    with _desk(day, Asked(stroke, turns or PRACTICE_TURNS)) as desk:
        desk.keep_proposal(now())


def change_round(
    day: Day, place: int, drill: str | None, purpose: str | None, balls: int | None
) -> None:
    """Change a round; what is not given stays."""
    change = Change(drill, None if purpose is None else purpose_named(purpose), balls)
    _edit(day, lambda plan, drills: plan_edits.changed(plan, place, change, drills.ladders))


def move_round(day: Day, place: int, to: int) -> None:
    """Move a round to another place."""
    _edit(day, lambda plan, _: plan_edits.moved(plan, place, to))


def drop_round(day: Day, place: int) -> None:
    """Leave a round out."""
    _edit(day, lambda plan, _: plan_edits.dropped(plan, place))


def add_round(
    day: Day, name: str, drill: str | None, purpose: str | None, balls: int | None
) -> None:
    """A round more at the end."""
    change = Change(drill, None if purpose is None else purpose_named(purpose), balls)
    with _desk(day, Asked()) as desk:
        player = lookups.player_named(desk.book, desk.clinic.id, name)
        ladders = desk.library.ladders
        desk.edit(lambda plan: plan_edits.added(plan, player, change, ladders), now())


def forget_plan(day: Day) -> None:
    """Back to the proposal."""
    with _desk(day, Asked()) as desk:
        desk.forget(now())


def _edit(day: Day, change: Callable[[Plan, Library], Plan]) -> None:
    with _desk(day, Asked()) as desk:
        desk.edit(lambda plan: change(plan, desk.library), now())


@contextmanager
def _desk(day: Day, asked: Asked) -> Iterator[PlanDesk]:
    """The plan of the day to be changed, printed afterwards."""
    from courtlog.reports.pages.plan_text import plan_text

    with book_beside(day.book) as book:
        clinic = chosen_clinic(book, day.clinic)
        desk = PlanDesk(book, clinic, library(), _date(book, clinic, day), asked)
        yield desk
        sys.stdout.write(plan_text(desk.facts()))


def _date(book: Book, clinic: Clinic, day: Day) -> date:
    today = times.local_date(now(), clinic.place)
    return typed_date(day.on) or usual_date(book, clinic, today)
