"""A blank screen over whatever is shown, for when a parent or a player walks by."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from textual.app import App, ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.content import Content
from textual.events import Key
from textual.widgets import Static

from courtlog.courtside.dialogs.own_screen import OwnScreen

KEY = "ctrl+l"

BINDING = Binding(KEY, "blank", priority=True, show=False)
"""Taken before any screen sees the key, so that it works in every list and line of text."""


class BlankScreen(OwnScreen[None]):
    """Names nobody; takes every key, and only Escape does something: it brings the screen back."""

    AUTO_FOCUS = None
    TOPIC = None

    def __init__(self) -> None:
        super().__init__()
        self.waiting: list[Callable[[], object]] = []

    def compose(self) -> ComposeResult:
        with Vertical():
            yield Static(Content("Ctrl+L or Escape brings the screen back."))

    def take_key(self, event: Key) -> None:
        if event.key == "escape":
            show_again(self.app)


def blank(app: App[Any]) -> None:
    """Cover the screen as it is, or show it again."""
    if not show_again(app):
        app.push_screen(BlankScreen())


def show_again(app: App[Any]) -> bool:
    """Take the cover away, then do what waited for it; whether there was one."""
    cover = app.screen
    if not isinstance(cover, BlankScreen):
        return False
    app.pop_screen()
    for action in cover.waiting:
        action()
    return True


def when_back(app: App[Any], action: Callable[[], object]) -> None:
    """Show something now, or once the cover is taken away."""
    if isinstance(app.screen, BlankScreen):
        app.screen.waiting.append(action)
    else:
        action()
