"""A blank screen over whatever is shown, for when a parent or a player walks by."""

from __future__ import annotations

from typing import Any

from textual.app import App, ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.content import Content
from textual.events import Key
from textual.screen import Screen
from textual.widgets import Static

KEY = "ctrl+l"

BINDING = Binding(KEY, "blank", priority=True, show=False)
"""Taken before any screen sees the key, so that it works in every list and line of text."""


class BlankScreen(Screen[None]):
    """Names nobody; takes every key and does nothing with it but come back on Escape."""

    AUTO_FOCUS = None

    def compose(self) -> ComposeResult:
        with Vertical():
            yield Static(Content("Ctrl+L or Escape brings the screen back."))

    def on_key(self, event: Key) -> None:
        event.stop()
        event.prevent_default()
        if event.key == "escape":
            show_again(self.app)


def blank(app: App[Any]) -> None:
    """Cover the screen as it is, or show it again."""
    if not show_again(app):
        app.push_screen(BlankScreen())


def show_again(app: App[Any]) -> bool:
    """Take the cover away; whether there was one."""
    if not isinstance(app.screen, BlankScreen):
        return False
    app.pop_screen()
    return True
