"""What every application of ours does alike, whatever it shows."""

from __future__ import annotations

import gc
import os
from typing import ClassVar

from rich.console import RenderableType
from textual._compositor import ChopsUpdate
from textual._styles_cache import StylesCache
from textual.app import App
from textual.await_complete import AwaitComplete
from textual.binding import BindingType
from textual.screen import Screen

from courtlog.courtside import blank, terminal
from courtlog.courtside.exact import ExactUpdate
from courtlog.courtside.themes import NO_COLOUR, THEMES
from courtlog.settings import Settings


class OwnApp(App[None]):
    """Wears the coach's theme, blanks at a key, and leaves with its terminal."""

    CSS_PATH = "court.tcss"
    TITLE = "courtlog"
    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar[list[BindingType]] = [blank.BINDING]

    def __init__(self, settings: Settings) -> None:
        # Decided before the first theme: Textual chooses its colour filters here.
        super().__init__(driver_class=terminal.driver(), ansi_color=True if _no_colour() else None)
        for theme in (*THEMES.values(), NO_COLOUR):
            self.register_theme(theme)
        self.dress(settings)

    def dress(self, settings: Settings) -> None:
        """Put on the theme of these settings."""
        self.theme = NO_COLOUR.name if _no_colour() else settings.theme

    def on_mount(self) -> None:
        """Comes after the application's own `on_mount`, which shows its first screen."""
        terminal.leave_with(self)
        # What is loaded by then stays, and is never swept: that would cost 30 ms of one key.
        self.call_after_refresh(gc.collect)
        self.call_after_refresh(gc.freeze)
        self.call_after_refresh(gc.enable)

    def action_blank(self) -> None:
        blank.blank(self)

    def pop_screen(self) -> AwaitComplete:
        """A cache of Textual's for colours would keep every line of the screens that have gone."""
        StylesCache.get_inner_outer.cache_clear()
        self.call_after_refresh(gc.collect)
        return super().pop_screen()

    def _display(self, screen: Screen[object], renderable: RenderableType | None) -> None:
        """Textual's way to the terminal; on it a partial update is cut to the changed cells."""
        if isinstance(renderable, ChopsUpdate):
            renderable = ExactUpdate.of(renderable)
        super()._display(screen, renderable)


def _no_colour() -> bool:
    """NO_COLOR set to anything but nothing asks for no colour (no-color.org)."""
    return bool(os.environ.get("NO_COLOR"))
