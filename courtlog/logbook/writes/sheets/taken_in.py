"""What a sheet changed in the book."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from courtlog.coaching.game.clinic_record import RoundRecord


@dataclass(frozen=True, slots=True)
class PlacedRound:
    """A round of the sheet, and where it stands in a day that the book had begun."""

    date: date
    court: str
    round: RoundRecord
    place: int
    """Which of the player's rounds of that day on that court it is now, from 1."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenIn:
    """What a sheet changed in the book."""

    clinic_id: int
    days: int
    """Days of the sheet."""
    rounds: int
    """Rounds that came in."""
    balls: int
    """Balls that came in."""
    placed: tuple[PlacedRound, ...]
    """Those of the rounds that joined a day already begun."""
    known: tuple[PlacedRound, ...]
    """Rounds that the book had already, ball for ball, where they stand there."""
    kept: int
    """Rounds of which the book's version was kept."""
    mended: int
    """Rounds that now read as on the sheet."""
    texts: int
    """Notes and check-ins that came in."""
    amendment_id: int | None
    """The amendment that `history` takes back; None where nothing came in."""
