"""The strip of a cue: a column a round, a gap between days, as high as the share made of seen.

One drawing for the court, the review, the trend screens and the printed pages. It is told by
shape alone: few balls are hollow, a yardstick stands on a foot, a line runs under today.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from datetime import date
from functools import lru_cache

from courtlog.coaching.answers.cue_rounds import CueRound
from courtlog.coaching.game.rounds import Purpose
from courtlog.reports.layout.signs import BARS, NOTHING, bar

HOLLOW, LID = "░", BARS[0]
"""What a column of few balls is filled with, and the thin line on top of it."""

FOOT, TODAY = "▀", "▬"
"""Under the column of a yardstick; under the columns of today, and one cell on."""

FEW = 5
"""Balls seen from which a column is solid: what fewer say must look thin."""

FULL = BARS[-1]

BROADEST = 3
"""Cells of a column at most, where a strip stands by itself and all its rounds fit so."""

LEGEND = (
    f"{FULL} made of seen  {HOLLOW} under {FEW} balls  {FOOT} yardstick  {TODAY} today"
    f"  {NOTHING} none seen"
)
"""What each sign of a strip means."""

_SIGNS = (
    f"{HOLLOW} under {FEW} balls  {FOOT} yardstick  {TODAY} ",
    f"{FOOT} yardstick {TODAY} ",
)


def legend(width: int, day: str = "today", title: str = "") -> str:
    """What the signs of a strip mean, as much of it as fits; `day` is the marked day's name."""
    ways = [*(signs + day for signs in _SIGNS), f"{FOOT} yardstick", "rounds"]
    return next((words for words in [title + ways[0], *ways] if len(words) <= width), "")


def day_heads(
    rounds: Sequence[CueRound], today: date | None, width: int, name: Callable[[date], str]
) -> str:
    """The names of the days over their first columns, for a strip whose columns are one cell."""
    line, before = "", None
    for index, each in enumerate(latest_that_fit(rounds, today, width)):
        if each is not None and each.on != before:
            before, word = each.on, name(each.on)
            if (not line or len(line) < index) and index + len(word) <= width:
                line = line.ljust(index) + word
    return line


def cue_strip(
    rounds: Sequence[CueRound], today: date | None, height: int, width: int, broadest: int = 1
) -> tuple[str, ...]:
    """The strip in this many rows, each at most this wide: the latest rounds that fit.

    From two rows on the lowest one holds the marks. One row has no marks, and a column of few
    balls has no height there. Where all rounds fit so, a column is up to `broadest` cells wide.
    """
    broad = min(max(width // max(strip_width(rounds, today), 1), 1), broadest)
    rows = _rows(rounds, today, height, width // broad)
    if broad == 1:
        return tuple(rows)
    return tuple("".join([cell * broad for cell in row]) for row in rows)


def strip_width(rounds: Sequence[CueRound], today: date | None) -> int:
    """The cells that all these rounds take."""
    return len(_slots(rounds)) + _beyond(rounds, today)


def latest_that_fit(
    rounds: Sequence[CueRound], today: date | None, width: int
) -> list[CueRound | None]:
    """The last rounds that fit, None for a gap; they do not begin with a gap."""
    room = max(width - _beyond(rounds, today), 0)
    slots = _slots(rounds)
    shown = slots[max(len(slots) - room, 0) :]
    while shown and shown[0] is None:
        shown = shown[1:]
    return shown


def bar_rows(height: int) -> int:
    """The rows that hold the columns of a strip of this height."""
    return max(height - 1, 1)


@lru_cache(512)  # a round goes on from the same columns with every ball
def column(made: int, seen: int, rows: int) -> str:
    """One column from its top cell down to its lowest; a dot at the bottom for none seen."""
    if not seen:
        return NOTHING.rjust(rows)
    if seen < FEW:
        return _hollow(made, seen, rows)
    if rows == 1:
        return bar(made / seen)
    eighths = max(round(made / seen * rows * len(BARS)), 2)
    whole, part = divmod(eighths, len(BARS))
    return (BARS[part - 1] * bool(part) + FULL * whole).rjust(rows)


def _rows(rounds: Sequence[CueRound], today: date | None, height: int, width: int) -> list[str]:
    """The strip with columns one cell wide."""
    shown = latest_that_fit(rounds, today, width)
    bars = bar_rows(height)
    gap = " " * bars
    columns = [gap if each is None else column(each.made, each.seen, bars) for each in shown]
    rows = ["".join(cells[row] for cells in columns).rstrip() for row in range(bars)]
    if height > 1:
        rows.append("".join(_marks(shown, today)).rstrip()[: max(width, 0)])
    return rows


def _hollow(made: int, seen: int, rows: int) -> str:
    if rows == 1:
        return HOLLOW
    high = round(made / seen * rows)
    lid = LID if high < rows else ""
    return (lid + HOLLOW * high).rjust(rows)


def _slots(rounds: Sequence[CueRound]) -> list[CueRound | None]:
    """Every round, a gap of one between two days, and of two between two clinics."""
    slots: list[CueRound | None] = []
    for before, each in zip([None, *rounds], rounds, strict=False):
        if before is not None:
            slots += [None] * ((before.on != each.on) + (before.clinic != each.clinic))
        slots.append(each)
    return slots


def _beyond(rounds: Sequence[CueRound], today: date | None) -> int:
    """The cell by which the line under today goes on, so that no mark hides it."""
    return int(bool(rounds) and rounds[-1].on == today)


def _marks(shown: Sequence[CueRound | None], today: date | None) -> Iterator[str]:
    for each in shown:
        if each is not None and each.purpose is Purpose.YARDSTICK:
            yield FOOT
        elif each is not None and each.on == today:
            yield TODAY
        else:
            yield " "
    if shown and shown[-1] is not None and shown[-1].on == today:
        yield TODAY
