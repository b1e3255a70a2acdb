"""Erasing that had to wait: a place for backups was not there when a person was removed.

The book itself remembers whom it removed, so that nothing else has to be kept: whoever is named
there and still stands in a copy goes from it, the next time a backup is made.
"""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

from courtlog.errors import CourtlogError
from courtlog.logbook.file import backups, copying
from courtlog.logbook.writes import erasing


def erase_owed(book: Path, second: str) -> list[Path]:
    """Remove from all backups whom the book has removed; returns those that changed."""
    try:
        with closing(copying.open_read_only(book)) as db:
            gone = erasing.erased_ids(db)
    except (sqlite3.Error, OSError, CourtlogError):
        return []  # the next backup is another chance
    found = backups.backup_paths(backups.folder_of(book))
    if second:
        found += backups.backup_paths(Path(second).expanduser())
    changed = []
    for player in sorted(row for row in gone if row > 0):
        copies = [path for path in found if _holds(path, player)]
        whom = erasing.PersonIdentity(frozenset({player}), frozenset())
        changed += erasing.erase_from_copies(copies, whom, -player in gone)[0]
    return sorted(set(changed))


def _holds(copy: Path, player: int) -> bool:
    try:
        with closing(copying.open_read_only(copy)) as db:
            found = db.execute("SELECT 1 FROM player WHERE id = ?", [player]).fetchone()
            return found is not None
    except (sqlite3.Error, OSError, CourtlogError):
        return False  # no book, or damaged: `courtlog erase` names it
