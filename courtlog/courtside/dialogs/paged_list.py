"""A list on several pages: a key takes a line of the page in sight, a word searches all pages."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from textual.content import Content
from textual.widgets import Static

from courtlog.courtside.desk.keymap import shown_key
from courtlog.courtside.dialogs.questions import Choice, PickList
from courtlog.courtside.surface.lettering import cells
from courtlog.plain_text import plain

T = TypeVar("T")

TURN = "enter"
"""The key that turns the page while no line is chosen; what stands before a key of page two."""

TURNS = {TURN: 1, "right": 1, "left": -1}
"""Pages that a key goes on: the arrows turn with a line chosen too."""

HINT = "Its key takes a line, Enter turns, Space searches, Esc leaves"


MOST_COLUMNS = 114
"""Columns of the words in the widest box, as `.all-commands .box` of court.tcss has them."""

SCROLLBAR = 2


@dataclass(frozen=True, slots=True)
class Page(Generic[T]):
    """One page of a list; the keys of its choices are unique on it."""

    title: str
    choices: Sequence[Choice[T]]


class PagedList(PickList[T]):
    """Choose one: by its key, or by arrows and Enter; Enter alone turns the page, never takes.

    Only Space begins a word, so that a slip of the finger and Enter take nothing.
    """

    OTHER_ROWS = 3  # the line typed in is blank until Space, and parts title and choices

    def __init__(self, title: str, pages: Sequence[Page[T]]) -> None:
        self._heading = title
        self._pages = pages
        self._page = 0
        super().__init__("", [choice for page in pages for choice in page.choices], None)
        self._shown = self.before_a_word()

    @property
    def title_words(self) -> str:
        if self._searches:
            return f"{self._heading}: type a word, Enter takes the line chosen, Esc leaves"
        page = f"{self._page + 1} of {len(self._pages)}: {self._pages[self._page].title}"
        line = f"{self._heading} {page}   {HINT}"
        return line if len(line) <= self.columns else line.replace("   ", "\n", 1)

    def before_a_word(self) -> Sequence[Choice[T]]:
        return self._choices if self._searches else self._pages[self._page].choices

    @property
    def columns(self) -> int:
        return min(super().columns, MOST_COLUMNS)

    def line_of(self, choice: Choice[T]) -> Content:
        keys = 0 if self._searches else max(len(shown_key(one.key)) for one in self._shown) + 1
        return Content(whole_part(plain(choice.words), self.columns - SCROLLBAR - keys))

    def on_resize(self) -> None:
        self._fill(self.highlighted)
        self._show_title()
        super().on_resize()

    def nothing_chosen(self) -> None:
        if self._searches:
            super().nothing_chosen()
        else:
            self._turn(TURNS[TURN])

    def take_at_once(self, name: str) -> bool:
        if not self._searches and name != TURN and name in TURNS:
            self._turn(TURNS[name])
            return True
        if super().take_at_once(name):
            self._show_title()
            return True
        if self._searches or len(name) > 1:
            return False
        self.say(f"{shown_key(name)} is the key of no line here: Enter turns, Space searches.")
        return True

    def _turn(self, pages: int) -> None:
        self._page = (self._page + pages) % len(self._pages)
        self._shown = self.before_a_word()
        self.unsay()
        self._fill(None)
        self._show_title()

    def _show_title(self) -> None:
        self.query_one("#title", Static).update(Content(self.title_words))


def whole_part(words: str, width: int) -> str:
    """The words, or as much of them as can stand by itself in so many cells.

    `pad: Choose it, or teach one.` may become `pad: Choose it.`; half of a list is never told.
    """
    if cells(words) <= width:
        return words
    label = words.find(": ") + 2
    ends = [stop.start() for stop in _STOP.finditer(words, label)]
    fitting = [
        end for end in ends if cells(words[:end]) < width and _can_end(words[label:end], words[end])
    ]
    return f"{words[: fitting[-1]]}." if fitting else words


_STOP = re.compile(r"[.,;:] | \(")
"""Where a sentence can end before its end."""


def _can_end(head: str, stop: str) -> bool:
    """Whether what stands before a stop says no less than the truth: no half of a list is told."""
    in_brackets = head.count("(") > head.count(")")
    return not in_brackets and ": " not in head and not (stop == ":" and "; " in head)
