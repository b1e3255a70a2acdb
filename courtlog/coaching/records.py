"""A clinic as it was: the values that a sheet is read into and the book is written from.

Moments are milliseconds UTC; None where nobody noted the time.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from courtlog.coaching.rounds import Ball, Purpose


class CheckInMoment(StrEnum):
    """When a player was asked how the arm feels."""

    ARRIVAL = "arrival"
    BREAK = "break"
    END = "end"
    MORNING = "morning"


@dataclass(frozen=True, slots=True)
class BallRecord:
    """A taken ball and the notes on it."""

    ball: Ball
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class CheckIn:
    """What a player said of arm and effort: pain 0-10 and its place, effort 0-10, minutes."""

    player: str
    moment: CheckInMoment | None = None
    pain: int | None = None
    place: str = ""
    effort: int | None = None
    minutes: int | None = None
    note: str = ""
    at: int | None = None

    def words(self) -> str:
        """`pain elbow 2 · effort 6 · "tension on high balls"`."""
        parts = []
        if self.pain is not None:
            parts.append(" ".join(f"pain {self.place} {self.pain}".split()))
        if self.effort is not None:
            parts.append(f"effort {self.effort}")
        if self.minutes is not None:
            parts.append(f"{self.minutes} min")
        if self.note:
            parts.append(f'"{self.note}"')
        return " · ".join(parts)


@dataclass(frozen=True, slots=True)
class RoundRecord:
    """One player's go at one drill; `cues` are keys in stroke order, `order` spots 0-based."""

    player: str
    drill: str
    purpose: Purpose
    cues: tuple[str, ...]
    balls: tuple[BallRecord, ...] = ()
    started: int | None = None
    ended: int | None = None
    order: tuple[int, ...] = ()
    notes: tuple[str, ...] = ()
    check_ins: tuple[CheckIn, ...] = ()


@dataclass(frozen=True, slots=True)
class DayRecord:
    """One day of a clinic on one court."""

    date: date
    court: str
    coach: str
    rounds: tuple[RoundRecord, ...] = ()
    check_ins: tuple[CheckIn, ...] = ()


@dataclass(frozen=True, slots=True)
class RosterEntry:
    """A player of the clinic, and the hand that holds the racquet when it is known."""

    name: str
    hand: str = ""


@dataclass(frozen=True, slots=True)
class ClinicRecord:
    """A clinic: its name, time zone, roster and days."""

    name: str
    zone: str
    roster: tuple[RosterEntry, ...] = ()
    days: tuple[DayRecord, ...] = ()

    @property
    def players(self) -> tuple[str, ...]:
        """Everyone on the roster, then everyone else who played, in order of appearance."""
        names = [entry.name for entry in self.roster]
        for day in self.days:
            names += [round_.player for round_ in day.rounds]
            names += [check_in.player for check_in in day.check_ins]
        return tuple(dict.fromkeys(names))


def balls_of(rounds: Sequence[RoundRecord]) -> int:
    """How many balls were taken in these rounds."""
    return sum(len(round_.balls) for round_ in rounds)
