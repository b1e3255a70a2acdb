"""The one way in which a screen takes every key itself, and moves along what it lists."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeVar

from textual.events import Key
from textual.screen import Screen

T = TypeVar("T")

STEPS = {"up": -1, "down": 1, "pageup": -8, "pagedown": 8}
"""Places that the keys of a list go on."""


class OwnKeys(Screen[T]):
    """A screen that acts on a key only while nothing is over it and it is still there.

    A key typed before a dialog had opened or closed goes to whatever is on top by now, so that it
    is never a rating, a choice or a move that nobody meant.
    """

    def on_key(self, event: Key) -> None:
        event.stop()
        event.prevent_default()
        if self.on_top:
            self.take_key(event)
        else:
            self.app.post_message(Key(event.key, event.character))

    @property
    def on_top(self) -> bool:
        """Whether no dialog is open; is_current is true behind a dialog as well."""
        return self.app.screen is self

    def take_key(self, event: Key) -> None:
        """Act on a key."""
        raise NotImplementedError


def moved(key: str, at: int, count: int, steps: Mapping[str, int] = STEPS) -> int | None:
    """The place from 0 to which a key leads among `count`; None for a key that does not move."""
    if key in ("home", "end"):
        return 0 if key == "home" else max(count - 1, 0)
    return min(max(at + steps[key], 0), max(count - 1, 0)) if key in steps else None
