"""A stroke's cues as a table with sparklines, as a chart across days, and as a page of trends."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from courtlog import times
from courtlog.plain_text import many, plain
from courtlog.reports.facts.models import CueFacts, TrendFacts
from courtlog.reports.layout.charts import key_to, share_chart
from courtlog.reports.layout.page import WIDTH, cell, lines_of
from courtlog.reports.layout.signs import spark

SPARK_DAYS = 9
"""Days of a sparkline that fit beside the counts."""

MOST_LABELS = 10
"""Days that can be written `day 7` under a chart; more are numbers alone."""

CHART_DAYS = 2
"""A chart needs two days; before that there is nothing to draw."""


def cue_table(stroke: str, cues: Sequence[CueFacts], number: int) -> Iterator[str]:
    """One line a cue: made today, not seen, made on the day before, the days."""
    yield f"  {plain(stroke)}"
    yield (f"  {'':15}{'made today':<17}{'not seen':<10}{'made before':<25}{_day_range(number)}")
    for cue in cues:
        yield (
            f"  {cell(plain(cue.name), 15)}{cue.today.words():<17}{cue.today.unseen or '':<10}"
            f"{_before(cue):<25}{spark(day.counts for day in cue.days[-SPARK_DAYS:])}"
        )


def _before(cue: CueFacts) -> str:
    """`55 of 93 (59%) on day 4`, or `none`."""
    if cue.before is None:
        return "none"
    number, counts = cue.before
    return f"{counts.words()} on day {number}"


def _day_range(number: int) -> str:
    """The days of the sparkline: all of them, or the last that fit."""
    return "day 1" if number == 1 else f"days {max(1, number - SPARK_DAYS + 1)}-{number}"


def days_chart(cues: Sequence[CueFacts], number: int) -> Iterator[str]:
    """The shares by day as a chart with its key; nothing before the second day."""
    drawn = cues[:4]
    if (
        sum(any(cue.days[index].counts.seen for cue in drawn) for index in range(number))
        < CHART_DAYS
    ):
        return
    shares = {plain(cue.name): [day.share for day in cue.days] for cue in drawn}
    yield ""
    word = "day " if number <= MOST_LABELS else ""
    days = [f"{word}{n + 1}" for n in range(number)]
    for line in share_chart(shares, days, WIDTH - 2).split("\n"):
        yield f"  {line}"
    yield f"  made of seen: {key_to(list(shares))}"


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
        for cue in cues:
            yield f"  {cell(plain(cue.name), 15)}{spark(day.counts for day in cue.days)}"
            for number, day in enumerate(cue.days, 1):
                yield f"    day {number}  {times.date_words(day.date):<12}{day.counts.words()}"
        yield from days_chart(cues, len(facts.dates))
    yield ""
    yield "All drills and purposes together, near counted as not made: a record of"
    yield "practice, not of learning."
