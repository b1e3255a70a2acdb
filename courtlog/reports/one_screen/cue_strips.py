"""A stroke's cues as strips on a page: the count of the day, and a column for each round."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from rich.cells import cell_len

from courtlog import times
from courtlog.coaching.answers.cue_rounds import CueRound
from courtlog.plain_text import plain
from courtlog.reports.facts.models import CueFacts
from courtlog.reports.layout.cue_strip import cue_strip, day_heads, legend
from courtlog.reports.layout.page import WIDTH, cell
from courtlog.reports.layout.signs import OTHER_DRILLS

MOST_NAME = 24
"""Cells of a cue's name at most."""

COUNT = 14
"""Cells of `57 of 85` and the blanks before the bars."""

OTHER = f"{OTHER_DRILLS} other drills than on the first day: fewer made need not mean worse"


def strips(
    title: str,
    cues: Sequence[CueFacts],
    rounds: Mapping[str, Sequence[CueRound]],
    dates: Sequence[date],
) -> Iterator[str]:
    """One line a cue under the names of the days, and one of marks; a line on other drills.

    The last of the dates is the page's day; rounds are looked up by cue.
    """
    names = [plain(cue.name) + OTHER_DRILLS * _of_other_drills(cue) for cue in cues]
    wide = min(max(map(cell_len, [plain(title), *names])), MOST_NAME) + 2
    left, room = 2 + wide + COUNT, WIDTH - 2 - wide - COUNT
    on, first = dates[-1], next((rounds[cue.cue] for cue in cues if cue.cue in rounds), ())
    head = day_heads(first, on, room, lambda day: _day_name(day, dates))
    yield f"{cell(plain(title), wide + 2)}{'that day':<{COUNT}}{head}".rstrip()
    marks = ""
    for cue, name in zip(cues, names, strict=True):
        bars, marks = cue_strip(rounds.get(cue.cue, ()), on, 2, room)
        yield f"  {cell(name, wide)}{cue.today.of_words():<{COUNT}}{bars}".rstrip()
    yield f"  {legend(left - 4, 'that day'):<{left - 2}}{marks}".rstrip()
    if any(map(_of_other_drills, cues)):
        yield f"  {OTHER}"


def _of_other_drills(cue: CueFacts) -> bool:
    return any(day.other_drills for day in cue.days)


def _day_name(on: date, dates: Sequence[date]) -> str:
    """`Mon`, or `11.` where weekdays would not tell the days apart."""
    if (dates[-1] - dates[0]).days < len(times.WEEKDAYS):
        return times.weekday_word(on)[:3]
    return f"{on.day}."
