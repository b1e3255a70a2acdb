"""Charts of a take-home sheet as inline SVG: told apart by shape and dash, never by colour alone.

Every name in them is escaped; every chart has a title and a description in words.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape

from courtlog.coaching.answers.cue_curve import Curve
from courtlog.plain_text import plain
from courtlog.reports.layout.signs import OTHER_DRILLS
from courtlog.reports.takehome.takehome_facts import CueLine

WIDE = 340
LEFT, RIGHT, TOP, BOTTOM = 66, 316, 18, 122
"""The drawing's width, and the edges of the field in it; the style sets 18 to 24 units of type."""

DASHES = ("", "7 4", "2 3", "9 3 2 3")
MOST_LABELS, MOST_WORDS = 10, 3
"""Numbers of days under the chart; and how many have room for the word before them."""
MOST_POINTS = 80
NAME_ROOM = 26
"""Characters of a cue's name under the chart."""
LINE = 21
"""Units from one line of type to the next."""


def days_chart(cues: Sequence[CueLine], days: int) -> str:
    """Made of seen by day, a shape and dash a cue; a day with too few balls has no point."""
    drawn = list(enumerate(cues[: len(DASHES)]))
    described = "; ".join(f"{plain(cue.name)}: {_days_words(cue)}" for _, cue in drawn)
    parts = [*_percents(), *_day_labels(drawn, days)]
    for index, cue in drawn:
        points = [
            (_across(day, days), _up(counts.share))
            for day, counts in enumerate(cue.days)
            if counts.share is not None and counts.percent_words()
        ]
        parts += _line(points, DASHES[index])
        parts += [_mark(index, x, y) for x, y in points]
        x = LEFT
        y = BOTTOM + 42 + index * LINE
        parts += _line([(x, y - 4), (x + 26, y - 4)], DASHES[index])
        parts += [_mark(index, x + 13, y - 4), _text(x + 32, y, _short(cue.name))]
    return _drawing("days", "Made of seen balls, by day", described, parts, y + 6)


def curve_chart(cue: CueLine, curve: Curve, number: int) -> str:
    """The skill curve with its band, and a tick for each morning."""
    last = len(curve.median) - 1
    step = max(1, -(-last // MOST_POINTS))
    balls = [*range(0, last, step), last]
    high = [(_across(ball, last + 1), _up(curve.high[ball])) for ball in balls]
    low = [(_across(ball, last + 1), _up(curve.low[ball])) for ball in balls]
    middle = [(_across(ball, last + 1), _up(curve.median[ball])) for ball in balls]
    parts = [f'<polygon points="{_points([*high, *reversed(low)])}" fill="#ddd"/>', *_percents()]
    parts += [*_line(high, "2 2", 0.8), *_line(low, "2 2", 0.8), *_line(middle, "", 2.2)]
    for ball in curve.mornings:
        x = _across(ball - 1, last + 1)
        parts += _line([(x, BOTTOM), (x, BOTTOM + 6)], "", 1.2)
    parts.append(_text(LEFT, BOTTOM + 24, "ball 1"))
    parts.append(_text(RIGHT, BOTTOM + 24, f"ball {last + 1}", "end"))
    title = f"Skill curve of {plain(cue.name)}"
    return _drawing(f"curve{number}", title, cue.curve_words, parts, BOTTOM + 30)


def _drawing(key: str, title: str, described: str, parts: Sequence[str], high: int) -> str:
    return (
        f'<svg viewBox="0 0 {WIDE} {high}" role="img" aria-labelledby="{key}-title {key}-told">'
        f'<title id="{key}-title">{escape(title)}</title>'
        f'<desc id="{key}-told">{escape(described)}</desc>{"".join(parts)}</svg>'
    )


def _percents() -> Iterator[str]:
    for percent in (0, 50, 100):
        y = _up(percent / 100)
        yield from _line([(LEFT, y), (RIGHT, y)], "", 0.5)
        yield _text(LEFT - 4, y + 4, f"{percent}%", "end")


def _day_labels(drawn: Sequence[tuple[int, CueLine]], days: int) -> Iterator[str]:
    """The number of each day, marked where the drills of a cue are others than its first ones."""
    step = -(-days // MOST_LABELS)
    word = "day " if days <= MOST_WORDS else ""
    for day in range(0, days, step):
        mark = OTHER_DRILLS * any(cue.other_drills[day] for _, cue in drawn)
        yield _text(_across(day, days), BOTTOM + 20, f"{word}{day + 1}{mark}", "middle")


def _days_words(cue: CueLine) -> str:
    return ", ".join(f"day {day + 1} {cue.day_words(day)}" for day in range(len(cue.days)))


def _across(index: int, of: int) -> float:
    if of < 2:
        return (LEFT + RIGHT) / 2
    return LEFT + 14 + index * (RIGHT - LEFT - 28) / (of - 1)


def _up(share: float) -> float:
    return BOTTOM - share * (BOTTOM - TOP)


def _line(points: Sequence[tuple[float, float]], dash: str, width: float = 1.5) -> Iterator[str]:
    if len(points) > 1:
        dashed = f' stroke-dasharray="{dash}"' if dash else ""
        yield (
            f'<polyline points="{_points(points)}" fill="none" stroke="#000"'
            f' stroke-width="{width}"{dashed}/>'
        )


def _points(points: Sequence[tuple[float, float]]) -> str:
    return " ".join(f"{x:.1f},{y:.1f}" for x, y in points)


def _mark(index: int, x: float, y: float) -> str:
    """A full disc, an open square, a full triangle, an open diamond."""
    if index == 0:
        return f'<circle cx="{x:.1f}" cy="{y:.1f}" r="4.5"/>'
    shapes = {
        1: [(-4.5, -4.5), (4.5, -4.5), (4.5, 4.5), (-4.5, 4.5)],
        2: [(0, -5.5), (5.5, 4.5), (-5.5, 4.5)],
        3: [(0, -6.0), (6.0, 0), (0, 6.0), (-6.0, 0)],
    }
    corners = _points([(x + dx, y + dy) for dx, dy in shapes[index]])
    fill = "#000" if index == 2 else "#fff"
    return f'<polygon points="{corners}" fill="{fill}" stroke="#000" stroke-width="1.5"/>'


def _text(x: float, y: float, words: str, anchor: str = "start") -> str:
    return f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}">{escape(words)}</text>'


def _short(name: str, room: int = NAME_ROOM) -> str:
    shown = plain(name)
    return shown if len(shown) <= room else shown[: room - 1] + "…"
