"""What the two screens that type paper in do alike: they show lines, and ask before they forget."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Callable, Sequence
from contextlib import AbstractContextManager
from typing import Protocol

from textual.app import ComposeResult
from textual.content import Content
from textual.events import Paste
from textual.widgets import Static

from courtlog.courtside.dialogs.own_screen import OwnScreen
from courtlog.courtside.dialogs.questions import Choice, PickList, YesNoQuestion
from courtlog.courtside.surface.lettering import Line, fit_short
from courtlog.logbook.file.book import Book
from courtlog.plain_text import plain

IsRepeat = Callable[[Callable[[], object]], bool]
"""Whether the key that is delivered is of a key held down; undoes what its first repeat did."""


class PaperSession(Protocol):
    """What both sessions have."""

    book: Book
    message: str

    def throw_away(self) -> None:
        """Forget what was typed."""


class PaperScreen(OwnScreen[str]):
    """Types paper in; its answer is the sentence that says what came of it."""

    TOPIC = "paper"
    AUTO_FOCUS = None

    def __init__(self, session: PaperSession, is_repeat: IsRepeat) -> None:
        super().__init__()
        self._session, self._is_repeat = session, is_repeat

    def compose(self) -> ComposeResult:
        yield Static(id="typing")

    def on_paste(self, event: Paste) -> None:
        """Take pasted text in, where it means something."""
        event.stop()
        if self.on_top:
            self.carry_out(lambda: self.take_paste(event.text))

    @abstractmethod
    def take_paste(self, text: str) -> None:
        """Act on pasted text."""

    def on_resize(self) -> None:
        self.show()

    def in_book(self) -> AbstractContextManager[None]:
        return self._session.book.reading()

    def say(self, message: str) -> None:
        self._session.message = message

    @abstractmethod
    def seen(self, width: int, height: int) -> list[Line]:
        """What is seen on a screen of that size."""

    def ask_what_next(self, choices: Sequence[Choice[Callable[[], object]]]) -> None:
        """Ask which of these acts is meant, behind Escape."""
        hint = "its key or Enter takes"
        self.ask(PickList("What next?", choices, 0, hint, digits=False), lambda act: act())

    def ask_to_throw_away(self, words: str, what: str) -> None:
        """Ask before what was typed is forgotten: `them` or `it`."""

        def answered(yes: bool | None) -> None:
            if yes and self.carry_out(self._session.throw_away):
                self.dismiss("Thrown away; the book is as it was.")

        # Not Enter: it is the key of every row.
        question = YesNoQuestion(words, f"throws {what} away", "goes back", ("y", "y"))
        self.app.push_screen(question, answered)

    def show(self) -> None:
        width = max(self.size.width - 2, 0)
        lines = self.seen(width, self.size.height)
        shown = [(fit_short(plain(text), width), style) for text, style in lines]
        self.query_one("#typing", Static).update(
            Content("\n").join(Content.styled(text, style) for text, style in shown)
        )
