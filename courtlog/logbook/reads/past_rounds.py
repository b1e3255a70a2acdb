"""The rounds of a clinic that hold balls, to choose one from."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from zoneinfo import ZoneInfo

from courtlog.coaching.game.rounds import Purpose
from courtlog.logbook.file.book import Book
from courtlog.plain_text import many
from courtlog.times import date_words, minute_words


@dataclass(frozen=True, slots=True)
class PastRound:
    """A round in a list: when, whose, which drill and why, and how many balls it holds."""

    id: int
    day: date
    started_at: int | None
    """The moment it began (milliseconds UTC); None where it came from a sheet."""
    court: str
    place: int
    """Which round of that day on that court, from 1."""
    player_id: int
    drill: str
    purpose: Purpose
    balls: int

    def words(self, player: str, zone: ZoneInfo) -> str:
        """`Tue 12 May 08:30 · Maren · Racquet feed · practice · 20 balls`."""
        day = date_words(self.day)
        when = day if self.started_at is None else f"{day} {minute_words(self.started_at, zone)}"
        return " · ".join((when, player, self.drill, self.purpose, many(self.balls, "ball")))

    @property
    def place_words(self) -> str:
        """`round 3, court 2`: what tells it from another round that reads the same."""
        return f"round {self.place}" + (f", court {self.court}" if self.court else "")


def past_rounds(book: Book, clinic_id: int) -> list[PastRound]:
    """The clinic's rounds with at least one ball, the latest first."""
    rows = book.db.execute(
        "SELECT round.id, date, started_at, court, round.place, player_id,"
        " card ->> '$.drill.name', purpose, count(ball.id)"
        " FROM day JOIN round ON round.day_id = day.id JOIN drill_used ON drill_used.id = drill_id"
        " JOIN ball ON ball.round_id = round.id AND taken WHERE clinic_id = ?"
        " GROUP BY round.id ORDER BY date DESC, court, round.place DESC",
        [clinic_id],
    )
    return [
        PastRound(
            row, date.fromisoformat(on), began, court, place, player, drill, Purpose(why), balls
        )
        for row, on, began, court, place, player, drill, why, balls in rows
    ]


def joinable_rounds(book: Book, round_id: int) -> list[int]:
    """Rounds with balls of the same day, player, drill, purpose and cues, in their order."""
    rows = book.db.execute(
        "SELECT twin.id FROM round JOIN round AS twin USING (day_id, player_id, drill_id, purpose,"
        " rate_every) WHERE round.id = ? AND twin.id <> round.id"
        " AND EXISTS (SELECT 1 FROM ball WHERE ball.round_id = twin.id AND taken)"
        " AND (SELECT group_concat(cue) FROM (SELECT cue FROM round_cue"
        "   WHERE round_id = round.id ORDER BY row)) = (SELECT group_concat(cue) FROM"
        "   (SELECT cue FROM round_cue WHERE round_id = twin.id ORDER BY row))"
        " ORDER BY twin.place",
        [round_id],
    )
    return [row for (row,) in rows]
