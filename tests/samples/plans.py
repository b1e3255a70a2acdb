"""The plan of an invented clinic: who works on what from when, and what happens to whom."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from courtlog.coaching.game.clinic_record import CheckInMoment
from courtlog.coaching.game.rounds import Purpose
from tests.samples.players import Player


@dataclass(frozen=True, slots=True)
class Task:
    """A drill by its full name, the balls of one round, and the cues that are rated."""

    drill: str
    balls: int
    cues: str

    @property
    def stroke(self) -> str:
        """The stroke of the drill."""
        return self.drill.partition("/")[0]


@dataclass(frozen=True, slots=True)
class Block:
    """From `at` on everyone named (no name: all) has one round; `instead` holds exceptions."""

    at: str
    purpose: Purpose
    task: Task
    who: tuple[str, ...] = ()
    instead: Mapping[str, Task] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Ask:
    """When everyone named (no name: all) is asked, and the minutes worked since the last time."""

    moment: CheckInMoment
    at: str
    minutes: int | None = None
    who: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Answer:
    """What one player says that the others do not; None leaves the minutes as asked."""

    pain: int = 0
    place: str = ""
    note: str = ""
    at: str = ""
    minutes: int | None = None


@dataclass(frozen=True, slots=True)
class DayPlan:
    """A day: blocks in order, the check-ins, and the exceptions by player.

    `answers` go by (player, moment); `notes`, `said` (after the round) and `shorter` (balls) by
    (player, time of the block).
    """

    date: date
    blocks: tuple[Block, ...]
    asks: tuple[Ask, ...]
    answers: Mapping[tuple[str, CheckInMoment], Answer] = field(default_factory=dict)
    notes: Mapping[tuple[str, str], str] = field(default_factory=dict)
    said: Mapping[tuple[str, str], Answer] = field(default_factory=dict)
    shorter: Mapping[tuple[str, str], int] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class ClinicPlan:
    """A clinic: its name and place, its players, its days, and the seed of its chance."""

    name: str
    zone: str
    court: str
    coach: str
    seed: int
    players: tuple[Player, ...]
    days: tuple[DayPlan, ...]
    lunch: str = "12:30"
