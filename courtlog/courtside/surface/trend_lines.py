"""The trends of everyone on the roster as lines: each cue's days as bars, and its counts."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from courtlog.courtside.surface.lettering import cells, fit, fit_short
from courtlog.logbook.reads.trend_lookups import CueTrend, PlayerTrend, TrendDate, axis
from courtlog.plain_text import plain
from courtlog.reports.layout.signs import OTHER_DRILLS, spark

CLINIC_MARK = "|"
"""Stands in a sparkline where another clinic begins."""

CUES = 4
"""Cues of a player that are shown at most, as many as a ball is rated on."""

FEWER_CUES = ((110, CUES), (60, 3), (40, 2), (24, 1))
"""Cells a line must have for that many cues beside each other."""

DAYS, LEAST_NAME = 5, 5
"""Days of a line, and cells of a cue's name, that are not given up for the other."""

LEAST_PLAYER = 9
"""Cells that a player's name may always have."""


def shared_axis(trends: Sequence[PlayerTrend]) -> tuple[TrendDate, ...]:
    """The dates of all these players, so that one column is the same day for everyone."""
    return axis(on for trend in trends for stroke in trend.strokes for on in stroke.dates)


def any_other_drills(trends: Sequence[PlayerTrend]) -> bool:
    """Whether a sparkline of these players is marked for days of other drills."""
    places = shared_axis(trends)
    shown = (cue for trend in trends for cue in _shown_cues(trend, CUES))
    return any(any(cue.other_drills(places)) for cue in shown)


def trend_spark(cue: CueTrend, places: Sequence[TrendDate]) -> str:
    """The sparkline of a cue along the axis, marked where clinics begin and drills are others."""
    clinics = dict.fromkeys(place.clinic_id for place in places)
    parts = ([place for place in places if place.clinic_id == clinic] for clinic in clinics)
    days = CLINIC_MARK.join(spark(cue.along(part)) for part in parts)
    return days + OTHER_DRILLS * any(cue.other_drills(places))


def list_lines(
    trends: Sequence[PlayerTrend], places: Sequence[TrendDate], today: date, width: int
) -> list[str]:
    """One line a player, all columns under each other, `width` cells wide."""
    names = [plain(trend.player.shown_name) for trend in trends]
    name_width = max(min(max(map(cells, names)), max(width // 6, LEAST_PLAYER)), 4)
    most = next((cues for least, cues in FEWER_CUES if width >= least), 0)
    shown = [_shown_cues(trend, most) for trend in trends]
    columns = max(map(len, shown), default=0)
    cell = (width - name_width - 4) // columns if columns else 0
    cues = [cue for row in shown for cue in row]
    cue_width = min(max((cells(plain(cue.name)) for cue in cues), default=0), max(cell // 3, 4))
    for in_full in (True, False):
        counted = [[_counted(cue, today, in_full) for cue in row] for row in shown]
        counts_width = max((len(words) for row in counted for words in row), default=0)
        bars = cell - cue_width - counts_width - 4
        if bars >= len(places):
            break
    if 0 <= bars < DAYS:
        # A cue's name is in full below; its last days are worth more here.
        cut = max(min(DAYS - bars, cue_width - LEAST_NAME), 0)
        cue_width, bars = cue_width - cut, bars + cut
    bars = max(min(bars, max((len(trend_spark(cue, places)) for cue in cues), default=0)), 0)
    lines = []
    for name, row, words in zip(names, shown, counted, strict=True):
        line = fit(fit_short(name, name_width), name_width + 2)
        for cue, counts in zip(row, words, strict=True):
            days = fit(_last(trend_spark(cue, places), bars), bars)
            line += fit(f"{_name(cue, cue_width)} {days} {counts}", cell)
        if most and not row:
            line += "none"
        lines.append(fit(f" {line}", width))
    return lines


def counts_lines(trends: Sequence[PlayerTrend], today: date, width: int) -> list[str]:
    """The same without days, as the list beside the strips: a cue is left out before it is cut."""
    names = [plain(trend.player.shown_name) for trend in trends]
    name_width = min(max(map(cells, names)), max(width // 6, LEAST_PLAYER)) + 2
    counted = [
        [f"{plain(cue.name)} {_counted(cue, today, in_full=False)}" for cue in cues]
        for cues in (_shown_cues(trend, CUES) for trend in trends)
    ]
    longest = max((cells(words) for row in counted for words in row), default=0) + 2
    columns = max((width - name_width - 1) // longest, 1) if longest else 1
    lines = []
    for name, row in zip(names, counted, strict=True):
        words = "".join(fit(fit_short(cue, longest), longest) for cue in row[:columns]) or "none"
        lines.append(fit(f" {fit(fit_short(name, name_width), name_width)}{words}", width))
    return lines


def _shown_cues(trend: PlayerTrend, most: int) -> tuple[CueTrend, ...]:
    return trend.strokes[0].watched_lately(most) if trend.strokes else ()


def _name(cue: CueTrend, width: int) -> str:
    return fit(fit_short(plain(cue.name), width), width)


def _last(days: str, width: int) -> str:
    """The last days of a sparkline that fit; it does not begin with a gap."""
    return days[max(len(days) - width, 0) :].lstrip(CLINIC_MARK)


def _counted(cue: CueTrend, today: date, in_full: bool) -> str:
    """`14 of 20`, with the percentage where it fits; `*` when the day is not today."""
    if cue.latest is None:
        return "none"
    on, counts = cue.latest
    return (counts.words() if in_full else counts.of_words()) + "*" * (on.date != today)
