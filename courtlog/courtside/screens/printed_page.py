"""A printed page over the court, read with the keys of a terminal's pager."""

from __future__ import annotations

from datetime import date

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.events import Key
from textual.widgets import Static

from courtlog.coaching.game.people import Clinic
from courtlog.coaching.on_court.next_act import NextAct
from courtlog.courtside.dialogs.own_screen import OwnScreen
from courtlog.courtside.dialogs.pager_keys import LEAVE, scroll_by
from courtlog.courtside.surface.lettering import foot
from courtlog.logbook.file.book import Book
from courtlog.plain_text import plain
from courtlog.reports import facts, one_screen

FOOT = (("Space", "on"), ("b", "back"), ("q", "back to the court"))


class PageScreen(OwnScreen[str | None]):
    """Shows a text as it is printed, and what to do next; gives back the key that does it."""

    TOPIC = "evening"

    def __init__(self, text: str, then: NextAct | None = None) -> None:
        super().__init__()
        self._text = text
        self._then = then

    def compose(self) -> ComposeResult:
        with VerticalScroll(id="page") as self._page:
            yield Static(Content(self._text), id="page-text")
        keys = foot(FOOT)
        if self._then is not None:
            then = Content.styled(plain(self._then.sentence), "bold")
            keys = Content("  ").join((then, keys))
        yield Static(keys, id="page-foot")

    def take_key(self, event: Key) -> bool:
        steps = self._then.steps if self._then else ()
        if event.key in LEAVE:
            self.dismiss(None)
        elif event.key in [step.key.lower() for step in steps]:
            self.dismiss(event.key)
        else:
            scroll_by(event.key, self._page)
        return True


def day_page(book: Book, clinic: Clinic, on: date) -> str:
    """The group's page of that day, as `courtlog day` prints it."""
    told = facts.day_facts.day_facts(book, clinic, on, None)
    return one_screen.day_page.day_page(told, more="")
