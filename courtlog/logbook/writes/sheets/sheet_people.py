"""Whom and which day a sheet means: the names on it, held against a clinic of the book."""

from __future__ import annotations

import sqlite3
from collections import Counter

from courtlog.coaching.game.clinic_record import ClinicRecord, DayRecord
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.names import folded_name


def known_players(book: Book, clinic_id: int, clinic: ClinicRecord) -> dict[str, int]:
    """The ids of those on the sheet who are on the roster already, by their names on the sheet.

    A name counts as it is shown, else as it is, else without case and accents where nobody else on
    sheet or roster has it.
    """
    roster = lookups.players(book, clinic_id)
    named = {player.name: player.id for player in reversed(roster)}
    named |= {player.shown_name: player.id for player in roster}
    names = [entry.name for entry in clinic.with_everyone_on_the_roster().roster]
    found = {name: named[name] for name in names if name in named}
    alike = Counter(map(folded_name, {*names, *named}))
    folded = {folded_name(name): row for name, row in named.items()}
    for name in names:
        if name not in found and alike[folded_name(name)] == 2:  # the sheet's and the roster's
            row = folded.get(folded_name(name))
            if row is not None and row not in found.values():
                found[name] = row
    return found


def day_of_sheet(
    db: sqlite3.Connection, clinic_id: int, day: DayRecord, clinic: ClinicRecord
) -> tuple[int, str] | None:
    """The id and court of the book's day that the sheet means; None for a new one.

    A sheet without a court means the only court that the book has of that date.
    """
    rows: list[tuple[int, str]] = db.execute(
        "SELECT id, court FROM day WHERE clinic_id = ? AND date = ?",
        [clinic_id, day.date.isoformat()],
    ).fetchall()
    for row, court in rows:
        if court == day.court:
            return row, court
    own = {other.court for other in clinic.days if other.date == day.date}
    if not day.court and len(rows) == 1 and rows[0][1] not in own:
        return rows[0]
    return None
