"""One player's days on one axis over all clinics, and the skill curve of a cue beside them.

Shares and counts come from tallies and are there at once. The curve reads balls and is worked out
in a thread with its own connection, so that Escape never waits.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.events import Key
from textual.widgets import Static
from textual.worker import Worker, WorkerState

from courtlog.coaching.answers.drill_mix import other_drills_words
from courtlog.courtside.desk.view import ClinicNow
from courtlog.courtside.dialogs.own_screen import OwnScreen
from courtlog.courtside.surface.lettering import fit, fit_short, foot
from courtlog.courtside.surface.trend_charts import (
    BETWEEN,
    Slot,
    axis_slots,
    cue_letters,
    middles,
    shares_chart,
    slot_word,
)
from courtlog.courtside.surface.trend_lines import CUES
from courtlog.errors import CourtlogError
from courtlog.logbook.file.open_book import open_existing
from courtlog.logbook.reads import history_lookups
from courtlog.logbook.reads.trend_lookups import CueTrend, PlayerTrend, StrokeTrend
from courtlog.plain_text import many, plain
from courtlog.reports.layout.cell_charts import BAND, MIDDLE, SCALE, curve_chart
from courtlog.reports.layout.charts import LINES, can_be_drawn
from courtlog.reports.layout.signs import OTHER_DRILLS

if TYPE_CHECKING:
    from courtlog.coaching.answers.cue_curve import Curve

LABEL = 15
"""Cells for a cue's line and name before its counts; its chart stands above the same dates."""

LEAST_ROWS, MOST_ROWS = 7, 13
"""Rows of a chart: fewer cannot be read, more say nothing new."""

LEAST_WIDTH = 36
"""Narrower than this there are counts and words, and no chart."""

Asked = tuple[str, str]
"""The stroke and cue of a curve."""


@dataclass(frozen=True, slots=True)
class StrokeView:
    """What the page is about: a stroke's axis and cues, the chosen one, the clinic of its curve."""

    slots: tuple[Slot, ...]
    cues: tuple[CueTrend, ...]
    chosen: int
    clinic: str


@dataclass(frozen=True, slots=True)
class CurveAnswer:
    """The skill curve of a cue where the balls bear one, and the words about it."""

    curve: Curve | None
    words: str


WORKING = CurveAnswer(None, "working it out ...")


class PlayerTrendScreen(OwnScreen[None]):
    """Left and right: stroke. Up, down or a letter: cue. Escape goes back to all players."""

    TOPIC = "words"
    AUTO_FOCUS = None

    def __init__(self, trend: PlayerTrend, now: ClinicNow) -> None:
        super().__init__()
        self._trend = trend
        self._now = now
        self._stroke = self._cue = 0
        self._turn_to(0)
        self._curves: dict[Asked, CurveAnswer] = {}
        self._asked: Asked | None = None

    def compose(self) -> ComposeResult:
        yield Static(id="trend-top")
        with VerticalScroll(id="trend-body", can_focus=False):
            yield Static(id="trend-text")
        yield Static(id="trend-foot")

    def on_mount(self) -> None:
        self.show()

    def on_resize(self) -> None:
        self.call_after_refresh(self.show)

    def take_key(self, event: Key) -> None:
        body = self.query_one("#trend-body")
        keys = cue_letters(self._cues)
        typed = (event.character or "").casefold()
        step = 1 if event.key in ("right", "down", "pagedown") else -1
        if event.key in ("escape", "f5"):
            self.dismiss(None)
        elif event.key in ("left", "right"):
            self._turn_to(self._stroke + step)
            self.show()
        elif event.key in ("up", "down"):
            self._cue = (self._cue + step) % len(self._cues)
            self.show()
        elif typed in keys:
            self._cue = keys.index(typed)
            self.show()
        elif event.key in ("pageup", "pagedown"):
            body.scroll_relative(y=step * max(body.size.height - 1, 1), animate=False)

    def on_worker_state_changed(self, event: Worker.StateChanged) -> None:
        if event.state is WorkerState.ERROR and event.worker.error is not None:
            raise event.worker.error
        if event.state is WorkerState.SUCCESS and event.worker.result is not None:
            asked, answer = event.worker.result
            self._curves[asked] = answer
            self.show()

    @property
    def _on(self) -> StrokeTrend:
        return self._trend.strokes[self._stroke]

    @property
    def _cues(self) -> tuple[CueTrend, ...]:
        return self._on.watched_lately(CUES)

    def _turn_to(self, stroke: int) -> None:
        """Turn to that stroke, and to the first of its cues that were watched last."""
        self._stroke = stroke % len(self._trend.strokes)
        latest = [cue.key for cue in self._cues if self._on.dates[-1] in cue.days]
        self._cue = [cue.key for cue in self._cues].index(latest[0])

    def show(self) -> None:
        asked = (self._on.stroke, self._cues[self._cue].key)
        here = [place for place in self._on.dates if place.clinic_id == self._now.clinic_id]
        of = (here or self._on.dates)[-1]
        if asked not in self._curves and asked != self._asked:
            work = partial(work_out_curve, self._now, of.clinic_id, self._trend.player.id, asked)
            self.run_worker(work, group="curve", exclusive=True, thread=True, exit_on_error=False)
        self._asked = asked
        self.query_one("#trend-top", Static).update(Content(self._title()))
        width, height = self.query_one("#trend-body").size
        if width:
            view = StrokeView(axis_slots(self._on.dates), self._cues, self._cue, of.clinic)
            text = page(view, self._curves.get(asked, WORKING), width, height)
            self.query_one("#trend-text", Static).update(text)
            self.query_one("#trend-foot", Static).update(self._foot(len(text.split()) > height))

    def _title(self) -> str:
        stroke = plain(self._on.stroke)
        if len(self._trend.strokes) > 1:
            stroke += f" ({self._stroke + 1} of {len(self._trend.strokes)})"
        days = many(len(self._on.dates), "day")
        clinics = many(len({place.clinic_id for place in self._on.dates}), "clinic")
        name = plain(self._trend.player.shown_name)
        return f" {name} · {stroke} · {days} in {clinics}, made of seen balls, all drills together"

    def _foot(self, more: bool) -> Content:
        keys = [(f"↑ ↓ {' '.join(cue_letters(self._cues))}", "cue")]
        if len(self._trend.strokes) > 1:
            keys.append(("← →", "stroke"))
        if more:
            keys.append(("PgDn", "more"))
        return foot((*keys, ("Esc", "all players")))


def work_out_curve(
    now: ClinicNow, clinic_id: int, player_id: int, asked: Asked
) -> tuple[Asked, CurveAnswer]:
    """The curve of a cue, from a connection of its own; a trouble with the book as its sentence."""
    # numpy is loaded by the first curve, in this thread, and not with the screen.
    from courtlog.coaching.answers import cue_curve
    from courtlog.coaching.voice import answer_figures

    stroke, cue = asked
    try:
        book = open_existing(now.path, 0)
        try:
            with book.reading():
                past = history_lookups.history(book, clinic_id, player_id, stroke, now.today)
        finally:
            book.close()
    except CourtlogError as error:
        return asked, CurveAnswer(None, str(error))
    curve = cue_curve.curve_of(past.with_cue(cue), cue)
    return asked, CurveAnswer(curve, answer_figures.curve_words(curve))


def page(view: StrokeView, answer: CurveAnswer, width: int, height: int) -> Content:
    """Shares by date, the counts under them, the curve; the charts share the rows left over."""
    drawn = answer.curve
    words = Content(plain(answer.words)).wrap(width)
    head = f"Skill curve of {plain(view.cues[view.chosen].name)}, ball by ball"
    head += f" in {plain(view.clinic)}" + f" ({MIDDLE} middle, {BAND} 5 to 95%)" * (
        bool(drawn) and can_be_drawn()
    )
    counts = counts_lines(view, width)
    note = _other_drills(view, width)
    rows = height - len(counts) - len(note) - len(words) - 1
    shares, curve_rows = [], []
    if width >= LEAST_WIDTH:
        wide, tall = width - LABEL + SCALE, _fair(rows - rows // 2)
        indent = " " * (LABEL - SCALE)
        shares = [indent + line for line in shares_chart(view.cues, view.slots, wide, tall)]
        curve_rows = curve_chart(drawn, width, _fair(rows // 2)) if drawn else []
    return Content("\n").join(
        [
            *map(Content, shares),
            *(Content.styled(line, "bold" if bold else "") for line, bold in counts),
            *note,
            Content.styled(fit_short(head, width), "bold"),
            *map(Content, curve_rows),
            *words,
        ]
    )


def counts_lines(view: StrokeView, width: int) -> list[tuple[str, bool]]:
    """A line a cue and whether it is the chosen one: its counts under the dates of the chart.

    Where not all dates fit, the last ones, with a line that names them.
    """
    columns = max(width - LABEL, 0)
    for in_full in (True, False):
        table = [_row(view.slots, cue, in_full) for cue in view.cues]
        under = (_under_dates(row, middles(view.slots, columns)) for row in table)
        fitting = [line for line in under if line is not None and len(line) <= columns]
        if len(fitting) == len(table):
            return _labelled(view, fitting, width)
    named = [slot_word(slot) for slot in view.slots]
    room = max(len(cell) for row in (named, *table) for cell in row) + 1
    last = max(columns // room, 1)
    lines = ["".join(cell.ljust(room) for cell in row[-last:]) for row in (named, *table)]
    header = fit_short(" " * LABEL + lines[0], width)
    return [(header.rstrip(), False), *_labelled(view, lines[1:], width)]


def _fair(rows: int) -> int:
    return min(max(rows, LEAST_ROWS), MOST_ROWS)


def _row(slots: Sequence[Slot], cue: CueTrend, in_full: bool) -> list[str]:
    """The cells of a cue; dates of other drills than its first one are marked."""
    places = [slot for slot in slots if not isinstance(slot, str)]
    others = dict(zip(places, cue.other_drills(places), strict=True))
    return [_cell(slot, cue, in_full, not isinstance(slot, str) and others[slot]) for slot in slots]


def _other_drills(view: StrokeView, width: int) -> list[Content]:
    """The sentence below counts of which some are marked."""
    places = [slot for slot in view.slots if not isinstance(slot, str)]
    if not any(any(cue.other_drills(places)) for cue in view.cues):
        return []
    return list(Content(other_drills_words(OTHER_DRILLS, ())).wrap(width))


def _cell(slot: Slot, cue: CueTrend, in_full: bool, other: bool) -> str:
    if isinstance(slot, str):
        return BETWEEN
    counts = cue.along([slot])[0]
    return (counts.words() if in_full else counts.of_words()) + OTHER_DRILLS * other


def _under_dates(cells: Sequence[str], middles: Sequence[int]) -> str | None:
    """The cells with their middles there; None when two would touch."""
    line = ""
    for cell, across in zip(cells, middles, strict=True):
        start = max(across - len(cell) // 2, 0)
        if line and start <= len(line):
            return None
        line = line.ljust(start) + cell
    return line


def _labelled(view: StrokeView, lines: Sequence[str], width: int) -> list[tuple[str, bool]]:
    labelled = []
    for index, (letter, cue, line) in enumerate(
        zip(cue_letters(view.cues), view.cues, lines, strict=True)
    ):
        mark = "►" if index == view.chosen else " "
        label = fit(fit_short(f"{mark}{letter}{LINES[index]} {plain(cue.name)}", LABEL - 1), LABEL)
        labelled.append((fit_short(label + line, width), index == view.chosen))
    return labelled
