"""One player's cues across the clinic, as plain text."""

from __future__ import annotations

from collections.abc import Iterator

from courtlog.coaching import times
from courtlog.coaching.plain import many, plain
from courtlog.reports.cue_table import days_chart
from courtlog.reports.facts import TrendFacts
from courtlog.reports.page import WIDTH, cell, lines_of
from courtlog.reports.sparks import spark


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
            for at, day in enumerate(cue.days, 1):
                yield f"    day {at}  {times.date_words(day.date):<12}{day.counts.words()}"
        yield from days_chart(cues, len(facts.dates))
    yield ""
    yield "All drills and purposes together, near counted as not made: a record of"
    yield "practice, not of learning."
