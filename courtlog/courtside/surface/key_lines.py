"""The foot of the court screen: keys and what they do."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from textual.content import Content

from courtlog.courtside.desk.keymap import Pad, shown_key
from courtlog.courtside.desk.view import CourtView
from courtlog.courtside.surface.lettering import cells
from courtlog.courtside.surface.surface import Part

ROOM_FOR_LEAD = 100
"""Columns from which the foot says in words that a letter follows Esc."""


class Hint(NamedTuple):
    """A key and what it does, as the foot of the court shows it."""

    key: str
    """Its name in `desk.keymap`."""
    shown: str
    label: str
    few: str = ""
    """The label in fewer letters, where there are such."""

    @property
    def shorter(self) -> Hint:
        """The same in fewer letters."""
        return self._replace(label=self.few or self.label)


class KeyLines(Part):
    """Keys and their words, and on the last line those that come behind Esc."""

    def __init__(self, hints: Sequence[Hint], behind_escape: Sequence[Hint]) -> None:
        """The first of the hints stay where there is no room for all."""
        self._hints = hints
        self._behind_escape = behind_escape

    def subject(self, view: CourtView) -> object:
        return self.height, view.pad

    def text(self, view: CourtView, width: int) -> Content:
        # Where the pad has taken a command's letter, the command is found behind Esc.
        hints = [hint for hint in self._hints if not view.pad.hides(hint.key)]
        hints = [*clicker_hints(view.pad), *hints]
        lines = flow(hints, width)[: self.height - 1]
        lead = " then a letter: " if width >= ROOM_FOR_LEAD else ": "
        return Content("\n").join([*lines, *flow(self._behind_escape, width, lead)[:1]])


def clicker_hints(pad: Pad) -> list[Hint]:
    """The two keys of the clicker that was taught beside the pad, and what they mean."""
    words = ("clean", "fault, rest not seen")
    return [
        Hint(key, shown_key(key), label) for key, label in zip(pad.clicker, words, strict=False)
    ]


def flow(hints: Sequence[Hint], width: int, lead: str = "") -> list[Content]:
    """The hints on as many lines as they need; `lead` stands behind Esc and before the first."""
    line = Content.assemble(("Esc", "bold"), lead) if lead else Content("")
    lines, used = [line], cells(line.plain)
    for hint in hints:
        size = cells(hint.shown) + len(hint.label) + 3
        if used + size > width + 2:
            lines.append(Content(""))
            used = 0
        lines[-1] += Content.assemble((hint.shown, "bold"), f" {hint.label}  ")
        used += size
    return lines
