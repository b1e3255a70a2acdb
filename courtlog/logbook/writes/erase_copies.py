"""Removing a person from backups too, now or once a place for backups is there again."""

from __future__ import annotations

import shutil
import sqlite3
from collections.abc import Sequence
from contextlib import closing
from pathlib import Path

from courtlog import drafts, given_files
from courtlog.errors import CourtlogError
from courtlog.logbook.file import backups, copying
from courtlog.logbook.file.book_errors import strange
from courtlog.logbook.schema import schema_check
from courtlog.logbook.schema.schema_check import APPLICATION_ID
from courtlog.logbook.writes import erasing
from courtlog.logbook.writes.erasing import PersonIdentity, be_alone, erase_person, identity_of_ids

_KIND, _HEAD = 68, 72
"""Where a file's first bytes say which program it is of (sqlite.org/fileformat2.html, 1.3)."""


def erase_from_copies(
    copies: Sequence[Path], who: PersonIdentity, in_notes: bool
) -> tuple[list[Path], list[Path]]:
    """Remove the person from backups; gives back those that changed, and those that cannot be read.

    Nothing but books is touched. Counts are not kept here: the book itself has them.
    """
    changed, unreadable = [], []
    for path in copies:
        try:
            if _erase_from_copy(path, who, in_notes):
                changed.append(path)
        except (sqlite3.Error, OSError, CourtlogError):
            unreadable.append(path)
    return changed, unreadable


def _erase_from_copy(path: Path, who: PersonIdentity, in_notes: bool) -> bool:
    """Works on a draft, so that whatever fails there is a whole backup under that name."""
    given_files.check_ordinary(path, "book")
    if not _is_ours(path):
        return False
    with closing(sqlite3.connect(path, timeout=1)) as db:
        db.execute("PRAGMA journal_mode = DELETE")  # with what a program that died left beside it
    drafts.check_alone(path)
    with drafts.file_in(path.parent) as draft:
        shutil.copyfile(path, draft)
        changed = _erase_from_draft(draft, who, in_notes)
        drafts.put_over(draft, path)
    return changed


def _is_ours(path: Path) -> bool:
    """Whether the file says of itself that it is a book."""
    with path.open("rb") as file:
        head = file.read(_HEAD)
    return head[_KIND:_HEAD] == APPLICATION_ID.to_bytes(4, "big")


def _erase_from_draft(path: Path, who: PersonIdentity, in_notes: bool) -> bool:
    with closing(sqlite3.connect(path, timeout=1, isolation_level=None)) as db:
        if db.execute("PRAGMA application_id").fetchone() != (APPLICATION_ID,):
            return False
        if (what := schema_check.strangeness(db)) is not None:
            raise strange(path, what)
        db.execute("PRAGMA foreign_keys = ON")
        be_alone(db)
        with db:
            db.execute("BEGIN IMMEDIATE")
            here = identity_of_ids(db, who.ids)
            known = PersonIdentity(here.ids, here.names | who.names)
            gone = erase_person(db, known, None, in_notes)
        db.execute("VACUUM")
        return bool(gone.rows or gone.mentions)


def erase_owed(book: Path, second: str) -> list[Path]:
    """Remove from all backups the people whom the book has removed; returns the changed backups."""
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
        changed += erase_from_copies(copies, whom, -player in gone)[0]
    return sorted(set(changed))


def _holds(copy: Path, player: int) -> bool:
    try:
        with closing(copying.open_read_only(copy)) as db:
            found = db.execute("SELECT 1 FROM player WHERE id = ?", [player]).fetchone()
            return found is not None
    except (sqlite3.Error, OSError, CourtlogError):
        return False  # no book, or damaged: `courtlog erase` names it
