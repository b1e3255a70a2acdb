"""The chart of one player's days over all clinics: cells, letters and lines, no colour.

plotext draws them on coordinates that are the cells themselves, so that counts can stand in line
with the dates above them.
"""

from __future__ import annotations

from collections.abc import Sequence

from courtlog import times
from courtlog.courtside.surface.lettering import cells
from courtlog.logbook.reads.trend_lookups import CueTrend, TrendDate
from courtlog.plain_text import plain
from courtlog.reports.layout.cell_charts import SCALE, Spot, built, draw, figure, that_fit
from courtlog.reports.layout.charts import LINES, can_be_drawn, letters

BETWEEN, SAME_SPOT = "│", "*"
"""What stands between two clinics, and where the points of two cues fall together."""

Slot = TrendDate | str
"""A place on the axis: a date, or the month of the clinic that begins after a gap."""


def cue_letters(cues: Sequence[CueTrend]) -> list[str]:
    """The key and the point of each cue: a letter of its name, or its number."""
    own = letters([plain(cue.name).casefold() for cue in cues])
    return [letter if cells(letter) == 1 else str(number) for number, letter in enumerate(own, 1)]


def axis_slots(places: Sequence[TrendDate]) -> tuple[Slot, ...]:
    """The dates from left to right, and before every later clinic a gap named by its month."""
    slots: list[Slot] = []
    for index, place in enumerate(places):
        before = places[index - 1] if index else place
        if before.clinic_id != place.clinic_id:
            year = f" {place.date.year}" if place.date.year != before.date.year else ""
            slots.append(times.month_word(place.date) + year)
        slots.append(place)
    return tuple(slots)


def slot_word(slot: Slot) -> str:
    return slot if isinstance(slot, str) else times.day_month_words(slot.date)


def middles(slots: Sequence[Slot], columns: int) -> list[int]:
    """The cell in which each slot is drawn; a gap takes half the room of a date."""
    room = [1 if isinstance(slot, str) else 2 for slot in slots]
    before = [sum(room[:index]) for index in range(len(room))]
    return [
        int((left + own / 2) / sum(room) * columns) for left, own in zip(before, room, strict=True)
    ]


def shares_chart(
    cues: Sequence[CueTrend], slots: Sequence[Slot], width: int, rows: int
) -> list[str]:
    """Made shares by date, a letter and line a cue; a bar and the month between two clinics.

    No line where no chart can be drawn.
    """
    if not can_be_drawn():
        return []
    columns, high = width - SCALE, rows - 2
    drawing = figure(columns, high)
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
            draw(drawing, run, line, joined=True)
    gaps = [(across, slot) for across, slot in places if isinstance(slot, str)]
    for across, _ in gaps:
        draw(drawing, [(across, row) for row in range(high)], BETWEEN)
    for spot, letter in points.items():
        draw(drawing, [spot], letter)
    dates = [(across, slot_word(slot)) for across, slot in reversed(places)]
    return built(drawing, that_fit([*gaps, *dates]))
