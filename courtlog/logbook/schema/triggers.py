"""The book's triggers, out of the way for what is no change by anybody."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def without_triggers(db: sqlite3.Connection) -> Iterator[None]:
    """Rows go and come unguarded and unnoted; for use in a transaction, whose failure undoes it."""
    found = db.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").fetchall()
    for name, _ in found:
        db.execute(f"DROP TRIGGER {name}")
    yield
    for _, sql in found:
        db.execute(sql)
