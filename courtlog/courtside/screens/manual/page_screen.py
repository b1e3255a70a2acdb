"""A page of the manual, read with the keys of a pager; a link is followed by its key."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, ClassVar

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.events import Key
from textual.screen import Screen
from textual.widgets import Markdown, Static

from courtlog.courtside.desk.keymap import key_name
from courtlog.courtside.dialogs.own_screen import OwnScreen
from courtlog.courtside.dialogs.pager_keys import LEAVE, scroll_by
from courtlog.courtside.screens.manual.page_markup import LINK_KEYS
from courtlog.courtside.screens.manual.page_text import PageText
from courtlog.courtside.surface.lettering import foot
from courtlog.manual.search import Place, link_target

SEARCH = ("s", "/")

ROWS_ABOVE = 3
"""Rows shown above a place that is no heading."""


class ManualPage(OwnScreen[None]):
    """Shows a page from one of its places on; Escape goes back to where it was opened."""

    AUTO_FOCUS = None
    TOPIC: ClassVar[str | None] = None

    def __init__(
        self, place: Place, topics: Callable[[], Screen[Any]], searched: Sequence[str] = ()
    ) -> None:
        """`topics` makes the list of topics; `searched` are words to mark."""
        super().__init__()
        self.is_opening = True
        self._place, self._topics = place, topics
        self._shown = PageText(place.topic, searched)

    def compose(self) -> ComposeResult:
        with VerticalScroll(id="page", classes="manual") as self._page:
            yield self._shown
        yield Static(id="page-foot")

    def on_mount(self) -> None:
        self._shown.mark_searched()
        keys = LINK_KEYS[: len(self._shown.links)]
        several = (f"{keys[:1]}-{keys[-1:]}", "links")
        links = [several if len(keys) > 1 else (keys, "link")] if keys else []
        words = [("Space", "on"), ("b", "back"), *links, ("s", "search"), ("Esc", "leaves")]
        self.query_one("#page-foot", Static).update(foot(words))
        self.call_after_refresh(self._go_to_place)
        self.is_opening = False

    def take_key(self, event: Key) -> bool:
        name = key_name(event.key, event.character)
        links = self._shown.links
        if event.key in LEAVE:
            self.dismiss(None)
        elif name in SEARCH:
            self.app.push_screen(self._topics())
        elif name in LINK_KEYS[: len(links)]:
            self._open(links[LINK_KEYS.index(name)])
        elif not scroll_by(event.key, self._page) and name in LINK_KEYS:
            self.say(f"No link on this page has the key {name}.")
        return True

    def on_markdown_link_clicked(self, event: Markdown.LinkClicked) -> None:
        target = link_target(self._place.topic, event.href)
        if target is not None:
            self.carry_out(lambda: self._open(target))

    def _open(self, place: Place) -> None:
        self.app.push_screen(ManualPage(place, self._topics))

    def _go_to_place(self) -> None:
        if self._place.line:
            above = 0 if self._place.is_heading else ROWS_ABOVE
            row = self._shown.row_of(self._place.line) - above
            self._page.scroll_to(y=max(row, 0), animate=False)
