"""What a sheet was printed for: the round of the plan, or the yardstick, that its code names."""

from __future__ import annotations

from collections.abc import Iterator

from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.game.sheet_code import SheetKind, round_task
from courtlog.coaching.paper.filled_sheet import SheetTask
from courtlog.courtside.screens.paper.sheet_place import SheetPlace
from courtlog.library.drill_files import Library
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups, people_lookups
from courtlog.reports.facts.plan_facts import plans
from courtlog.reports.takehome.takehome_facts import take_home


def printed_task(book: Book, place: SheetPlace, library: Library) -> SheetTask | None:
    """The task of the sheet as the book would print it now; None where that is another one.

    A plan may have changed since: then nothing fits the code, and whoever types is asked.
    """
    if place.code.blank:
        return None
    tasks = _of_home if place.code.kind is SheetKind.HOME else _of_court
    return next((task for task in tasks(book, place, library) if _fits(place, task)), None)


def usual_cues(
    book: Book, place: SheetPlace, library: Library, stroke: str
) -> tuple[tuple[str, ...], ...]:
    """The cues that a sheet of this stroke can have over its boxes, the likeliest first."""
    ladder = library.ladders.get(stroke)
    clinic, player = place.owner.clinic.id, place.owner.player.id
    ways = (
        people_lookups.focus(book, clinic, player, stroke).cues,
        # Those of earlier days too: the court may have gone on with others since it was printed.
        *lookups.all_cues_of(book, player, clinic, stroke),
        ladder.first_cues if ladder else (),
    )
    known = {cue.key for cue in ladder.cues} if ladder else set()
    return tuple(dict.fromkeys(cues for cues in ways if cues and set(cues) <= known))


def _of_court(book: Book, place: SheetPlace, library: Library) -> Iterator[SheetTask]:
    """The planned rounds of that date, the one of the sheet's number first."""
    both = plans(book, place.owner.clinic, place.code.on, library)
    planned = [round_ for round_ in both.rounds if round_.player.id == place.owner.player.id]
    numbered = sorted(enumerate(planned, 1), key=lambda pair: pair[0] != place.code.number)
    for _, round_ in numbered:
        for cues in usual_cues(book, place, library, round_.drill.partition("/")[0]):
            yield SheetTask(
                drill=round_.drill, purpose=round_.purpose, cues=cues, balls=round_.balls
            )


def _of_home(book: Book, place: SheetPlace, library: Library) -> Iterator[SheetTask]:
    facts = take_home(book, place.owner.clinic, place.owner.player.shown_name, library)
    again = facts.plan.yardstick if facts.plan else None
    if again is not None:
        yield SheetTask(
            drill=f"{facts.stroke}/{again.drill.key}",
            purpose=Purpose.YARDSTICK,
            cues=tuple(cue.key for cue in again.cues),
            balls=again.balls,
        )


def _fits(place: SheetPlace, task: SheetTask) -> bool:
    return place.code.printed_for(round_task(task.drill, task.purpose, task.balls, task.cues))
