"""Charts drawn by plotext into a string, for the terminal and for paper: no colour is needed.

plotext draws by a compiled part of its own. Where a system has none for it, there are no charts,
and everything else is said as ever.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

try:
    import plotext
except (ImportError, OSError):
    plotext = None

LINES = "·-=+"
"""One line character a cue, so that crossing lines can be told apart without colour."""

HEIGHT = 11


def can_be_drawn() -> bool:
    """Whether this system has what draws charts."""
    return plotext is not None


def empty_figure() -> Any:
    """Plotext's one drawing, with nothing in it."""
    drawing = plotext.figure
    drawing.clear()
    return drawing


def letters(names: Sequence[str]) -> list[str]:
    """A letter for each name: its first that no earlier name took, else a number."""
    taken: list[str] = []
    for index, name in enumerate(names):
        free = (c for c in name if c.isalnum() and c not in taken)
        taken.append(next(free, str(index + 1)))
    return taken


def share_chart(
    shares: Mapping[str, Sequence[float | None]], days: Sequence[str], width: int
) -> str:
    """Shares (0 to 1, None for none) by day, a letter and line a name, `width` cells wide.

    Empty where no chart can be drawn.
    """
    if not can_be_drawn():
        return ""
    figure = empty_figure()
    figure.plot_size(width, HEIGHT)
    drawn = list(zip(letters(list(shares)), LINES, shares.values(), strict=False))
    points = [
        (letter, line, [(x, 100 * y) for x, y in enumerate(values, 1) if y is not None])
        for letter, line, values in drawn
    ]
    for _, line, known in points:
        if len(known) > 1:
            path = figure.signal([x for x, _ in known], [y for _, y in known], marker=line)
            path.lines()
            figure.draw(path)
    for letter, _, known in points:
        if known:
            figure.draw(figure.signal([x for x, _ in known], [y for _, y in known], marker=letter))
    _percent(figure)
    across = figure.ruler("x", "lower")
    across.lim(0.7, len(days) + 0.3)
    across.ticks(list(range(1, len(days) + 1)), list(days))
    return _drawn(figure)


def key_to(names: Sequence[str]) -> str:
    """`t··· turn   s--- spacing`: which letter and line is which."""
    return "   ".join(
        f"{letter}{line * 3} {name}"
        for letter, line, name in zip(letters(names), LINES, names, strict=False)
    )


def _percent(figure: Any) -> None:
    scale = figure.ruler("y", "left")
    scale.lim(-2, 102)
    scale.ticks([0, 25, 50, 75, 100], ["0%", "25%", "50%", "75%", "100%"])


def _drawn(figure: Any) -> str:
    text: str = figure.build().string(colorless=True)
    return "\n".join(line.rstrip() for line in text.splitlines())
