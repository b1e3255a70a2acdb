"""Charts drawn by plotext on coordinates that are the cells themselves: a band, letters, ticks.

Who draws asks `charts.can_be_drawn` first.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Protocol

from courtlog.reports.layout import charts

SCALE = 5
"""Cells of `100%┤` beside a chart; two rows under it are its axis."""

BAND, MIDDLE = "░", "●"

Spot = tuple[int, int]
"""A cell of a chart: column from the left, row from the bottom."""

Mark = tuple[int, str]
"""A column and the word under it."""


class Banded(Protocol):
    """A skill curve: 5, 50 and 95 % by ball, and the balls (from 1) that began a day."""

    @property
    def low(self) -> Sequence[float]: ...
    @property
    def median(self) -> Sequence[float]: ...
    @property
    def high(self) -> Sequence[float]: ...
    @property
    def mornings(self) -> Sequence[int]: ...


def curve_chart(curve: Banded, width: int, rows: int) -> list[str]:
    """The chance of a made ball over the balls: a band and its middle; ticks where a day began.

    No line where no chart can be drawn.
    """
    if not charts.can_be_drawn():
        return []
    columns, high, balls = width - SCALE, rows - 2, len(curve.median)
    drawing = figure(columns, high)
    band, line = [], []
    for across in range(columns):
        ball = round(across * (balls - 1) / (columns - 1))
        low, mid, top = (
            round(share[ball] * (high - 1)) for share in (curve.low, curve.median, curve.high)
        )
        band += [(across, row) for row in range(low, top + 1)]
        line.append((across, mid))
    draw(drawing, band, BAND)
    draw(drawing, line, MIDDLE)
    ticks = [1, balls, *reversed(curve.mornings)]
    marks = [(round((ball - 1) * (columns - 1) / (balls - 1)), str(ball)) for ball in ticks]
    return built(drawing, that_fit(marks))


def that_fit(marks: Sequence[Mark]) -> list[Mark]:
    """The marks whose words have room under the axis; earlier ones go first."""
    taken: set[int] = set()
    kept: dict[int, str] = {}
    for across, word in marks:
        start = across - len(word) // 2
        cells = set(range(start - 1, start + len(word) + 1))
        if across not in kept and not cells & taken:
            taken |= cells
            kept[across] = word
    return sorted(kept.items())


def figure(columns: int, rows: int) -> Any:
    """An empty drawing whose coordinates are its cells, row 0 for none made at the bottom."""
    drawing = charts.empty_figure()
    drawing.plot_size(columns + SCALE, rows + 2)
    drawing.axes(False, side=1)
    drawing.ruler("x", "lower").lim(0, columns - 1)
    percent = drawing.ruler("y", "left")
    percent.lim(0, rows - 1)
    percent.ticks([0, round((rows - 1) / 2), rows - 1], ["0%", "50%", "100%"])
    return drawing


def draw(drawing: Any, spots: Sequence[Spot], marker: str, joined: bool = False) -> None:
    signal = drawing.signal([x for x, _ in spots], [y for _, y in spots], marker=marker)
    if joined and len(spots) > 1:
        signal.lines()
    drawing.draw(signal)


def built(drawing: Any, marks: Sequence[Mark]) -> list[str]:
    drawing.ruler("x", "lower").ticks([column for column, _ in marks], [word for _, word in marks])
    text: str = drawing.build().string(colorless=True)
    return [line.rstrip() for line in text.splitlines()]
