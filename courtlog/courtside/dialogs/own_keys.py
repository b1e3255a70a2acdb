"""The one way in which a screen takes every key itself, and moves along what it lists."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeVar

from textual.events import Key

from courtlog.courtside.dialogs.own_screen import OwnScreen

T = TypeVar("T")

STEPS = {"up": -1, "down": 1, "pageup": -8, "pagedown": 8}
"""Places that the keys of a list go on."""


class OwnKeys(OwnScreen[T]):
    """A screen that acts on every key itself, while nothing is over it and it is still there."""

    def on_key(self, event: Key) -> None:
        event.stop()
        event.prevent_default()
        if self.on_top:
            self.take_key(event)

    def take_key(self, event: Key) -> None:
        """Act on a key."""
        raise NotImplementedError


def moved(key: str, at: int, count: int, steps: Mapping[str, int] = STEPS) -> int | None:
    """The place from 0 to which a key leads among `count`; None for a key that does not move."""
    if key in ("home", "end"):
        return 0 if key == "home" else max(count - 1, 0)
    return min(max(at + steps[key], 0), max(count - 1, 0)) if key in steps else None
