"""What belongs to the head coach's book alone: the one place that refuses it in an assistant's.

It is a courtesy, so that two courts do not set up one clinic in two ways. It is no lock: whoever
has the file can change it, and `courtlog courts --free` ends it.
"""

from __future__ import annotations

import sqlite3

from courtlog.errors import CourtlogError


def assistants_court(db: sqlite3.Connection) -> str | None:
    """The court of an assistant's book; None in every other book."""
    row = db.execute("SELECT court FROM court_book WHERE owner = 'assistant'").fetchone()
    return None if row is None else str(row[0])


def check_head_book(db: sqlite3.Connection) -> None:
    """Raise CourtlogError in the book of an assistant's court."""
    court = assistants_court(db)
    if court is not None:
        raise CourtlogError(
            f"This is the book of court {court}: set-up, plans, people, cues and erasing belong to"
            " the head coach's book.",
            "If nobody can be asked: `courtlog courts --free`.",
        )
