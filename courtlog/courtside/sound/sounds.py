"""The sounds of the court, as tones. They differ in how they move, so that no pitch counts."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum


@dataclass(frozen=True, slots=True)
class Tone:
    """A pitch in hertz and how long it lasts; pitch 0 is silence."""

    hertz: int
    ms: int


class Sound(Enum):
    """A sound; its value names its file. The first of those due is the one that is heard."""

    REFUSED = "refused"
    """A key that did nothing."""
    OVER = "over"
    """The round is full or over, the basket is empty, or a rotation is up."""
    TAKEN_BACK = "taken back"
    """A key was taken back."""
    TOUGH = "tough"
    """The next ball is to be a tough one."""
    TAKEN = "taken"
    """A ball was taken."""


def heard_of(due: Iterable[Sound]) -> Sound | None:
    """The one that is heard of these, so that one key makes one sound."""
    asked = set(due)
    return next((sound for sound in Sound if sound in asked), None) if asked else None


TONES: dict[Sound, tuple[Tone, ...]] = {
    Sound.REFUSED: (Tone(523, 80), Tone(0, 60), Tone(523, 80)),
    Sound.OVER: (Tone(784, 300),),
    Sound.TAKEN_BACK: (Tone(1047, 80), Tone(698, 110)),
    Sound.TOUGH: (Tone(698, 70), Tone(1047, 70), Tone(1397, 90)),
    Sound.TAKEN: (Tone(1397, 40),),
}
"""Low twice, one long, falling, rising, and a tick. Musical notes (A = 440 Hz), our own choice.

None is lower than 500 Hz, since the small loudspeaker of a laptop hardly gives what is lower.
"""

IN_WORDS: dict[Sound, str] = {
    Sound.REFUSED: "low, twice: the key was refused",
    Sound.OVER: "one long: round or basket over",
    Sound.TAKEN_BACK: "falling: taken back",
    Sound.TOUGH: "rising: the next ball is tough",
    Sound.TAKEN: "a tick: ball taken (only with `courtlog settings taken_sound true`)",
}
"""What each sounds like, and says."""
