"""How our screens, dialogs and lines of text take keys: in order, and a refusal is told there."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from contextlib import AbstractContextManager, nullcontext
from typing import ClassVar, TypeVar

from textual.await_complete import AwaitComplete
from textual.binding import BindingsMap
from textual.content import Content
from textual.events import Key
from textual.message import Message
from textual.screen import ModalScreen, Screen
from textual.widgets import Input, Static

from courtlog.errors import CourtlogError
from courtlog.plain_text import plain

T = TypeVar("T")
A = TypeVar("A")

STEPS = {"up": -1, "down": 1, "pageup": -8, "pagedown": 8}
"""Places that the keys of a list go on."""

_LINE_KEYS = BindingsMap(Input.BINDINGS).key_to_bindings
"""What the keys of a line of text do."""

MANUAL_KEY = "f1"

Refusal = CourtlogError | ImportError | OSError
"""Errors that are told to the coach; any other is an error of the program."""


class ManualAsked(Message):
    """Somebody wants to read the manual, at that topic; empty for the list of topics."""

    def __init__(self, topic: str) -> None:
        super().__init__()
        self.topic = topic


class OwnScreen(Screen[T]):
    """A screen that takes keys while it is on top, tells its refusals, and is answered once."""

    TOPIC: ClassVar[str | None] = ""
    """The topic that the key of the manual opens over it; empty for that of the screen under it.

    None where that is a key as any other.
    """

    STAYS: ClassVar[bool] = False
    """Whether it is never taken away while the application runs."""

    is_opening = False
    """Whether it is not put together yet, by a thread for example: keys wait until it is."""

    _refusal: Static | None = None

    @property
    def on_top(self) -> bool:
        """Whether no other screen is over it; is_current is true behind a dialog as well."""
        stack = self.app.screen_stack
        return bool(stack) and stack[-1] is self

    def dismiss(self, result: T | None = None) -> AwaitComplete:
        """Give back the answer and leave; a second answer changes nothing."""
        if self.STAYS or not self.on_top:
            return AwaitComplete()
        return super().dismiss(result)

    def on_key(self, event: Key) -> None:
        left = False

        def act() -> None:
            nonlocal left
            left = self.take_key(event) is False

        if self.on_top and event.key == MANUAL_KEY and self.TOPIC is not None:
            screens = [screen for screen in self.app.screen_stack if isinstance(screen, OwnScreen)]
            topics = [screen.TOPIC for screen in screens if screen.TOPIC]
            self.post_message(ManualAsked(topics[-1] if topics else ""))
        elif self.on_top:
            self.carry_out(act)
        if not left:
            event.stop()
            event.prevent_default()

    def take_key(self, event: Key) -> bool | None:
        """Act on a key; False leaves it to what scrolls or is written in. Else Escape leaves."""
        if event.key != "escape":
            return False
        self.dismiss(None)
        return True

    def carry_out(self, action: Callable[[], object]) -> bool:
        """Do what was asked for, or say on this screen why it cannot be; whether it was done."""
        try:
            with self.in_book():
                action()
                if self.is_attached:
                    self.read()
        except (CourtlogError, ImportError, OSError) as error:
            self.refuse(error)
            done = False
        else:
            done = True
            self.unsay()
        if self.is_attached:
            self.show()
        return done

    def look(self) -> None:
        """Show what the book holds now."""
        self.carry_out(lambda: None)

    def ask(self, dialog: Screen[A | None], then: Callable[[A], object]) -> None:
        """Ask over this screen, and go on with the answer; no answer changes nothing."""

        def answered(answer: A | None) -> None:
            if answer is not None:
                self.carry_out(lambda: then(answer))

        self.app.push_screen(dialog, answered)

    def in_book(self) -> AbstractContextManager[None]:
        """Where the book is read and written: a failure of its file becomes a refusal."""
        return nullcontext()

    def read(self) -> None:
        """Read what this screen shows from the book."""

    def show(self) -> None:
        """Bring what this screen shows up to date."""

    def refuse(self, error: Refusal) -> None:
        """Say why something could not be done."""
        self.say(refusal_words(error))

    def say(self, message: str) -> None:
        """Say something on this screen, at its foot where it has no line of its own for it."""
        words = Content(plain(message))
        if self._refusal is None:
            self._refusal = Static(words, classes="refusal")
            self.mount(self._refusal)
        else:
            self._refusal.update(words)

    def unsay(self) -> None:
        """Take away what was said on this screen."""
        if self._refusal is not None:
            self._refusal.remove()
            self._refusal = None


class OwnDialog(OwnScreen[T], ModalScreen[T]):
    """A screen that leaves the one under it in sight."""


class TextLine(Input):
    """A line of text whose keys take effect in the order in which they were typed.

    Left to find its binding on the way up, Backspace would come behind letters typed after it.
    """

    async def on_key(self, event: Key) -> None:
        for binding in _LINE_KEYS.get(event.key, ()):
            event.stop()
            event.prevent_default()
            await self.run_action(binding.action)


def refusal_words(error: Refusal) -> str:
    """What happened, and the next step."""
    if isinstance(error, CourtlogError):
        return str(error)
    why = error.strerror if isinstance(error, OSError) else "a part of the program is gone"
    return f"This could not be opened ({why}): try it again."


def next_index(key: str, index: int, count: int, steps: Mapping[str, int] = STEPS) -> int | None:
    """The place from 0 to which a key leads among `count`; None for a key that does not move."""
    if key in ("home", "end"):
        return 0 if key == "home" else max(count - 1, 0)
    return min(max(index + steps[key], 0), max(count - 1, 0)) if key in steps else None
