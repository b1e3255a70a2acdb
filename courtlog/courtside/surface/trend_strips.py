"""The chosen player's cues as strips, a column a round: under each other, or side by side."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from itertools import zip_longest

from textual.content import Content

from courtlog import times
from courtlog.coaching.answers.cue_rounds import CueRound
from courtlog.courtside.surface.lettering import cells, fit, fit_short
from courtlog.courtside.surface.trend_lines import CUES
from courtlog.logbook.reads.cue_round_lookups import CueRounds
from courtlog.logbook.reads.trend_lookups import CueTrend, PlayerTrend, axis
from courtlog.plain_text import plain
from courtlog.reports.layout.cue_strip import BROADEST, cue_strip
from courtlog.reports.layout.signs import OTHER_DRILLS

LEAST_STRIP, MOST_STRIP = 3, 9
"""Rows of a strip: lower ones hold no height worth seeing, higher ones say no more."""

BETWEEN = 2
"""Cells between two strips that stand side by side."""

LEAST_ROWS = 3 + LEAST_STRIP
"""Rows for the player, and for the cues side by side: name, strip, counts."""

Line = tuple[str, bool]
"""A line and whether it stands out."""


def player_strips(
    trend: PlayerTrend, rounds: CueRounds, today: date, width: int, height: int
) -> Content:
    """A player's main stroke: each cue with its latest counts, and its rounds as a strip."""
    name = plain(trend.player.shown_name)
    if not trend.strokes:
        return Content.assemble((f"{name}: none", "bold"))
    main, *others = trend.strokes
    also = f" (also {', '.join(plain(stroke.stroke) for stroke in others)})" if others else ""
    title = fit_short(f"{name} · {plain(main.stroke)}{also}", width)
    cues = main.watched_lately(CUES)
    strips = [(cue, rounds.get(cue.key, ())) for cue in cues]
    high = (height - 1) // len(cues) - 1
    if high >= LEAST_STRIP:
        lines = _stacked(strips, today, width, high)
    else:
        lines = _side_by_side(strips, today, width, height - 3)
    shown = [(title, True), *lines][: max(height, 1)]
    return Content("\n").join(Content.styled(line, "bold" if bold else "") for line, bold in shown)


def _stacked(
    strips: Sequence[tuple[CueTrend, Sequence[CueRound]]], today: date, width: int, high: int
) -> list[Line]:
    """Name and counts on one line over each strip; a blank between them where there is room."""
    air = high > LEAST_STRIP
    lines: list[Line] = []
    for cue, rounds in strips:
        lines.append((fit_short(f"{_named(cue)}  {latest_words(cue, today)[0]}", width), True))
        high_now = min(high - air, MOST_STRIP)
        lines += [(row, False) for row in cue_strip(rounds, today, high_now, width, BROADEST)]
        lines += [("", False)] * air
    return lines


def _side_by_side(
    strips: Sequence[tuple[CueTrend, Sequence[CueRound]]], today: date, width: int, high: int
) -> list[Line]:
    """Columns of the same width: the name, the strip, the counts."""
    wide = (width + BETWEEN) // len(strips) - BETWEEN
    blocks = []
    for cue, rounds in strips:
        words = latest_words(cue, today)
        fitting = next((each for each in words if cells(each) <= wide), words[-1])
        rows = cue_strip(rounds, today, min(high, MOST_STRIP), wide, BROADEST) if high > 0 else ()
        blocks.append((_named(cue), *rows, fitting))
    return [
        ("  ".join(fit(fit_short(cell, wide), wide) for cell in row).rstrip(), number == 0)
        for number, row in enumerate(zip_longest(*blocks, fillvalue=""))
    ]


def _named(cue: CueTrend) -> str:
    """The cue's name, marked where its days are of other drills."""
    return plain(cue.name) + OTHER_DRILLS * any(cue.other_drills(axis(cue.days)))


def latest_words(cue: CueTrend, today: date) -> tuple[str, ...]:
    """`14 of 20 (70%) today` or `3 of 4 on Tue 12 May`, then shorter ones; or `none`."""
    if cue.latest is None:
        return ("none",)
    on, counts = cue.latest
    year = f" {on.date.year}" if on.date.year != today.year else ""
    when = "today" if on.date == today else f"on {times.date_words(on.date)}{year}"
    brief = when if on.date == today else f"on {times.day_month_words(on.date)}"
    return f"{counts.words()} {when}", f"{counts.of_words()} {brief}", counts.of_words()
