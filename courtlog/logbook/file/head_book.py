"""What belongs to the head coach's book alone: the one place that refuses it in an assistant's.

It is a courtesy, so that two courts do not set up one clinic in two ways. It is no lock: whoever
has the file can change it, and `courtlog courts --free` ends it.
"""

from __future__ import annotations

import sqlite3

from courtlog.coaching.game.court_book import CourtBook, Owner
from courtlog.errors import CourtlogError


def read_court_book(db: sqlite3.Connection) -> CourtBook | None:
    """Of which court this file is the book; None where the clinic was never dealt to courts."""
    row = db.execute("SELECT court, owner, number, stick, written_at FROM court_book").fetchone()
    return None if row is None else CourtBook(row[0], Owner(row[1]), *row[2:])


def assistants_court(db: sqlite3.Connection) -> str | None:
    """The court of an assistant's book; None in every other book."""
    own = read_court_book(db)
    return own.court if own is not None and own.owner is Owner.ASSISTANT else None


def check_head_book(db: sqlite3.Connection) -> None:
    """Raise CourtlogError in the book of an assistant's court."""
    court = assistants_court(db)
    if court is not None:
        raise CourtlogError(
            f"This is court {court}'s book: set-up, cues and erasing are the head coach's.",
            "Ask them; the stick brings it. If away: `courtlog courts --free`.",
        )
