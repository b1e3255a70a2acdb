"""Which file a book is: a copy gives its first new entry, and all later ones, ids of its own.

Else two copies that both grow would give one id to two things, and could not be joined. The number
that ids begin with only ever rises, so that later ids of a book sort after earlier ones.
"""

from __future__ import annotations

import hashlib
import platform
import sqlite3
from pathlib import Path

from courtlog.logbook.rows.ids import (
    COUNT_BITS,
    TAG_BITS,
    Ids,
    copied_court_tag,
    court_tag,
    higher_tag,
)

UNCLAIMED = ""
"""The place of a book that was written as a copy and in which nobody has written yet."""


def identity_of(path: Path) -> str:
    """A short name of this file on this computer; every copy has another."""
    where = f"{platform.node()} {path.stat().st_ino}"
    return hashlib.sha256(where.encode(errors="replace")).hexdigest()[:16]


def ids_of(db: sqlite3.Connection) -> Ids:
    """Ids that go on from those of the book. Raises ValueError."""
    row = db.execute("SELECT coalesce((SELECT tag FROM home), tag) FROM book").fetchone()
    if row is None or type(row[0]) is not int or not 0 < row[0] < 1 << TAG_BITS:
        raise ValueError("the book has no number that ids can begin with")
    ids = Ids(row[0])
    follow_other_writers(db, ids)
    return ids


def follow_other_writers(db: sqlite3.Connection, ids: Ids) -> None:
    """Continue after the ids that another program may have used meanwhile."""
    ids.continue_after(_highest_id(db, ids.ceiling))


def claim_identity(db: sqlite3.Connection, ids: Ids, place: str) -> None:
    """Give a copied book higher ids from here on; runs in a transaction that writes."""
    row = db.execute("SELECT place, tag FROM home").fetchone()
    if row is not None and row[0] == place:
        return
    highest = _highest_id(db) >> COUNT_BITS
    (tag,) = db.execute("SELECT tag FROM book").fetchone()
    if row is not None or highest:
        tag = max(tag, highest, row[1] if row else 0)
        court = _court_of(db)
        tag = higher_tag(tag) if court is None else copied_court_tag(tag, court)
    db.execute("INSERT OR REPLACE INTO home VALUES (1, ?, ?)", [place, tag])
    ids.continue_with_tag(tag)


def rise_above_all(db: sqlite3.Connection, ids: Ids) -> None:
    """Make new ids sort after those of rows that came from other books."""
    (tag,) = db.execute("SELECT tag FROM home").fetchone()
    highest = _highest_id(db) >> COUNT_BITS
    if highest > tag:
        court = _court_of(db)
        tag = higher_tag(highest) if court is None else court_tag(highest, court)
        db.execute("UPDATE home SET tag = ?", [tag])
        ids.continue_with_tag(tag)


def leave_unclaimed(db: sqlite3.Connection) -> None:
    """Let a copy take ids of its own when somebody first writes in it."""
    (tag,) = db.execute("SELECT coalesce((SELECT tag FROM home), tag) FROM book").fetchone()
    db.execute("INSERT OR REPLACE INTO home VALUES (1, ?, ?)", [UNCLAIMED, tag])


def is_unclaimed(db: sqlite3.Connection) -> bool:
    """Whether nobody has written in this book since it was made as a copy."""
    row = db.execute("SELECT place FROM home").fetchone()
    return row is not None and row[0] == UNCLAIMED


def _court_of(db: sqlite3.Connection) -> int | None:
    """The number of the court whose book this is; several courts' books rise side by side."""
    row = db.execute("SELECT number FROM court_book").fetchone()
    return None if row is None else int(row[0])


def _highest_id(db: sqlite3.Connection, below: int = 2**63 - 1) -> int:
    """The highest id of all, or of those below a number."""
    last = 0
    tables = db.execute(
        "SELECT master.name FROM sqlite_master AS master, pragma_table_info(master.name) AS info"
        " WHERE master.type = 'table' AND info.name = 'id'"
    ).fetchall()
    for (table,) in tables:
        (highest,) = db.execute(f"SELECT max(id) FROM {table} WHERE id < ?", [below]).fetchone()
        last = max(last, highest or 0)
    return last
