"""A stroke's cues as a table with sparklines, as a chart across days, and as a page of trends."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from itertools import zip_longest

from rich.cells import cell_len

from courtlog import times
from courtlog.coaching.answers.cue_rounds import CueRound
from courtlog.coaching.answers.drill_mix import other_drills_words
from courtlog.plain_text import many, plain
from courtlog.reports.facts.models import CueDay, CueFacts, TrendFacts
from courtlog.reports.layout.charts import can_be_drawn, key_to, share_chart
from courtlog.reports.layout.cue_strip import BROADEST, cue_strip, legend
from courtlog.reports.layout.page import WIDTH, cell, lines_of
from courtlog.reports.layout.signs import OTHER_DRILLS, spark

INDENT = GAP = 2
"""Cells before a row, and between two columns."""

SPARK_DAYS = 8
"""Days of a sparkline that fit beside the counts."""

MOST_LABELS = 10
"""Days that can be written `day 7` under a chart; more are numbers alone."""

LEAST_STRIP = 20
"""Cells of a strip that stands beside the days."""

LEAST_ROWS, MOST_ROWS = 4, 9
"""Rows of a strip."""

CHART_DAYS = 2
"""A chart needs two days; before that there is nothing to draw."""


def cue_table(stroke: str, cues: Sequence[CueFacts], number: int) -> Iterator[str]:
    """One line a cue: made today, not seen, made on the day before, the days."""
    head = ["made today", "not seen", "made before", _day_range(number)]
    rows = [list(_columns(cue)) for cue in cues]
    wide = [max(map(cell_len, column)) + GAP for column in zip(head, *rows, strict=True)]
    names = [plain(cue.name) for cue in cues]
    name_wide = min(max(map(cell_len, names)) + GAP, WIDTH - INDENT - sum(wide) + GAP)
    yield f"  {plain(stroke)}"
    yield f"  {'':{name_wide}}{_row(head, wide)}"
    for cue, name, row in zip(cues, names, rows, strict=True):
        yield f"  {cell(name, name_wide)}{_row(row, wide)}"
        yield from _not_seen(cue, name_wide + INDENT)
    yield from other_drills_note(cues)


def _columns(cue: CueFacts) -> Iterator[str]:
    shown = cue.days[-SPARK_DAYS:]
    yield _words(cue.days[-1])
    yield str(cue.today.unseen or "")
    yield _before(cue)
    yield f"{spark(day.counts for day in shown)}{_mark(any(d.other_drills for d in shown))}"


def _row(texts: Sequence[str], wide: Sequence[int]) -> str:
    return "".join(f"{text:<{cells}}" for text, cells in zip(texts, wide, strict=True)).rstrip()


def _not_seen(cue: CueFacts, indent: int) -> Iterator[str]:
    """The line below a cue of which too many balls were not seen, today or on the day before."""
    parts = []
    if cue.days[-1].not_seen:
        parts.append(f"today {cue.days[-1].not_seen}")
    if cue.before is not None and cue.days[cue.before - 1].not_seen:
        parts.append(f"day {cue.before} {cue.days[cue.before - 1].not_seen}")
    if parts:
        yield from lines_of("; ".join(parts), " " * indent)


def other_drills_note(cues: Sequence[CueFacts]) -> Iterator[str]:
    """The sentence below days of which some are marked; nothing where none is."""
    marked = [cue for cue in cues if any(day.other_drills for day in cue.days)]
    if marked:
        first = [cue.first for cue in marked if cue.first is not None]
        yield from lines_of(other_drills_words(OTHER_DRILLS, first), "  ")


def _mark(other_drills: bool) -> str:
    return OTHER_DRILLS * other_drills


def _words(day: CueDay) -> str:
    """`14 of 20 (70%)`, marked where the drills were others."""
    return f"{day.counts.words()}{_mark(day.other_drills)}"


def _before(cue: CueFacts) -> str:
    """`55 of 93 (59%)~ on day 4`, or `none`."""
    if cue.before is None:
        return "none"
    return f"{_words(cue.days[cue.before - 1])} on day {cue.before}"


def _day_range(number: int) -> str:
    """The days of the sparkline: all of them, or the last that fit."""
    return "day 1" if number == 1 else f"days {max(1, number - SPARK_DAYS + 1)}-{number}"


def days_chart(cues: Sequence[CueFacts], number: int) -> Iterator[str]:
    """The shares by day as a chart with its key; nothing before the second day."""
    drawn = cues[:4]
    if not can_be_drawn() or (
        sum(any(cue.days[index].counts.seen for cue in drawn) for index in range(number))
        < CHART_DAYS
    ):
        return
    shares = {plain(cue.name): [day.share for day in cue.days] for cue in drawn}
    yield ""
    word = "day " if number <= MOST_LABELS else ""
    marks = [_mark(any(cue.days[n].other_drills for cue in drawn)) for n in range(number)]
    days = [f"{word}{n}{mark}" for n, mark in enumerate(marks, 1)]
    for line in share_chart(shares, days, WIDTH - 2).split("\n"):
        yield f"  {line}"
    yield f"  made of seen: {key_to(list(shares))}"


def _days_and_rounds(cue: CueFacts, rounds: Sequence[CueRound], last: date) -> Iterator[str]:
    """A cue's days line by line, and its rounds as a strip beside them, or below them."""
    left = [f"  {plain(cue.name)}{_mark(any(day.other_drills for day in cue.days))}"]
    for number, day in enumerate(cue.days, 1):
        seen = f"; {day.not_seen}" if day.not_seen else ""
        left.append(f"    day {number}  {times.date_words(day.date):<12}{_words(day)}{seen}")
    wide = max(map(cell_len, left)) + GAP
    beside = WIDTH - wide >= LEAST_STRIP
    if not beside:
        yield from left
        left, wide = [], INDENT
    rows = min(max(len(left), LEAST_ROWS), MOST_ROWS)
    strip = cue_strip(rounds, last, rows, WIDTH - wide, BROADEST)
    for text, row in zip_longest(left, strip, fillvalue=""):
        yield f"{cell(text, wide)}{row}".rstrip()


def trend_text(facts: TrendFacts) -> str:
    """The whole page."""
    return "\n".join(_trend(facts)) + "\n"


def _trend(facts: TrendFacts) -> Iterator[str]:
    title = f"{plain(facts.player)} · {plain(facts.clinic)} · {many(len(facts.dates), 'day')}"
    yield from lines_of(title)
    yield "=" * WIDTH
    if not facts.cues:
        yield "No balls yet."
    for stroke in dict.fromkeys(cue.title for cue in facts.cues):
        cues = [cue for cue in facts.cues if cue.title == stroke]
        yield ""
        yield f"  {plain(stroke)}"
        yield f"  {legend(WIDTH - 2, 'last day')}"
        for cue, rounds in zip(facts.cues, facts.rounds, strict=True):
            if cue.title == stroke:
                yield from _days_and_rounds(cue, rounds, facts.dates[-1])
        yield from days_chart(cues, len(facts.dates))
        yield from other_drills_note(cues)
    yield ""
    yield "All drills and purposes together, near counted as not made: a record of"
    yield "practice, not of learning."
