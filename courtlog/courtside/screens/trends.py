"""The trends of everyone on the roster: a line a player, each cue's days as bars and its counts."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.containers import Container
from textual.content import Content
from textual.events import Key
from textual.reactive import reactive
from textual.visual import VisualType
from textual.widget import Widget
from textual.widgets import Static

from courtlog.coaching.answers.drill_mix import other_drills_in_short
from courtlog.courtside.desk.view import ClinicNow, CourtView
from courtlog.courtside.dialogs.own_screen import OwnScreen, next_index
from courtlog.courtside.surface.lettering import foot
from courtlog.courtside.surface.trend_lines import (
    CLINIC_MARK,
    any_other_drills,
    counts_lines,
    list_lines,
    shared_axis,
)
from courtlog.courtside.surface.trend_strips import LEAST_ROWS, player_strips
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads.cue_round_lookups import CueRounds, cue_rounds
from courtlog.logbook.reads.trend_lookups import PlayerTrend, roster_trends
from courtlog.plain_text import plain
from courtlog.reports.layout import cue_strip
from courtlog.reports.layout.signs import OTHER_DRILLS

if TYPE_CHECKING:
    from courtlog.courtside.screens.trend_player import PlayerTrendScreen

LEGEND = f"{cue_strip.LEGEND}  {CLINIC_MARK} clinic"
FOOT = (("↑ ↓", "player"), ("Enter", "days and skill curve"), ("Esc", "back to the court"))

WIDE, TALL = 110, 30
"""Columns and rows from which the strips stand beside the list."""

LIST_WIDTH = 66
"""Cells of the list beside which the strips stand."""

PLAYERS = 12
"""Players that the list shows before the strips under it get more than they need."""

OTHER_LINES = 4
"""Lines of title, legend, other drills and keys."""


class TrendList(Widget):
    """A line for each player: name, cues watched lately, sparkline, latest counts."""

    index: reactive[int] = reactive(0)

    def __init__(self, trends: Sequence[PlayerTrend], today: date) -> None:
        super().__init__(id="trend-list")
        self._trends = trends
        self._today = today
        self._axis = shared_axis(trends)

    def render(self) -> VisualType:
        width, height = self.size
        if not self._trends:
            return Content("Nobody is on the roster.")
        if width == LIST_WIDTH:
            lines = counts_lines(self._trends, self._today, width)
        else:
            lines = list_lines(self._trends, self._axis, self._today, width)
        first = min(max(self.index - height // 2, 0), max(len(lines) - height, 0))
        styled = [
            Content.styled("►" + line[1:], "bold reverse") if row == self.index else Content(line)
            for row, line in enumerate(lines)
        ]
        return Content("\n").join(styled[first : first + height])


class TrendDetail(Widget):
    """The chosen player's cues, round by round, and their counts in words."""

    index: reactive[int] = reactive(0)

    def __init__(self, trends: Sequence[PlayerTrend], today: date, book: Book) -> None:
        super().__init__(id="trend-detail")
        self._trends = trends
        self._today = today
        self._book = book
        self._rounds: dict[int, CueRounds] = {}

    def render(self) -> VisualType:
        if not self._trends:
            return Content("")
        trend = self._trends[self.index]
        return player_strips(trend, self._rounds_of(trend), self._today, *self.size)

    def _rounds_of(self, trend: PlayerTrend) -> CueRounds:
        """The rounds of the player's main stroke, read when the player is first chosen."""
        who = trend.player.id
        if who not in self._rounds:
            strokes = [stroke.stroke for stroke in trend.strokes[:1]]
            read = [cue_rounds(self._book, who, stroke, self._today) for stroke in strokes]
            self._rounds[who] = read[0] if read else {}
        return self._rounds[who]


class TrendsScreen(OwnScreen[None]):
    """Arrows move, Enter opens the player's days, Escape goes back to the court."""

    TOPIC = "words"
    AUTO_FOCUS = None

    def __init__(self, book: Book, view: CourtView) -> None:
        super().__init__()
        self._trends = roster_trends(book, view.clinic.id, view.day.date)
        self._book = book
        self._now = ClinicNow(book.path, view.clinic.id, view.day.date)
        self._title = f" Trends · {plain(view.clinic.name)} · {view.day.words()}"
        live = view.live.player.id if view.live else None
        ids = [trend.player.id for trend in self._trends]
        self._index = ids.index(live) if live in ids else 0

    def compose(self) -> ComposeResult:
        yield Static(Content(self._title), id="trend-top")
        with Container(id="trend-both"):
            yield TrendList(self._trends, self._now.today)
            yield TrendDetail(self._trends, self._now.today, self._book)
        yield Static(Content(LEGEND), id="trend-legend")
        if any_other_drills(self._trends):
            yield Static(Content(other_drills_in_short(OTHER_DRILLS)), id="trend-other-drills")
        yield Static(foot(FOOT), id="trend-foot")

    def on_mount(self) -> None:
        self._move_to(self._index)
        self.run_worker(load_player_screen, thread=True)

    def on_resize(self) -> None:
        width, height = self.size
        self.set_class(height < 16, "short")
        beside = width >= WIDE and height >= TALL
        self.set_class(beside, "beside")
        players = min(max(len(self._trends), 1), max(PLAYERS, height // 2))
        under = max(height - OTHER_LINES - players, LEAST_ROWS)
        self.query_one(TrendList).styles.width = LIST_WIDTH if beside else "1fr"
        self.query_one(TrendDetail).styles.height = "1fr" if beside else under

    def take_key(self, event: Key) -> None:
        to = next_index(event.key, self._index, len(self._trends))
        if event.key in ("escape", "f5"):
            self.dismiss(None)
        elif to is not None:
            self._move_to(to)
        elif event.key == "enter" and self._trends and self._trends[self._index].strokes:
            screen = load_player_screen()(self._trends[self._index], self._now)
            self.app.push_screen(screen)

    def _move_to(self, index: int) -> None:
        self._index = min(max(index, 0), max(len(self._trends) - 1, 0))
        self.query_one(TrendList).index = self._index
        self.query_one(TrendDetail).index = self._index


def load_player_screen() -> type[PlayerTrendScreen]:
    """Load one player's screen, and the plotting with it."""
    # Plotting costs a fifth of a second: a thread loads it while the coach looks at the list.
    from courtlog.courtside.screens.trend_player import PlayerTrendScreen

    return PlayerTrendScreen
