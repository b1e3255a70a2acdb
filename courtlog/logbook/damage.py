"""Is it the book or the program: values in a book that no courtlog could have written."""

from __future__ import annotations

import sqlite3

from courtlog.coaching import times
from courtlog.logbook.database import Database


def is_damaged(db: Database) -> bool:
    """Whether pages, types, checks or links of the file are broken, or a zone is none."""
    try:
        if db.execute("PRAGMA integrity_check(1)").fetchone() != ("ok",):
            return True
        if db.execute("PRAGMA foreign_key_check").fetchone() is not None:
            return True
        for (zone,) in db.execute("SELECT zone FROM clinic"):
            times.zone(zone)
    except (sqlite3.Error, ValueError):
        return True
    return False
