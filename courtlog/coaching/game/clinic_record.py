"""A clinic as it was: the values that a sheet is read into and the book is written from.

Moments are milliseconds UTC; None where nobody noted the time.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from enum import StrEnum

from courtlog.coaching.game.rounds import Ball, Purpose


class CheckInMoment(StrEnum):
    """When a player was asked how the arm feels."""

    ARRIVAL = "arrival"
    BREAK = "break"
    END = "end"
    MORNING = "morning"


class Sign(StrEnum):
    """A warning sign beside pain, as a sheet writes it."""

    SUDDEN = "sudden-onset"
    NUMBNESS = "numbness"
    TINGLING = "tingling"
    SWELLING = "swelling"
    WEAKNESS = "weakness"
    NIGHT = "night-pain"

    @property
    def words(self) -> str:
        """The sign in the words of the question."""
        return _SIGNS[self]


_SIGNS = {
    Sign.SUDDEN: "it came on suddenly",
    Sign.NUMBNESS: "numbness",
    Sign.TINGLING: "tingling",
    Sign.SWELLING: "visible swelling",
    Sign.WEAKNESS: "loss of strength",
    Sign.NIGHT: "pain at night",
}


def signs_of(text: str) -> tuple[Sign, ...]:
    """`numbness, swelling` as signs in their order. Raises ValueError for an unknown one."""
    named = set(text.replace(",", " ").split())
    unknown = named - set(Sign)
    if unknown:
        raise ValueError(f"signs are {', '.join(Sign)}, not {min(unknown)!r}")
    return tuple(sign for sign in Sign if sign in named)


@dataclass(frozen=True, slots=True)
class BallRecord:
    """A taken ball and the notes on it."""

    ball: Ball
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckIn:
    """What a player said of arm and effort."""

    player: str
    """The player's name."""
    moment: CheckInMoment | None = None
    """When it was asked; None where that is not known."""
    pain: int | None = None
    """Pain, 0 to 10."""
    place: str = ""
    """Where it hurts."""
    effort: int | None = None
    """Effort, 0 to 10."""
    minutes: int | None = None
    """Minutes of play."""
    note: str = ""
    """Anything else, in the player's words."""
    at_ms: int | None = None
    """The moment, milliseconds UTC."""
    signs: tuple[Sign, ...] = ()
    """Warning signs, each once, in the order of Sign."""

    def words(self) -> str:
        """`arrival: pain elbow 2 · effort 6 · "tension on high balls"`."""
        parts = []
        if self.pain is not None:
            parts.append(" ".join(f"pain {self.place} {self.pain}".split()))
        parts += [sign.words for sign in self.signs]
        if self.effort is not None:
            parts.append(f"effort {self.effort}")
        if self.minutes is not None:
            parts.append(f"{self.minutes} min")
        if self.note:
            parts.append(f"“{self.note}”")
        return (f"{self.moment}: " if self.moment else "") + " · ".join(parts)


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundRecord:
    """One player's go at one drill."""

    player: str
    """The player's name."""
    drill: str
    """The drill's full name."""
    purpose: Purpose
    """Why the round was played."""
    cues: tuple[str, ...]
    """Keys of the cues watched, in stroke order."""
    balls: tuple[BallRecord, ...] = ()
    """The balls taken, in order."""
    started: int | None = None
    """The moment it began, milliseconds UTC."""
    ended: int | None = None
    """The moment it ended, milliseconds UTC."""
    paused: int = 0
    """Seconds of pause."""
    order: tuple[int, ...] = ()
    """The feed order: spots from 0."""
    notes: tuple[str, ...] = ()
    """Notes on the round."""
    check_ins: tuple[CheckIn, ...] = ()
    """What was asked during the round."""

    @property
    def has_something(self) -> bool:
        """Whether the round has any ball, note or check-in."""
        return bool(self.balls or self.notes or self.check_ins)


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
    """A clinic: its name, time zone, roster, days, and how many days are planned."""

    name: str
    zone: str
    roster: tuple[RosterEntry, ...] = ()
    days: tuple[DayRecord, ...] = ()
    planned_days: int | None = None

    def with_everyone_on_the_roster(self) -> ClinicRecord:
        """The same clinic; players missing from the roster stand at its end."""
        named = [entry.name for entry in self.roster]
        for day in self.days:
            named += [round_.player for round_ in day.rounds]
            named += [check_in.player for check_in in day.check_ins]
        known = {entry.name: entry for entry in reversed(self.roster)}
        everyone = (known.get(name, RosterEntry(name)) for name in dict.fromkeys(named))
        return replace(self, roster=tuple(everyone))
