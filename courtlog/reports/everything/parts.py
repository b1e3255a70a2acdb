"""What the page is made of: parts with entries, and the rows that the parts are read from."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from typing import Any

from courtlog import times
from courtlog.coaching.game.people import Clinic
from courtlog.logbook.reads.person.person_rows import PersonRows, Row
from courtlog.plain_text import many


@dataclass(frozen=True, slots=True)
class Entry:
    """One thing that is held: of which date, what it is, and what it says."""

    words: str
    label: str = ""
    on: date | None = None

    @property
    def in_full(self) -> str:
        """`11 May 2026 · arrival: 08:31, pain 0 of 10`."""
        head = " · ".join(filter(None, (day_words(self.on) if self.on else "", self.label)))
        return f"{head}: {self.words}" if head else self.words


@dataclass(frozen=True, slots=True)
class Part:
    """Entries under one heading; `none` is said where there are none."""

    key: str
    title: str
    entries: tuple[Entry, ...]
    none: str = "nothing"
    amount: str = ""
    """How many there are, in words; empty where counting the entries says it."""

    @property
    def how_many(self) -> str:
        """`16 rounds, 240 balls` or `3 lines`."""
        return self.amount or many(len(self.entries), "line")


@dataclass(frozen=True)
class Held:
    """A person's rows, with the dates and names that they refer to."""

    rows: PersonRows

    @cached_property
    def _cards(self) -> dict[int, Any]:
        used = self.rows.referred["drill_used"]
        return {drill: json.loads(used[drill]["card"]) for drill in sorted(used)}

    def of(self, table: str) -> Sequence[Row]:
        """The person's rows of a table."""
        return self.rows.tables[table]

    def clinic(self, clinic_id: int) -> Clinic:
        """The clinic of that id."""
        row = self.rows.referred["clinic"][clinic_id]
        return Clinic(row["id"], row["name"], row["zone"], row["planned_days"])

    def day(self, day_id: int) -> Row:
        """The day of that id."""
        return self.rows.referred["day"][day_id]

    def date(self, day_id: int) -> date:
        """The date of that day."""
        return date.fromisoformat(self.day(day_id)["date"])

    def coach(self, coach_id: int) -> str:
        """The name of the coach of that id."""
        return str(self.rows.referred["coach"][coach_id]["name"])

    def drill(self, drill_id: int) -> str:
        """The name of a drill that was used."""
        return str(self._cards[drill_id]["drill"]["name"])

    def drill_called(self, full_name: str) -> str:
        """The name of a drill by its full name, as it read last; else the full name."""
        used = self.rows.referred["drill_used"]
        names = [self.drill(drill) for drill in self._cards if used[drill]["name"] == full_name]
        return names[-1] if names else full_name

    def stroke_of(self, drill_id: int) -> str:
        """The key of that drill's stroke."""
        return str(self.rows.referred["drill_used"][drill_id]["stroke"])

    def stroke(self, key: str) -> str:
        """The title of a stroke; its key where no drill of it was used."""
        titles = [str(card["title"]) for card in self._cards.values() if card["stroke"] == key]
        return titles[-1] if titles else key

    def cue(self, stroke: str, key: str) -> str:
        """The name of a stroke's cue; its key where no drill of the stroke was used."""
        names = [
            str(cue["name"])
            for card in self._cards.values()
            for cue in card["cues"]
            if (card["stroke"], cue["key"]) == (stroke, key)
        ]
        return names[-1] if names else key

    def clock(self, at_ms: int | None, day_id: int) -> str:
        """`09:41` by the clock of that day's clinic; empty where no time was noted."""
        if at_ms is None:
            return ""
        return times.minute_words(at_ms, self.clinic(self.day(day_id)["clinic_id"]).place)

    def text(self, written: Any) -> str:
        """A text that a coach wrote, without the names of other players."""
        return self.rows.without_others(str(written))


def in_time(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    """The entries by date; those of one date stay in their order."""
    return tuple(sorted(entries, key=lambda entry: entry.on or date.min))


def sentence(*parts: str) -> str:
    """The parts that say something, with commas between."""
    return ", ".join(filter(None, parts))


def day_words(day: date) -> str:
    """`12 May 2026`."""
    return f"{times.day_month_words(day)} {day.year}"
