"""Keys to meanings: which key of which pad rates which cue, for any hand or a taught layout.

A key is named by its lower-case character, or by its name when it has none (`pageup`). A capital
is the same key: Caps Lock changes nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from courtlog.coaching.game.grades import Grade
from courtlog.coaching.on_court.feeding import (
    CleanBall,
    Fault,
    Meaning,
    Rate,
    TakeBall,
    ToughOpen,
)
from courtlog.settings import Settings


@dataclass(frozen=True, slots=True)
class Pad:
    """Rows of keys, one a cue in stroke order; columns missed, near, made."""

    key: str
    title: str
    rows: tuple[tuple[str, str, str], ...]
    clean: tuple[str, ...] = ("space",)
    tough: tuple[str, ...] = ()
    unlocked: tuple[str, ...] = ()
    """What its keys send while NumLock is off."""
    clicker: tuple[str, ...] = ()
    """Two keys that were taught beside it: a clean ball, and one fault; none without a clicker."""
    layouts: str = ""
    """The keyboards on which its keys lie under one hand."""

    @property
    def words(self) -> str:
        """Its title, and for which keyboards it is, as lists show it."""
        return f"{self.title} ({self.layouts})" if self.layouts else self.title

    def key_of(self, row: int, grade: Grade) -> str:
        """The key of a cue and grade; `?` where the pad has no such row."""
        return self.rows[row][grade] if row < len(self.rows) else "?"

    def hides(self, key: str) -> bool:
        """Whether the key grades balls, so that a command of it is found behind Esc."""
        return key in self.clicker or any(key in row for row in self.rows)

    @property
    def all_keys(self) -> frozenset[str]:
        """Every key of the pad, without those of a clicker."""
        rating = {key for row in self.rows for key in row}
        return frozenset(rating | {*self.clean, *self.tough})


PADS = {
    pad.key: pad
    for pad in (
        Pad(
            "numbers",
            "number pad",
            (("7", "8", "9"), ("4", "5", "6"), ("1", "2", "3"), ("/", "*", "-")),
            ("space", "0"),
            (".", ","),
            (
                *("home", "up", "pageup", "left", "kp_begin", "right", "end", "down", "pagedown"),
                *("insert", "delete"),
            ),
        ),
        Pad(
            "right",
            "right hand",
            (("u", "i", "o"), ("j", "k", "l"), ("m", ",", "."), ("7", "8", "9")),
            layouts="QWERTY, QWERTZ",
        ),
        Pad(
            "left",
            "left hand",
            (("w", "e", "r"), ("s", "d", "f"), ("x", "c", "v"), ("2", "3", "4")),
            layouts="QWERTY, QWERTZ",
        ),
        Pad(
            "right-azerty",
            "right hand, AZERTY",
            (("u", "i", "o"), ("j", "k", "l"), (",", ";", ":"), ("è", "_", "ç")),
        ),
        # Its fourth row lies a key further left: the one above r is another look's.
        Pad(
            "left-azerty",
            "left hand, AZERTY",
            (("z", "e", "r"), ("s", "d", "f"), ("x", "c", "v"), ("&", "é", '"')),
        ),
    )
}

FEEDING: dict[str, Meaning] = {
    "space": CleanBall(),
    "enter": TakeBall(),
    "t": ToughOpen(),
}
"""Keys that mean the same on every pad; backspace takes back and is not a meaning of its own."""

ALWAYS_THE_SAME = frozenset({*FEEDING, "backspace", "tab", "escape"})
"""Keys that no coach can teach another meaning."""

ROWS_TO_TEACH = 3


def key_name(key: str, character: str | None) -> str:
    """The name a key goes by here: its character, or the terminal's name for it."""
    if character is not None and len(character) == 1 and character.isprintable() and key != "space":
        return character.lower()
    return key


def shown_key(name: str) -> str:
    """A key as the screen writes it: `b`, `Pageup`."""
    return name if len(name) < 2 else name.capitalize()


def taught_pad(keys: Sequence[str]) -> Pad:
    """The pad of keys pressed row by row, three to a row."""
    rows = [tuple(keys[start : start + 3]) for start in range(0, len(keys) - len(keys) % 3, 3)]
    return Pad("taught", "taught keys", tuple((row[0], row[1], row[2]) for row in rows))


def pad_of(settings: Settings) -> Pad:
    """The pad in use, with the keys of the clicker where none of them is in its way."""
    pad = PADS.get(settings.pad, PADS["right"])
    if settings.pad == "taught" and len(settings.taught) >= 3 * ROWS_TO_TEACH:
        pad = taught_pad(settings.taught)
    two = set(settings.clicker)
    rests = len(two) < 2 or two & (pad.all_keys | ALWAYS_THE_SAME)
    return pad if rests else replace(pad, clicker=settings.clicker)


def meaning_of(pad: Pad, cues: int, name: str, main: int = 0) -> Meaning | None:
    """What a key means on this pad while this many cues are in view; None for nothing.

    `main` is the row of the main cue.
    """
    if name in pad.clicker:
        return CleanBall() if name == pad.clicker[0] else Fault(main)
    for row, keys in enumerate(pad.rows[:cues]):
        if name in keys:
            return Rate(row, Grade(keys.index(name)))
    if name in pad.clean:
        return CleanBall()
    if name in pad.tough:
        return ToughOpen()
    return FEEDING.get(name)
