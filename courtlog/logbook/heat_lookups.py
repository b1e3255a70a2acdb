"""Look-ups of heat: the readings of a date, the clinic's own lines and its timer to rest."""

from __future__ import annotations

from datetime import date

from courtlog.coaching.heat_care import HeatLines, HeatReading
from courtlog.logbook.opening import Book


def heat_on(book: Book, clinic_id: int, on: date) -> list[HeatReading]:
    """The clinic's readings of a date, oldest first."""
    rows = book.db.execute(
        "SELECT celsius, humidity, wbgt, at FROM day JOIN heat ON heat.day_id = day.id"
        " WHERE clinic_id = ? AND date = ? ORDER BY at, heat.id",
        [clinic_id, on.isoformat()],
    )
    return [HeatReading(*row) for row in rows]


def heat_lines(book: Book, clinic_id: int) -> HeatLines:
    """The coach's own lines for a measured WBGT; empty until they are filled in."""
    row = book.db.execute(
        "SELECT wbgt_modify, wbgt_stop, wbgt_rule FROM clinic WHERE id = ?", [clinic_id]
    ).fetchone()
    return HeatLines(*row)


def rest_minutes(book: Book, clinic_id: int) -> int | None:
    """Minutes between prompts to drink and rest; None where the coach set none."""
    row = book.db.execute("SELECT rest_minutes FROM clinic WHERE id = ?", [clinic_id]).fetchone()
    return None if row[0] is None else int(row[0])
