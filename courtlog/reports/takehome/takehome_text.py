"""The take-home sheet as plain text: at most 78 columns, no colour, the same in a file.

The front comes first; the back, with every figure, only where figures are asked for.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from rich.cells import cell_len

from courtlog.coaching.plans.homework import Homework
from courtlog.coaching.voice.statement import SENTENCE_ONLY, Depth, Statement
from courtlog.plain_text import plain
from courtlog.reports.layout.page import WIDTH, cell, lines_of
from courtlog.reports.layout.said_lines import said_lines
from courtlog.reports.takehome import takehome_words as said
from courtlog.reports.takehome.takehome_facts import TakeHome
from courtlog.reports.takehome.takehome_front import DotRow, FrontLine, front
from courtlog.reports.takehome.takehome_sheet import home_sheet

MORE = "--why adds the reasons, --figures the back with every figure."
INDENT = "  "
BETWEEN_ROWS = "   "


def takehome_text(facts: TakeHome, depth: Depth = SENTENCE_ONLY) -> str:
    """The front, each sentence with its reason if asked for; with figures the back as well."""
    pages = [*_front(facts, Depth(why=depth.why))]
    if depth.figures:
        pages += _back(facts)
    else:
        pages += ["", MORE]
    return "\n".join(pages) + "\n"


def _front(facts: TakeHome, depth: Depth) -> Iterator[str]:
    yield from lines_of(said.headline(facts))
    yield "=" * WIDTH
    for number, section in enumerate(front(facts)):
        if number:
            yield ""
        yield section.title.upper()
        for line in section.lines:
            yield from _front_line(line, depth)


def _front_line(line: FrontLine, depth: Depth) -> Iterator[str]:
    said_with_name = line.said
    if line.name:
        named = f"{line.name}: {line.said.sentence}"
        said_with_name = Statement(named, line.said.reason)
    yield from said_lines(said_with_name, depth, INDENT)
    yield from _dots(line.rows)


def _dots(rows: Sequence[DotRow]) -> Iterator[str]:
    """Then and now on one line where there is room."""
    words = [f"{row.day} {row.dots}" for row in rows]
    together = INDENT * 2 + BETWEEN_ROWS.join(words)
    if cell_len(together) <= WIDTH:
        yield from [together] if words else []
        return
    for row in words:
        yield from lines_of(row, INDENT * 2)


def _back(facts: TakeHome) -> Iterator[str]:
    yield ""
    yield said.BACK.upper()
    yield "=" * WIDTH
    if facts.stroke:
        yield from _section(said.WELL, facts.well)
        yield from _changed(facts)
        if facts.plan is not None:
            yield from _plan(facts, facts.plan)
    yield from _section(said.CARE, list(said.cautions(facts)))


def _changed(facts: TakeHome) -> Iterator[str]:
    yield from _head(said.changed_title(facts))
    for cue in facts.cues:
        if cue.counts_only:
            days = ", ".join(
                f"day {number} {cue.day_words(number - 1)}"
                for number, counts in enumerate(cue.days, 1)
                if counts.seen
            )
            yield from _told(f"{plain(cue.name)}: {days or 'no ball seen'}.")
            continue
        yield from _told(f"{plain(cue.name)}: {cue.learned}")
        if cue.practice:
            yield from _told(cue.practice)
    for other in facts.others:
        yield from _told(plain(other))
    if said.reading(facts):
        yield from _told(said.reading(facts))


def _plan(facts: TakeHome, plan: Homework) -> Iterator[str]:
    if plan.drills:
        yield from _head(said.ALONE)
        for home in plan.drills:
            yield from _told(said.drill_head(home))
            yield from _told(said.drill_words(home, short=True), INDENT * 2)
        yield from _weeks(plan)
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


def _weeks(plan: Homework) -> Iterator[str]:
    if not plan.weeks:
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
