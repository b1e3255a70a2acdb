"""The last day of the last clinic that each player of a book was on."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from courtlog.logbook.file.book import Book
from courtlog.logbook.rows.mentions import SOMEONE

_LAST_DAYS = """
WITH seen AS (
    SELECT clinic_id, player_id FROM roster
    UNION SELECT clinic_id, player_id FROM round JOIN day ON day.id = day_id
    UNION SELECT clinic_id, player_id FROM check_in JOIN day ON day.id = day_id
), last AS (SELECT clinic_id, max(date) AS date FROM day GROUP BY clinic_id)
SELECT player_id, name, max(date), sum(date IS NULL)
FROM seen JOIN player ON player.id = player_id LEFT JOIN last USING (clinic_id)
WHERE name NOT GLOB ?
GROUP BY player_id ORDER BY max(date), name, player_id
"""


@dataclass(frozen=True, slots=True)
class LastDay:
    """A player's last day in the book; None while a clinic of theirs has not begun."""

    player_id: int
    name: str
    date: date | None


def last_days(book: Book) -> list[LastDay]:
    """Everyone's last day, the earliest first; nobody who was erased and left counts behind."""
    return [
        LastDay(player, name, None if coming else date.fromisoformat(on))
        for player, name, on, coming in book.db.execute(_LAST_DAYS, [f"{SOMEONE} [0-9]*"])
    ]


def last_day(book: Book, player_ids: frozenset[int]) -> date | None:
    """The last day of one person, known by these ids."""
    dates = [one.date for one in last_days(book) if one.player_id in player_ids]
    return max((day for day in dates if day), default=None) if None not in dates else None
