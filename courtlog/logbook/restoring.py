"""Putting a backup in the book's place: checked before and after, and what it replaces is kept."""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from courtlog import drafts, given_files, private
from courtlog.coaching.plain import listed, many
from courtlog.errors import BookError, BookLockedError, NotABookError
from courtlog.logbook import backups, copying, edges, schema_check
from courtlog.logbook.holder import Claim, Holder
from courtlog.logbook.refusals import told

_BESIDE = ("-wal", "-shm")
"""Files that SQLite keeps beside a book in use; a stale one would be read into the next book."""


@dataclass(frozen=True, slots=True)
class Loss:
    """What the book holds and a backup does not: balls taken, rounds, and other keys."""

    rounds: int
    balls: int
    keys: int

    def words(self) -> str:
        """`12 balls, 2 rounds and 40 keys`; nothing when the backup has everything."""
        parts = [
            many(count, word)
            for count, word in ((self.balls, "ball"), (self.rounds, "round"), (self.keys, "key"))
            if count
        ]
        return listed(parts)


def loss(book: Path, copy: Path) -> Loss | None:
    """What would be lost by putting the copy in the book's place; None for an unreadable book."""
    if not book.exists():
        return Loss(0, 0, 0)
    try:
        with closing(copying.reading(book)) as db:
            if schema_check.strangeness(db) is not None:
                return None
            db.execute("ATTACH ? AS copy", [f"{copy.absolute().as_uri()}?mode=ro"])
            counts = [
                db.execute(
                    f"SELECT count(*) FROM main.{table} WHERE {which}"
                    f" AND id NOT IN (SELECT id FROM copy.{table} WHERE {which})"
                ).fetchone()[0]
                for table, which in (("round", "true"), ("ball", "taken"), ("journal", "true"))
            ]
    except sqlite3.Error:
        return None
    return Loss(*counts)


def check(copy: Path) -> backups.Copy:
    """A backup that this courtlog can put in place. Raises BookError."""
    given_files.check_ordinary(copy, "book")
    if not copy.exists():
        raise BookError(f"There is no file {copy}.", "`courtlog restore` lists the backups.")
    with told(copy):
        found = backups.look_at(copy, thorough=True)
        edges.check_file(copy)
    return found


def restore(book: Path, copy: Path, me: Holder) -> Path | None:
    """Put the copy in the book's place; returns where the replaced book lies now.

    Raises BookError, and leaves the book as it was, when another program holds it.
    """
    wanted = check(copy)
    claim = Claim(book, me)
    try:
        if not claim.take():
            raise claim.refusal()
        return _replace(book, copy, wanted, me.since)
    finally:
        claim.release()


def _replace(book: Path, copy: Path, wanted: backups.Copy, at: int) -> Path | None:
    kept = None
    try:
        private.make_folder(book.absolute().parent)
        with drafts.file_in(book.absolute().parent) as draft:
            copying.copy_to(copy, draft)
            if book.exists():
                kept = _set_aside(book, at)
                _hold_alone(book, kept)
            for ending in _BESIDE:
                _part(book, ending).unlink(missing_ok=True)
            drafts.put(draft, book)
        if copying.held_in(book, thorough=True) == wanted.held:
            return kept
    except (OSError, sqlite3.Error) as error:
        raise BookError(
            f"The backup could not be put in place ({error}).", "Check the disk and its space."
        ) from error
    raise NotABookError(
        f"The restored book {book} does not read as the backup does.",
        f"What it replaced lies at {kept}." if kept else "",
    )


def _part(book: Path, ending: str) -> Path:
    return Path(f"{book}{ending}")


def _hold_alone(book: Path, kept: Path) -> None:
    """Fold SQLite's side files into the book, which only works while nobody else has it open."""
    try:
        with closing(sqlite3.connect(book, timeout=1)) as db:
            db.execute("PRAGMA journal_mode = DELETE")
    except sqlite3.DatabaseError as error:
        if not (getattr(error, "sqlite_errorname", "") or "").startswith("SQLITE_BUSY"):
            return  # a damaged book: what there was of it is set aside
        for ending in ("", *_BESIDE):
            _part(kept, ending).unlink(missing_ok=True)
        raise BookLockedError(
            f"Another window or program has the book {book} open.",
            "Close it there, then try again.",
        ) from error


def _set_aside(book: Path, at: int) -> Path:
    """What there is of the book, byte by byte, under a name of its own among the backups."""
    folder = backups.folder_of(book)
    private.make_folder(folder)
    kept = copying.free_name(folder, "replaced", at)
    for ending in ("", *_BESIDE[:1]):
        if _part(book, ending).exists():
            with drafts.file_in(folder) as draft:
                shutil.copyfile(_part(book, ending), draft)
                drafts.put_new(draft, _part(kept, ending))
    return kept
