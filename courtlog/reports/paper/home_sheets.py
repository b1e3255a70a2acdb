"""The facts of a home yardstick: what to feed and what to look at, and never an old grade.

Whoever fills it in must not see how it went before. So the first yardstick's balls stay out.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from courtlog.coaching.game.people import Clinic
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.game.sheet_code import SheetCode, SheetKind, round_task
from courtlog.coaching.plans.homework import HomeYardstick
from courtlog.library.drill_files import Library
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.reports.takehome.takehome_facts import TakeHome, take_home

NO_BALL = "no ball was hit, so there is no yardstick"
WAITS = "hitting waits for a clinician's word"


@dataclass(frozen=True, slots=True, kw_only=True)
class HomeSheet:
    """One yardstick to fill in; `yardstick` holds no balls of the clinic."""

    player: str
    clinic: str
    title: str
    """The stroke's name."""
    code: SheetCode
    yardstick: HomeYardstick
    minor: bool


@dataclass(frozen=True, slots=True)
class NoHomeSheet:
    """A player who gets no sheet, and why."""

    player: str
    why: str


def home_sheets(
    book: Book, clinic: Clinic, library: Library, player: str | None = None
) -> tuple[list[HomeSheet], list[NoHomeSheet]]:
    """The sheets of everybody on the roster, or of one player, and who gets none.

    Raises CourtlogError.
    """
    if player is None:
        names = [who.shown_name for who in lookups.players(book, clinic.id)]
    else:
        names = [lookups.player_on_roster(book, clinic.id, player).shown_name]
    sheets: list[HomeSheet] = []
    none: list[NoHomeSheet] = []
    for name in names:
        facts = take_home(book, clinic, name, library)
        if facts.plan is None or facts.plan.yardstick is None:
            none.append(NoHomeSheet(facts.player, WAITS if facts.waits else NO_BALL))
        else:
            sheets += _sheets(facts, facts.plan.yardstick)
    return sheets, none


def _sheets(facts: TakeHome, again: HomeYardstick) -> Iterator[HomeSheet]:
    """One sheet; two where no yardstick was played yet: before the first week, after the last."""
    drill = f"{facts.stroke}/{again.drill.key}"
    keys = [cue.key for cue in again.cues]
    task = round_task(drill, Purpose.YARDSTICK, again.balls, keys)
    for number in (1,) if again.on is not None else (1, 2):
        yield HomeSheet(
            player=facts.player,
            clinic=facts.clinic,
            title=facts.title,
            code=SheetCode.of(
                SheetKind.HOME,
                again.on or facts.dates[-1],
                facts.clinic,
                facts.player,
                number,
                task,
            ),
            yardstick=replace(again, first=()),
            minor=facts.minor,
        )
