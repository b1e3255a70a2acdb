"""Is it the book or the program: values in a book that no courtlog could have written."""

from __future__ import annotations

import sqlite3

from courtlog import times


def is_damaged(db: sqlite3.Connection) -> bool:
    """Whether pages, types, checks, links or values of the file are broken."""
    from courtlog.logbook.rows import tallies  # asked only where something went wrong
    from courtlog.logbook.rows.soundness import faults
    from courtlog.logbook.schema.tables import tables

    try:
        if db.execute("PRAGMA integrity_check(1)").fetchone() != ("ok",):
            return True
        if db.execute("PRAGMA foreign_key_check").fetchone() is not None:
            return True
        for (zone,) in db.execute("SELECT zone FROM clinic"):
            times.zone(zone)
        if next(faults(db, tables(db)), None) is not None:
            return True
        return bool(tallies.proof(db))
    except Exception:  # noqa: BLE001 - whatever a check stumbles over is a damage
        return True
