"""The manual's topics: a key opens one, a word is searched for on all pages."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, ClassVar

from textual.content import Content
from textual.screen import Screen
from textual.widgets import Static

from courtlog import manual
from courtlog.courtside.dialogs.questions import Choice, PickList
from courtlog.courtside.screens.manual.page_screen import ManualPage
from courtlog.manual.search import Place, find_places, places
from courtlog.plain_text import plain

MOST = 40
"""Places that are listed; more of the word finds the others."""

SEARCHING = "Manual: ↑ ↓ choose, Enter opens, all else is searched for, Escape leaves"
"""The head while a word is typed: the places have no digits."""

BEFORE, AROUND = 30, 110
"""Characters shown before the first found word, and in all."""


class TopicList(PickList[Place]):
    """Opens a page over itself, so that Escape on the page comes back to what was found."""

    TOPIC: ClassVar[str | None] = None

    def __init__(self) -> None:
        topics = [Choice(places(t.name)[0], f"{t.title}: {t.about}") for t in manual.topics()]
        super().__init__("Manual", topics, hint="1-9 or Enter opens, type to search all pages")
        self._typed: list[str] = []

    @property
    def title_words(self) -> str:
        if self._searches or self._typed:
            return SEARCHING
        return super().title_words

    def before_a_word(self) -> Sequence[Choice[Place]]:
        self._typed = []
        return super().before_a_word()

    def fitting(self, typed: str) -> Sequence[Choice[Place]]:
        found = find_places(typed)
        self._typed = typed.split()
        if len(found) > MOST:
            self.say(f"The first {MOST} of {len(found)} places: type more of the word.")
        else:
            self.unsay()
        return [Choice(place, _around(place, self._typed)) for place in found[:MOST]]

    def _fill(self, index: int | None) -> None:
        super()._fill(index)
        self.query_one("#title", Static).update(Content(self.title_words))

    def line_of(self, choice: Choice[Place]) -> Content:
        if not self._typed:
            return super().line_of(choice)
        return Content.assemble((_where(choice.value), "bold"), f"  {plain(choice.words)}")

    def take(self, value: Place) -> None:
        # A whole page that is opened by its title would be full of marks.
        searched = self._typed if value.line else ()
        self.app.push_screen(ManualPage(value, TopicList, searched))


def manual_at(topic: str) -> Screen[Any]:
    """The page of that topic; the list of all where there is no such page."""
    if topic in manual.TOPICS:
        return ManualPage(places(topic)[0], TopicList)
    return TopicList()


def _where(place: Place) -> str:
    """The topic of a place, and the heading that it stands under."""
    title, _, _ = places(place.topic)[0].words.partition(":")
    under_title = place.is_heading or place.heading == places(place.topic)[0].heading
    return title if under_title else f"{title}, {place.heading}"


def _around(place: Place, typed: Sequence[str]) -> str:
    """The words of a place around the first one that was typed."""
    words = place.words if place.line else place.words.partition(": ")[2]
    starts = [words.casefold().find(word.casefold()) for word in typed]
    start = max(min((start for start in starts if start >= 0), default=0) - BEFORE, 0)
    start = words.find(" ", start) + 1 if start else 0
    cut = words[start : start + AROUND]
    end = "…" if start + AROUND < len(words) else ""
    return f"{'…' if start else ''}{cut.rpartition(' ')[0] if end else cut}{end}"
