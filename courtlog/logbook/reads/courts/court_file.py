"""What the book of a court says of itself, to whoever finds its file."""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from courtlog.coaching.game.court_book import CourtBook
from courtlog.logbook.file import file_identity
from courtlog.logbook.file.head_book import read_court_book
from courtlog.logbook.schema.tables import columns_of


@dataclass(frozen=True, slots=True, kw_only=True)
class CourtFile:
    """A court's book in a file: what it says of itself."""

    path: Path
    own: CourtBook
    untouched: bool
    """Whether nobody has written in it since it was made."""
    known_until: int
    """When it was written as a copy, milliseconds UTC; in use since then: its latest entry."""
    clinics: frozenset[int]
    """The ids of its clinics."""
    readings: Mapping[str, int]
    """Up to which moment it knows the other courts."""


_LAST_WRITTEN = "SELECT " + ", ".join(
    f"coalesce((SELECT max(at) FROM {table}), 0)" for table in ("journal", "check_in", "red_flag")
)


def told_by(db: sqlite3.Connection, path: Path) -> CourtFile | None:
    """What the open book of that file says; None where it is no court's."""
    own = read_court_book(db) if columns_of(db, "court_book") else None
    if own is None:
        return None
    untouched = file_identity.is_unclaimed(db)
    last = max(db.execute(_LAST_WRITTEN).fetchone())
    return CourtFile(
        path=path,
        own=own,
        untouched=untouched,
        known_until=own.written_at if untouched else max(own.written_at, last),
        clinics=frozenset(row for (row,) in db.execute("SELECT id FROM clinic")),
        readings=dict(db.execute("SELECT court, written_at FROM court_reading")),
    )
