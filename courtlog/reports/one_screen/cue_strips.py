"""A stroke's cues as strips on a page: the day's count, and a bar for each day of the clinic."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from rich.cells import cell_len

from courtlog import times
from courtlog.plain_text import plain
from courtlog.reports.facts.models import CueFacts
from courtlog.reports.layout.page import WIDTH, cell
from courtlog.reports.layout.signs import OTHER_DRILLS, bar

MOST_NAME = 24
"""Cells of a cue's name at most."""

COUNT = 14
"""Cells of `57 of 85` and the blanks before the bars."""

DAY = 4
"""Cells of a day: `Mon` and a blank."""

OTHER = f"{OTHER_DRILLS} other drills than on the first day: fewer made need not mean worse"


def strips(title: str, cues: Sequence[CueFacts], dates: Sequence[date]) -> Iterator[str]:
    """One line a cue under the names of the days; a line on other drills where a day has them."""
    wide = min(max(map(cell_len, [plain(title), *(plain(cue.name) for cue in cues)])), MOST_NAME)
    wide += 2
    days = len(dates)
    shown = min(days, (WIDTH - 2 - wide - COUNT) // DAY)
    head = "".join(f"{_day_name(on, dates):<{DAY}}" for on in dates[days - shown :])
    yield f"{cell(plain(title), wide + 2)}{'that day':<{COUNT}}{head}".rstrip()
    for cue in cues:
        bars = "".join(
            f"{bar(day.share) + OTHER_DRILLS * day.other_drills:<{DAY}}"
            for day in cue.days[days - shown :]
        )
        count = cue.today.of_words()
        yield f"  {cell(plain(cue.name), wide)}{count:<{COUNT}}{bars}".rstrip()
    if any(day.other_drills for cue in cues for day in cue.days[days - shown :]):
        yield f"  {OTHER}"


def _day_name(on: date, dates: Sequence[date]) -> str:
    """`Mon`, or `11.` where weekdays would not tell the days apart."""
    if (dates[-1] - dates[0]).days < len(times.WEEKDAYS):
        return times.weekday_word(on)[:3]
    return f"{on.day}."
