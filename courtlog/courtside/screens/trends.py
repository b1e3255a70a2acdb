"""The trends of everyone on the roster: a line a player, each cue's days as bars and its counts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from textual.app import ComposeResult
from textual.content import Content
from textual.events import Key
from textual.reactive import reactive
from textual.visual import VisualType
from textual.widget import Widget
from textual.widgets import Static

from courtlog import times
from courtlog.courtside.desk.view import CourtView
from courtlog.courtside.dialogs.own_keys import OwnKeys, moved
from courtlog.courtside.surface.lettering import cells, fit, fit_short
from courtlog.courtside.surface.lines import foot
from courtlog.logbook.file.opening import Book
from courtlog.logbook.reads.trend_lookups import (
    CueTrend,
    PlayerTrend,
    TrendDate,
    axis,
    roster_trends,
)
from courtlog.plain_text import plain
from courtlog.reports.layout.signs import NOTHING, bar, spark

CLINIC_MARK = "|"
"""Stands in a sparkline where another clinic begins."""

CUES = 4
"""Cues of a player that are shown at most, as many as a ball is rated on."""

FEWER_CUES = ((110, CUES), (60, 3), (40, 2), (24, 1))
"""Cells a line must have for that many cues beside each other."""

LEGEND = (
    f"{bar(0)} few, {bar(1)} most made of balls seen, {NOTHING} none seen,"
    f" {CLINIC_MARK} next clinic, * not today"
)
FOOT = (("↑ ↓", "player"), ("Enter", "days and skill curve"), ("Esc", "back to the court"))

DAYS, LEAST_NAME = 5, 5
"""Days of a line, and cells of a cue's name, that are not given up for the other."""

LEAST_PLAYER = 9
"""Cells that a player's name may always have."""


@dataclass(frozen=True, slots=True)
class ClinicNow:
    """The book's file, the clinic on court, and its day there."""

    path: Path
    clinic_id: int
    today: date


class TrendList(Widget):
    """A line for each player: name, cues watched lately, sparkline, latest counts."""

    at: reactive[int] = reactive(0)

    def __init__(self, trends: Sequence[PlayerTrend], today: date) -> None:
        super().__init__(id="trend-list")
        self._trends = trends
        self._today = today
        self._axis = shared_axis(trends)

    def render(self) -> VisualType:
        width, height = self.size
        if not self._trends:
            return Content("Nobody is on the roster.")
        lines = list_lines(self._trends, self._axis, self._today, width)
        first = min(max(self.at - height // 2, 0), max(len(lines) - height, 0))
        styled = [
            Content.styled("►" + line[1:], "bold reverse") if row == self.at else Content(line)
            for row, line in enumerate(lines)
        ]
        return Content("\n").join(styled[first : first + height])


class TrendDetail(Widget):
    """The chosen player's cues with as many days as fit, and their counts in words."""

    at: reactive[int] = reactive(0)

    def __init__(self, trends: Sequence[PlayerTrend], today: date) -> None:
        super().__init__(id="trend-detail")
        self._trends = trends
        self._today = today
        self._axis = shared_axis(trends)

    def render(self) -> VisualType:
        if not self._trends:
            return Content("")
        return detail(self._trends[self.at], self._axis, self._today, self.size.width)


class TrendsScreen(OwnKeys[None]):
    """Arrows move, Enter opens the player's days, Escape goes back to the court."""

    AUTO_FOCUS = None

    def __init__(self, book: Book, view: CourtView) -> None:
        super().__init__()
        self._trends = roster_trends(book, view.clinic.id, view.day.date)
        self._now = ClinicNow(book.path, view.clinic.id, view.day.date)
        self._title = f" Trends · {plain(view.clinic.name)} · {view.day.words()}"
        live = view.live.player.id if view.live else None
        ids = [trend.player.id for trend in self._trends]
        self._at = ids.index(live) if live in ids else 0

    def compose(self) -> ComposeResult:
        yield Static(Content(self._title), id="trend-top")
        yield TrendList(self._trends, self._now.today)
        yield TrendDetail(self._trends, self._now.today)
        yield Static(Content(LEGEND), id="trend-legend")
        yield Static(foot(FOOT), id="trend-foot")

    def on_mount(self) -> None:
        self._move_to(self._at)
        self.run_worker(load_charts, thread=True)

    def on_resize(self) -> None:
        self.set_class(self.size.height < 16, "short")

    def take_key(self, event: Key) -> None:
        to = moved(event.key, self._at, len(self._trends))
        if event.key in ("escape", "f5"):
            self.dismiss(None)
        elif to is not None:
            self._move_to(to)
        elif event.key == "enter" and self._trends and self._trends[self._at].strokes:
            from courtlog.courtside.screens.trend_player import PlayerTrendScreen

            self.app.push_screen(PlayerTrendScreen(self._trends[self._at], self._now))

    def _move_to(self, at: int) -> None:
        self._at = min(max(at, 0), max(len(self._trends) - 1, 0))
        self.query_one(TrendList).at = self._at
        self.query_one(TrendDetail).at = self._at


def load_charts() -> None:
    """Load the plotting while the coach looks at the list; the court never needs it."""
    from courtlog.courtside.screens import trend_player  # noqa: F401


def short_date(on: date) -> str:
    """`14 May`."""
    return times.date_words(on).split(" ", 1)[1]


def shared_axis(trends: Sequence[PlayerTrend]) -> tuple[TrendDate, ...]:
    """The dates of all these players, so that one column is the same day for everyone."""
    return axis(on for trend in trends for stroke in trend.strokes for on in stroke.dates)


def trend_spark(cue: CueTrend, places: Sequence[TrendDate]) -> str:
    """The sparkline of a cue along the axis, with a mark where another clinic begins."""
    clinics = dict.fromkeys(place.clinic_id for place in places)
    parts = ([place for place in places if place.clinic_id == clinic] for clinic in clinics)
    return CLINIC_MARK.join(spark(cue.along(part)) for part in parts)


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


def detail(trend: PlayerTrend, places: Sequence[TrendDate], today: date, width: int) -> Content:
    """A player's main stroke in full: each cue's days and its counts with their date."""
    name = plain(trend.player.shown_name)
    if not trend.strokes:
        return Content.assemble((f"{name}: none", "bold"))
    main, *others = trend.strokes
    also = f" (also {', '.join(plain(stroke.stroke) for stroke in others)})" if others else ""
    lines = [Content.styled(fit_short(f"{name} · {plain(main.stroke)}{also}", width), "bold")]
    for cue in main.watched_lately(CUES):
        words = _latest_words(cue, today)
        days = _last(trend_spark(cue, places), max(width - len(words) - 16, 0))
        lines.append(Content(fit_short(f"{_name(cue, 12)}  {days}  {words}", width)))
    return Content("\n").join(lines)


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


def _latest_words(cue: CueTrend, today: date) -> str:
    """`14 of 20 (70%) today`, `3 of 4 on Tue 12 May`, or `none`."""
    if cue.latest is None:
        return "none"
    on, counts = cue.latest
    year = f" {on.date.year}" if on.date.year != today.year else ""
    when = "today" if on.date == today else f"on {times.date_words(on.date)}{year}"
    return f"{counts.words()} {when}"
