"""The take-home sheet as plain text: at most 78 columns, no colour, the same in a file."""

from __future__ import annotations

from collections.abc import Iterator

from courtlog.coaching.plans.homework import Homework
from courtlog.plain_text import plain
from courtlog.reports.layout.page import WIDTH, cell, lines_of
from courtlog.reports.takehome import takehome_words as said
from courtlog.reports.takehome.takehome_facts import TakeHome
from courtlog.reports.takehome.takehome_sheet import home_sheet

INDENT = "  "


def takehome_text(facts: TakeHome) -> str:
    """The whole sheet."""
    return "\n".join(_page(facts)) + "\n"


def _page(facts: TakeHome) -> Iterator[str]:
    yield from lines_of(said.headline(facts))
    yield "=" * WIDTH
    if not facts.stroke:
        yield from _told(said.NO_BALLS)
    else:
        yield from _section(said.WELL, facts.well)
        yield from _changed(facts)
        if facts.plan is None or not facts.plan.drills:
            yield from _section(said.ALONE, [said.NO_DRILLS])
        if facts.plan is not None:
            yield from _plan(facts, facts.plan)
    yield from _section(said.CARE, list(said.cautions(facts)))


def _changed(facts: TakeHome) -> Iterator[str]:
    yield from _head(said.CHANGED)
    for cue in facts.cues:
        yield from _told(f"{plain(cue.name)}: {cue.learned}")
        if cue.practice:
            yield from _told(cue.practice)
    for other in facts.others:
        yield from _told(plain(other))
    yield from _told(" ".join(part for part in (said.READING, said.meanings(facts)) if part))


def _plan(facts: TakeHome, plan: Homework) -> Iterator[str]:
    if plan.drills:
        yield from _head(said.ALONE)
        for home in plan.drills:
            yield from _told(said.drill_head(home))
            yield from _told(said.drill_words(home, short=True), INDENT * 2)
        yield from _weeks(facts, plan)
    if plan.yardstick is None:
        return
    yield from _head(said.SAY)
    for cue in plan.yardstick.cues:
        yield from _told(f"{plain(cue.name)}: {said.phrases(cue)}")
    yield from _head(said.AGAIN)
    again = plan.yardstick
    words = (said.yardstick_words(again), said.RATING, said.grades(again), said.TYPING)
    yield from _told(" ".join(words))
    yield from home_sheet(facts, plan.yardstick, WIDTH)


def _weeks(facts: TakeHome, plan: Homework) -> Iterator[str]:
    if not plan.weeks:
        if facts.pain is not None:
            yield from _section(said.WEEKS, [said.no_doses(facts)])
        return
    yield from _head(said.WEEKS)
    wide = (WIDTH - 35) // len(plan.drills)
    names = "".join(cell(plain(home.drill.name), wide) for home in plan.drills)
    yield f"{INDENT}{'week':<6}{'sessions':<10}{names}balls a week".rstrip()
    for week in plan.weeks:
        balls = "".join(f"{n or '-':<{wide}}" for n in week.balls)
        yield f"{INDENT}{week.number:<6}{week.sessions:<10}{balls}{week.total}"
    yield from _told(said.dose_words(plan))


def _section(title: str, entries: tuple[str, ...] | list[str]) -> Iterator[str]:
    yield from _head(title)
    for entry in entries:
        yield from _told(plain(entry))


def _head(title: str) -> Iterator[str]:
    yield ""
    yield title.upper()


def _told(text: str, indent: str = INDENT) -> Iterator[str]:
    yield from lines_of(text, indent)
