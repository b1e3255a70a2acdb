"""What `courtlog plan` and its subcommands do; every change is kept, then printed."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from courtlog import times
from courtlog.cli.book_to_write import book_beside
from courtlog.cli.common import chosen_clinic, existing_book, library, now, typed_date
from courtlog.cli.output import Form, write, write_page
from courtlog.coaching.game.people import Clinic
from courtlog.coaching.plans import plan_edits
from courtlog.coaching.plans.day_plan import PRACTICE_TURNS
from courtlog.coaching.plans.plan_edits import Plan, RoundChange, purpose_named
from courtlog.coaching.voice.statement import Depth
from courtlog.library.drill_files import Library
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.plan_keeper import PlanKeeper
from courtlog.reports import pages
from courtlog.reports.facts.plan_facts import PlanRequest, plan_facts, usual_date


@dataclass(frozen=True, slots=True)
class WhichPlan:
    """The plan that is meant: a book, a clinic in it, a date as typed; None for the usual one."""

    book: Path | None
    clinic: str | None
    on: str | None
    courts: int | None = None


@dataclass(frozen=True, slots=True)
class PlanDepth:
    """What the page has beside the plan in short: every round, the reasons, the figures."""

    rounds: bool
    why: bool
    figures: bool


def print_plan(which: WhichPlan, asked: PlanRequest, form: Form, shown: PlanDepth) -> None:
    """Print the kept plan of a day, else the proposal, as text or JSON."""
    with existing_book(which.book) as book:
        clinic = chosen_clinic(book, which.clinic)
        facts = plan_facts(book, clinic, _date(book, clinic, which), library(), asked)

    depth = Depth(why=shown.why, figures=shown.figures)
    write(facts, lambda: pages.plan_text.plan_text(facts, depth, shown.rounds), form)


def request(
    stroke: str | None, turns: int | None, hours: float | None = None, courts: int | None = None
) -> PlanRequest:
    """What the proposal is asked for, as typed."""
    return PlanRequest(stroke, turns or PRACTICE_TURNS, hours, courts)


def keep_proposal(
    which: WhichPlan, stroke: str | None, turns: int | None, courts: int | None
) -> None:
    """Keep the proposal, where nothing is kept yet."""
    with _desk(which, request(stroke, turns, courts=courts)) as desk:
        desk.keep_proposal(now())


def change_round(
    which: WhichPlan, place: int, drill: str | None, purpose: str | None, balls: int | None
) -> None:
    """Change a round; what is not given stays."""
    change = RoundChange(drill, None if purpose is None else purpose_named(purpose), balls)
    _edit(which, lambda plan, drills: plan_edits.changed(plan, place, change, drills.ladders))


def move_round(which: WhichPlan, place: int, to: int) -> None:
    """Move a round to another place."""
    _edit(which, lambda plan, _: plan_edits.moved(plan, place, to))


def drop_round(which: WhichPlan, place: int) -> None:
    """Leave a round out."""
    _edit(which, lambda plan, _: plan_edits.dropped(plan, place))


def add_round(
    which: WhichPlan, name: str, drill: str | None, purpose: str | None, balls: int | None
) -> None:
    """Add a round at the end."""
    change = RoundChange(drill, None if purpose is None else purpose_named(purpose), balls)
    with _desk(which, PlanRequest()) as desk:
        player = lookups.player_on_roster(desk.book, desk.clinic.id, name)
        ladders = desk.library.ladders
        desk.edit(lambda plan: plan_edits.added(plan, player, change, ladders), now())


def forget_plan(which: WhichPlan) -> None:
    """Forget the kept plan: back to the proposal."""
    with _desk(which, PlanRequest()) as desk:
        desk.forget(now())


def _edit(which: WhichPlan, change: Callable[[Plan, Library], Plan]) -> None:
    with _desk(which, PlanRequest()) as desk:
        desk.edit(lambda plan: change(plan, desk.library), now())


@contextmanager
def _desk(which: WhichPlan, asked: PlanRequest) -> Iterator[PlanKeeper]:
    """The plan of the day to change; it is printed afterwards."""
    with book_beside(which.book) as book:
        clinic = chosen_clinic(book, which.clinic)
        desk = PlanKeeper(book, clinic, library(), _date(book, clinic, which), asked)
        yield desk
        page = pages.plan_text.plan_text(desk.facts())
    write_page(page)


def _date(book: Book, clinic: Clinic, which: WhichPlan) -> date:
    today = times.local_date(now(), clinic.place)
    return typed_date(which.on) or usual_date(book, clinic, today)
