"""A clinic, its days and its players as the book knows them; ids are the book's."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from zoneinfo import ZoneInfo

from courtlog import times


@dataclass(frozen=True, slots=True)
class Clinic:
    """A run of days at a venue, the zone its days are counted in, and how many are planned."""

    id: int
    name: str
    zone: str
    planned_days: int | None = None

    @property
    def place(self) -> ZoneInfo:
        """The time zone as the standard library knows it."""
        return times.zone(self.zone)


@dataclass(frozen=True, slots=True)
class Day:
    """One day of a clinic on one court; `number` counts the clinic's dates from 1."""

    id: int
    clinic_id: int
    date: date
    court: str
    coach: str
    number: int

    def words(self) -> str:
        """`day 3 · Thu 14 May`."""
        return f"day {self.number} · {times.date_words(self.date)}"


@dataclass(frozen=True, slots=True)
class Player:
    """A person on the roster; `label` tells two of one name apart (empty: the name is enough)."""

    id: int
    name: str
    hand: str = ""
    short: str = ""
    label: str = ""

    @property
    def shown_name(self) -> str:
        """The name as screens and pages show it, like that of nobody else on the roster."""
        return self.label or self.name

    @property
    def full_name(self) -> str:
        """The name as shown, and the short name in brackets where there is one."""
        added = f" ({self.short})"
        return (
            self.shown_name
            if not self.short or self.shown_name.endswith(added)
            else self.shown_name + added
        )

    @property
    def list_name(self) -> str:
        """The short name where there is one: for lists and strips with little room."""
        return self.short or self.shown_name
