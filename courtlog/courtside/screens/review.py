"""The quick review on the screen: opens at the end of a round, closes with any next-player key."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.events import Key
from textual.widgets import Static

from courtlog.coaching.answers.quick_review import QuickReview, quick_review
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.game.speaking import Speak
from courtlog.coaching.on_court.feed_order import rated_balls
from courtlog.coaching.on_court.live_round import LiveRound
from courtlog.courtside.desk.view import CourtView
from courtlog.courtside.dialogs.own_screen import OwnDialog
from courtlog.courtside.surface.lettering import foot
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import history_lookups, lookups
from courtlog.reports.pages.review_text import review_lines

GO_ON = ("tab", "shift+tab", "y", "enter", "backspace", "up")
"""Keys that close the review and then mean what they mean on court (↑ takes the rung call)."""

FOOT = (
    ("Tab", "next player"),
    ("y", "player"),
    ("Enter", "same again"),
    ("Backspace", "back in"),
    ("↑", "up a rung next time"),
    ("Esc", "close"),
)


class ReviewScreen(OwnDialog[str | None]):
    """Gives back the key that closed it, if that key goes on to something."""

    def __init__(self, review: QuickReview, live: LiveRound, speak: Speak) -> None:
        super().__init__()
        self._lines = review_lines(review, live, speak)

    def compose(self) -> ComposeResult:
        with VerticalScroll(classes="box review"):
            lines = (Content.styled(text, "bold" if bold else "") for text, bold in self._lines)
            yield Static(Content("\n").join(lines))
        yield Static(foot(FOOT), id="review-foot")

    def take_key(self, event: Key) -> bool:
        if event.key in ("down", "pageup", "pagedown"):
            return False
        if event.key in GO_ON:
            self.dismiss(event.key)
        elif event.key in ("escape", "q", "z"):
            self.dismiss(None)
        return True


def review_of(book: Book, view: CourtView, live: LiveRound) -> QuickReview:
    """The review of the round on court, from the book."""
    history = history_lookups.history(
        book, view.clinic.id, live.player.id, live.drill.stroke, view.day.date
    )
    dates = lookups.dates(book, view.clinic.id, view.day.date)
    balls = rated_balls(live.drill.drill, Purpose.PRACTICE, live.feeding.feeds.every)
    return quick_review(history, live.id, view.day.date, dates, live.cue_keys, balls)
