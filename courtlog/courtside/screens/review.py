"""The quick review on the screen: opens at the end of a round, closes with any next-player key."""

from __future__ import annotations

from dataclasses import replace

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.events import Key
from textual.geometry import Size
from textual.widgets import Static

from courtlog.coaching.answers.quick_review import quick_review
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.game.speaking import Speak
from courtlog.coaching.on_court.feed_order import rated_balls
from courtlog.coaching.on_court.live_round import LiveRound
from courtlog.coaching.on_court.next_act import ROUND_OVER, NextAct
from courtlog.coaching.on_court.round_to_start import NextRound
from courtlog.coaching.voice.day_names import DayNames
from courtlog.coaching.voice.statement import SENTENCE_ONLY, Depth
from courtlog.courtside.desk.view import CourtView
from courtlog.courtside.dialogs.own_screen import OwnDialog
from courtlog.courtside.surface.large_letters import FIVE, THREE, largest
from courtlog.courtside.surface.layout import FULL, ROOMY
from courtlog.courtside.surface.lettering import foot
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads.answer_lookups import stroke_history
from courtlog.plain_text import plain
from courtlog.reports.pages.review_aloud import AloudLine
from courtlog.reports.pages.review_text import Line, ReviewPage, review_lines, review_page

GO_ON = ("tab", "shift+tab", "y", "enter", "backspace", "up", "f2", "f3", "f4", "c")
"""Keys that close the review and then mean what they mean on court (↑ takes the rung call)."""

FOOT = (
    ("Tab", "next player"),
    ("y", "player"),
    ("Enter", "same again"),
    ("Backspace", "back in"),
    ("↑", "up a rung next time"),
    ("c", "cues"),
    ("w", "why"),
    ("f", "figures"),
    ("Esc", "close"),
)

MARGINS = 3
"""Cells of a row that hold no words: a blank on both sides, and the scrollbar."""

TALL = 2
"""Rows of the columns of a strip where there is room for the larger letters."""

NARROWEST = 80
"""Columns from which the lines to read aloud stand in large letters."""


class ReviewScreen(OwnDialog[str | None]):
    """Gives back the key that closed it, if that key goes on to something."""

    TOPIC = "words"

    def __init__(self, page: ReviewPage, act: NextAct | None = None) -> None:
        """`act` is what to do next, with keys that go on from here."""
        super().__init__()
        self._page = page
        self._act = act
        self._go_on = {*GO_ON, *(step.key for step in act.steps)} if act else set(GO_ON)
        self._depth = SENTENCE_ONLY
        self._shown: tuple[Size, Depth] | None = None

    def compose(self) -> ComposeResult:
        with VerticalScroll(classes="box review"):
            self._words = Static(self._text())
            yield self._words
        yield Static(_foot(self._act), id="review-foot")

    def on_resize(self) -> None:
        self.show()

    def show(self) -> None:
        """Bring the words up to the size of the terminal and the depth that is asked for."""
        if self._shown != (self.app.size, self._depth):
            self._words.update(self._text())

    def _text(self) -> Content:
        self._shown = size, depth = self.app.size, self._depth
        return in_style(lines_for(self._page, depth, size))

    def take_key(self, event: Key) -> bool:
        if event.key in ("down", "pageup", "pagedown"):
            return False
        if event.key in self._go_on:
            self.dismiss(event.key)
        elif event.key in ("escape", "q", "z"):
            self.dismiss(None)
        elif event.key == "w":
            self._depth = replace(self._depth, why=not self._depth.why)
        elif event.key == "f":
            self._depth = replace(self._depth, figures=not self._depth.figures)
        return True


def _foot(act: NextAct | None) -> Content:
    """What to do next, and the other keys."""
    if act is None:
        return foot(FOOT)
    told = {step.key for step in act.steps}
    others = foot([(key, words) for key, words in FOOT if key not in told])
    words = act.to_do if act.reached == ROUND_OVER else act.sentence
    return Content("  ").join((Content.styled(plain(words), "bold"), others))


def lines_for(page: ReviewPage, depth: Depth, size: Size) -> list[Line]:
    """The lines on a terminal of this size: those to read aloud as large as there is room for."""
    width = size.width - MARGINS
    if size.width < NARROWEST or size.height < FULL:
        return review_lines(page, depth, width)
    rows = FIVE if size.height >= ROOMY else THREE

    def enlarge(line: AloudLine) -> tuple[str, ...]:
        return largest(line.few_words, width, rows)

    return review_lines(page, depth, width, enlarge, bars=1 if rows is THREE else TALL)


def in_style(lines: list[Line]) -> Content:
    """The lines as they are shown."""
    return Content("\n").join(Content.styled(text, "bold" if bold else "") for text, bold in lines)


def page_of(
    book: Book,
    view: CourtView,
    live: LiveRound,
    speak: Speak,
    coming: NextRound | None = None,
    cues_key: str = "c",
) -> ReviewPage:
    """The review of the round on court, from the book; `coming` is the round that is next.

    `cues_key` is the key that picks cues from there.
    """
    today = view.day.date
    past = stroke_history(book, view.clinic.id, live.player.id, live.drill.stroke, today)
    balls = rated_balls(live.drill.drill, Purpose.PRACTICE, live.feeding.feeds.every)
    review = quick_review(past.history, live.id, today, past.dates, live.cue_keys, past.cues, balls)
    days = DayNames.of(past.dates, today)
    return review_page(review, live, speak, days, coming, cues_key)
