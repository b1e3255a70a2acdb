"""A key as it comes: pressed, pressed again soon, or repeated because it is held down.

What tells them apart is when each one arrived, however long the program took to act on it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum, auto

HELD_WITHIN = 0.12
"""Seconds: two of one key that come closer are of a key held down, or bounced.

A finger taps five to seven times a second at most (common practice, from memory of tapping tests).
Keyboards repeat every 25 to 92 ms: Linux' console is the slowest of the usual ones, macOS takes 90.
"""

REPEATS_AFTER = 1.1
"""Seconds after which a held key has begun to repeat: from a quarter to one, by the system."""

SURE_AFTER = 2
"""Repeats in a row after which the press before them was one as well: one alone is a bounce."""

DOUBLE_PRESS = 0.5
"""Seconds within which two presses are one act, as with a mouse (Windows' usual value)."""


class Press(Enum):
    """What a key that came is."""

    FRESH = auto()
    """Pressed."""
    AGAIN = auto()
    """Pressed soon after the last time: it may be the first repeat of a key held down."""
    HELD = auto()
    """Repeated by the keyboard."""
    HELD_SINCE_BEFORE = auto()
    """The same, and now it is sure that the one taken for pressed again was a repeat too."""


class RepeatWatch:
    """Follows the keys as they arrive."""

    def __init__(self) -> None:
        self._key = ""
        self._arrived = -math.inf
        self._again = False
        self._repeats = 0

    def press(self, key: str, arrived: float) -> Press:
        """What this key is, which arrived at that moment (seconds of any steady clock)."""
        gap = arrived - self._arrived if key == self._key else math.inf
        self._key, self._arrived = key, arrived
        if gap >= HELD_WITHIN:
            self._again, self._repeats = gap < REPEATS_AFTER, 0
            return Press.AGAIN if self._again else Press.FRESH
        self._repeats += 1
        sure = self._again and self._repeats == SURE_AFTER
        return Press.HELD_SINCE_BEFORE if sure else Press.HELD


@dataclass(frozen=True, slots=True)
class KeyPress:
    """One key on its way."""

    key: str
    """Textual's name for it."""
    press: Press = Press.FRESH
    """Always fresh where it did not come from a keyboard."""
    arrived: float | None = None
    """When it came; None where it did not come from a keyboard."""
    screen: int = 0
    """The id of the screen that took it."""

    def closed_a_dialog_before(self, court: object, now: KeyPress) -> bool:
        """Whether this was the same key as now, taken by a dialog over the court."""
        return self.key == now.key and self.screen not in (0, id(court))

    def is_soon_after(self, other: KeyPress, otherwise: bool) -> bool:
        """Whether the two are one act; `otherwise` where no keyboard sent one of them."""
        if self.arrived is None or other.arrived is None:
            return otherwise
        return self.arrived - other.arrived < DOUBLE_PRESS
