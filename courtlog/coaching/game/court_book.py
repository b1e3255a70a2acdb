"""Of which court of a clinic a book is, and how players come to a court."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

COURT_FILES = "court-*.db"
"""How the books of courts are called."""


OFFICE = "office"
"""What stands for the court of a head coach who is on none."""


class Owner(StrEnum):
    """Whose book of a court it is, and so what may be written in it."""

    HEAD = "head"
    ASSISTANT = "assistant"
    FREE = "free"
    """An assistant's, in which everything may be written since the head coach is away."""


class Arrival(StrEnum):
    """How a player came to a court."""

    DEALT = "dealt"
    HANDED = "handed"
    """On the way: the court before gave the player away, and this one has not picked yet."""
    PICKED = "picked"


@dataclass(frozen=True, slots=True)
class CourtBook:
    """Of which court a file is the book; moments are milliseconds UTC."""

    court: str
    owner: Owner
    number: int
    """Keeps its ids apart from those of the other courts' books."""
    stick: str
    """The folder in which it lays copies for the other courts."""
    written_at: int
    """When this file was written as a copy."""


def court_order(name: str) -> tuple[int, str]:
    """Courts by number, then those with other names."""
    return (int(name), "") if name.isascii() and name.isdigit() else (1 << 30, name)
