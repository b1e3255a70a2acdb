"""Look-ups of heat: the readings of a date."""

from __future__ import annotations

from datetime import date

from courtlog.coaching.heat_care import HeatReading
from courtlog.logbook.opening import Book


def heat_on(book: Book, clinic_id: int, on: date) -> list[HeatReading]:
    """The clinic's readings of a date, oldest first."""
    rows = book.db.execute(
        "SELECT celsius, humidity, wbgt, at FROM day JOIN heat ON heat.day_id = day.id"
        " WHERE clinic_id = ? AND date = ? ORDER BY at, heat.id",
        [clinic_id, on.isoformat()],
    )
    return [HeatReading(*row) for row in rows]
