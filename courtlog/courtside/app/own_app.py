"""What every application of ours does alike, whatever it shows."""

from __future__ import annotations

import gc
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any, ClassVar

from rich.console import RenderableType
from textual._compositor import ChopsUpdate, CompositorUpdate
from textual._styles_cache import StylesCache
from textual.app import App
from textual.await_complete import AwaitComplete
from textual.binding import BindingType
from textual.events import Event, InputEvent, Paste
from textual.message import Message
from textual.screen import Screen
from textual.timer import Timer
from textual.widgets import Input

from courtlog.courtside import screens
from courtlog.courtside.app import terminal
from courtlog.courtside.app.key_press import Press
from courtlog.courtside.app.key_queue import KeyQueue
from courtlog.courtside.dialogs.own_screen import ManualAsked, OwnScreen
from courtlog.courtside.screens import blank
from courtlog.courtside.surface.console_update import ConsoleUpdate
from courtlog.courtside.surface.exact_update import ExactUpdate
from courtlog.courtside.surface.themes import NO_COLOUR, THEMES
from courtlog.settings import Settings
from courtlog.systems import plain_consoles


class OwnApp(App[None]):
    """Wears the coach's theme, blanks at a key, and leaves with its terminal."""

    CSS_PATH = Path(__file__).with_name("court.tcss")  # Textual looks beside the last class
    TITLE = "courtlog"
    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar[list[BindingType]] = [blank.BINDING]

    def __init__(self, settings: Settings) -> None:
        # Decided before the first theme: Textual chooses its colour filters here.
        super().__init__(driver_class=terminal.driver(), ansi_color=True if _no_colour() else None)
        self.keys = KeyQueue(self, super().on_event)
        for theme in (*THEMES.values(), NO_COLOUR):
            self.register_theme(theme)
        self.dress(settings)

    def dress(self, settings: Settings) -> None:
        """Put on the theme of these settings, in the signs that the terminal has."""
        self._lacking = plain_consoles.lacking(settings.marks)
        self.theme = NO_COLOUR.name if _no_colour() else settings.theme

    def run(self, *args: Any, **kwargs: Any) -> None:
        """Run until it is left; an error on the way out is a failure like any other."""
        try:
            super().run(*args, **kwargs)
        except Exception as error:  # noqa: BLE001 - whoever runs the application tells of it
            self._exception = self._exception or error

    def on_mount(self) -> None:
        """Watch the terminal, and sweep no more, once the first screen is there."""
        terminal.leave_with(self)
        # What is loaded by then stays, and is never swept: that would cost 30 ms of one key.
        self.call_after_refresh(gc.collect)
        self.call_after_refresh(gc.freeze)
        self.call_after_refresh(gc.enable)

    def take(self, message: Message) -> None:
        """Take what the terminal sends: keys, pastes and clicks one after the other."""
        if isinstance(message, InputEvent | Paste):
            self._add(message)
        else:
            self.post_message(message)

    async def on_event(self, event: Event) -> None:
        """Add a key or a paste that was sent another way to the same queue."""
        if isinstance(event, InputEvent | Paste) and not event.is_forwarded:
            self._add(event)
        else:
            await super().on_event(event)

    def is_repeat(self, undo: Callable[[], object]) -> bool:
        """Whether the key being delivered is of a key held down; undoes its first repeat."""
        press = self.keys.now.press
        if press is Press.HELD_SINCE_BEFORE:
            undo()
        return press in (Press.HELD, Press.HELD_SINCE_BEFORE)

    def is_writing(self) -> bool:
        """Whether a text is being written: a line to type in has words already."""
        stack = self.screen_stack
        line = stack[-1].focused if stack else None
        return isinstance(line, Input) and bool(line.value)

    def _add(self, event: InputEvent | Paste) -> None:
        """Add to the queue what came, and when, unless no keyboard sent it."""
        self.keys.add(event, None if self.is_headless or _counts_repeats() else event.time)

    def set_timer(self, *args: Any, **named: Any) -> Timer:
        """Call something once, later, however late that is.

        Textual leaves a call out whose moment has passed before its timer begins. On a busy laptop
        the one for a new size of the window was, and every later size then waited for it.
        """
        timer = super().set_timer(*args, **named)
        timer._skip = False
        return timer

    def exit(self, *args: Any, **kwargs: Any) -> None:
        """Leave; what was typed behind the key that leaves is dropped."""
        self.keys.close()
        super().exit(*args, **kwargs)

    @property
    def failure(self) -> Exception | None:
        """The error that ended the application; None when it was left as usual."""
        return self._exception

    def _handle_exception(self, error: Exception) -> None:
        """Leave the terminal as it was; whoever runs the application tells of the error."""
        self._return_code = 1
        if self._exception is None:
            self._exception = error
            self._exception_event.set()
        self.keys.close()
        self._close_messages_no_wait()

    def on_manual_asked(self, event: ManualAsked) -> None:
        """Open the manual over what is shown, which stays as it is."""
        top = self.screen_stack[-1]
        if isinstance(top, OwnScreen):
            top.carry_out(
                lambda: self.push_screen(screens.manual.topic_list.manual_at(event.topic))
            )

    def action_blank(self) -> None:
        blank.blank(self)

    def pop_screen(self) -> AwaitComplete:
        """Take the screen on top away, unless it stays or is the last one.

        A cache of Textual's for colours would keep every line of the screens that have gone.
        """
        if len(self.screen_stack) <= 1 or (
            isinstance(self.screen, OwnScreen) and self.screen.STAYS
        ):
            return AwaitComplete()
        StylesCache.get_inner_outer.cache_clear()
        self.call_after_refresh(gc.collect)
        return super().pop_screen()

    def _display(self, screen: Screen[object], renderable: RenderableType | None) -> None:
        """Textual's way to the terminal; on it a partial update is cut to the changed cells.

        A terminal that lacks signs gets others in their place.
        """
        if isinstance(renderable, ChopsUpdate):
            renderable = ExactUpdate.of(renderable)
        if self._lacking and isinstance(renderable, CompositorUpdate):
            renderable = ConsoleUpdate(renderable, self._lacking)
        super()._display(screen, renderable)


def _counts_repeats() -> bool:
    """Whether each key counts, however close: for tests on a pseudo-terminal."""
    return os.environ.get("COURTLOG_HELD_KEYS") == "count"


def _no_colour() -> bool:
    """Whether NO_COLOR is set to anything but nothing, which asks for no colour (no-color.org)."""
    return bool(os.environ.get("NO_COLOR"))
