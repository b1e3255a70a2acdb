"""Charts of one player's days and of a skill curve: cells, letters and lines, no colour.

plotext draws them on coordinates that are the cells themselves, so that counts can stand in line
with the dates above them.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import plotext
from rich.cells import cell_len

from courtlog.coaching.plain import plain
from courtlog.courtside.trends import short_date
from courtlog.logbook.trend_lookups import CueTrend, TrendDate
from courtlog.reports.charts import LINES, letters

if TYPE_CHECKING:
    from courtlog.coaching.curves import Curve

SCALE = 5
"""Cells of `100%┤` beside a chart; two rows under it are its axis."""

BETWEEN, SAME_SPOT = "│", "*"
"""What stands between two clinics, and where the points of two cues fall together."""

BAND, MIDDLE = "░", "●"

Spot = tuple[int, int]
"""A cell of a chart: column from the left, row from the bottom."""

Mark = tuple[int, str]
"""A column and the word under it."""

Slot = TrendDate | str
"""A place on the axis: a date, or the month of the clinic that begins after a gap."""


def cue_letters(cues: Sequence[CueTrend]) -> list[str]:
    """The key and the point of each cue: a letter of its name, or its number."""
    found = letters([plain(cue.name).casefold() for cue in cues])
    return [letter if cell_len(letter) == 1 else str(at) for at, letter in enumerate(found, 1)]


def axis_slots(places: Sequence[TrendDate]) -> tuple[Slot, ...]:
    """The dates from left to right, and before every later clinic a gap named by its month."""
    slots: list[Slot] = []
    for at, place in enumerate(places):
        before = places[at - 1] if at else place
        if before.clinic_id != place.clinic_id:
            year = f" {place.date.year}" if place.date.year != before.date.year else ""
            slots.append(short_date(place.date).split()[1] + year)
        slots.append(place)
    return tuple(slots)


def slot_word(slot: Slot) -> str:
    return slot if isinstance(slot, str) else short_date(slot.date)


def middles(slots: Sequence[Slot], columns: int) -> list[int]:
    """The cell in which each slot is drawn; a gap takes half the room of a date."""
    room = [1 if isinstance(slot, str) else 2 for slot in slots]
    before = [sum(room[:at]) for at in range(len(room))]
    return [
        int((left + own / 2) / sum(room) * columns) for left, own in zip(before, room, strict=True)
    ]


def shares_chart(
    cues: Sequence[CueTrend], slots: Sequence[Slot], width: int, rows: int
) -> list[str]:
    """Made shares by date, a letter and line a cue; a bar and the month between two clinics."""
    columns, high = width - SCALE, rows - 2
    figure = _figure(columns, high)
    places = list(zip(middles(slots, columns), slots, strict=True))
    points: dict[Spot, str] = {}
    for line, letter, cue in zip(LINES, cue_letters(cues), cues, strict=False):
        runs: list[list[Spot]] = [[]]
        for across, slot in places:
            if isinstance(slot, str):
                runs.append([])
            elif (share := cue.along([slot])[0].share) is not None:
                spot = across, round(share * (high - 1))
                runs[-1].append(spot)
                points[spot] = SAME_SPOT if spot in points else letter
        for run in filter(None, runs):
            _draw(figure, run, line, joined=True)
    gaps = [(across, slot) for across, slot in places if isinstance(slot, str)]
    for across, _ in gaps:
        _draw(figure, [(across, row) for row in range(high)], BETWEEN)
    for spot, letter in points.items():
        _draw(figure, [spot], letter)
    dates = [(across, slot_word(slot)) for across, slot in reversed(places)]
    return _built(figure, _that_fit([*gaps, *dates]))


def curve_chart(curve: Curve, width: int, rows: int) -> list[str]:
    """The chance of a made ball over the balls: a band and its middle; ticks where a day began."""
    columns, high, balls = width - SCALE, rows - 2, len(curve.median)
    figure = _figure(columns, high)
    band, line = [], []
    for across in range(columns):
        ball = round(across * (balls - 1) / (columns - 1))
        low, mid, top = (
            round(share[ball] * (high - 1)) for share in (curve.low, curve.median, curve.high)
        )
        band += [(across, row) for row in range(low, top + 1)]
        line.append((across, mid))
    _draw(figure, band, BAND)
    _draw(figure, line, MIDDLE)
    ticks = [1, balls, *reversed(curve.mornings)]
    marks = [(round((ball - 1) * (columns - 1) / (balls - 1)), str(ball)) for ball in ticks]
    return _built(figure, _that_fit(marks))


def _that_fit(marks: Sequence[Mark]) -> list[Mark]:
    """The marks whose words find room under the axis, the first ones before the others."""
    taken: set[int] = set()
    kept: dict[int, str] = {}
    for across, word in marks:
        start = across - len(word) // 2
        cells = set(range(start - 1, start + len(word) + 1))
        if across not in kept and not cells & taken:
            taken |= cells
            kept[across] = word
    return sorted(kept.items())


def _figure(columns: int, rows: int) -> plotext.figure:
    """An empty drawing whose coordinates are its cells, row 0 for none made at the bottom."""
    figure = plotext.figure
    figure.clear()
    figure.plot_size(columns + SCALE, rows + 2)
    figure.axes(False, side=1)
    figure.ruler("x", "lower").lim(0, columns - 1)
    percent = figure.ruler("y", "left")
    percent.lim(0, rows - 1)
    percent.ticks([0, round((rows - 1) / 2), rows - 1], ["0%", "50%", "100%"])
    return figure


def _draw(figure: plotext.figure, spots: Sequence[Spot], marker: str, joined: bool = False) -> None:
    signal = figure.signal([x for x, _ in spots], [y for _, y in spots], marker=marker)
    if joined and len(spots) > 1:
        signal.lines()
    figure.draw(signal)


def _built(figure: plotext.figure, marks: Sequence[Mark]) -> list[str]:
    figure.ruler("x", "lower").ticks([at for at, _ in marks], [word for _, word in marks])
    text: str = figure.build().string(colorless=True)
    return [line.rstrip() for line in text.splitlines()]
