"""Write a book for each court of a clinic: all of them, each whole, or none.

Each is a copy of the head coach's book with the same clinics, people and drills. So the joining in
the evening has nothing to ask. What is written in it gets ids of its own.
"""

from __future__ import annotations

import contextlib
import sqlite3
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path

from courtlog import drafts, private
from courtlog.coaching.game.court_book import OFFICE, CourtBook, Owner
from courtlog.coaching.plans.court_dealing import CourtGroup
from courtlog.errors import CourtlogError
from courtlog.logbook.exchange.courts.court_files import (
    STORED,
    check_court_name,
    copy_of_court,
    file_of,
    knows_more,
    read_court_file,
    stored_values,
    told_of,
)
from courtlog.logbook.file.book import Book
from courtlog.logbook.rows.ids import COURTS
from courtlog.logbook.writes.courts.deal_writer import deal_players

MOST_COURTS = COURTS - 1
"""Each court has a number of its own for its ids; one is left for a copy of the head's."""

_AGAIN = "Nothing was changed. Name another folder with --in."
_TAKE_IN = "Nothing was changed. `courtlog gather` takes it in; --in names another folder."


def write_court_books(
    book: Book,
    clinic_id: int,
    on: date,
    groups: Sequence[CourtGroup],
    head: str | None,
    folder: Path,
    at_ms: int,
) -> list[Path]:
    """Deal the players and write `court-NAME.db` of each court; returns the files.

    The book itself becomes that of the court `head`, whose file is a copy for the others to read.
    None: the head coach is on no court. Files that were written before and that nobody wrote in
    are replaced. Raises CourtlogError, and then nothing is changed.
    """
    if not 1 <= len(groups) <= MOST_COURTS:
        raise CourtlogError(f"A clinic has 1 to {MOST_COURTS} courts.", "Name as many.")
    for group in groups:
        check_court_name(group.court)
    if len({group.court.casefold() for group in groups}) < len(groups):
        raise CourtlogError(
            "Two courts differ in capitals alone, and many disks take their books for one.",
            "Nothing was changed. Name them differently.",
        )
    with told_of(folder, _AGAIN):
        private.make_folder(folder)
        files = {group.court: file_of(folder, group.court) for group in groups}
        for path in files.values():
            _check_replaceable(path, book, clinic_id)
        with (
            drafts.folder_noted(folder, book.path.absolute().parent) as scratch,
            _all_or_none(scratch) as put,
            book.setting_up() as db,
        ):
            deal_players(book, clinic_id, on, groups, at_ms)
            dealt = db.execute(
                "SELECT * FROM player_court WHERE clinic_id = ? AND date = ?",
                [clinic_id, on.isoformat()],
            ).fetchall()
            own = CourtBook(head or OFFICE, Owner.HEAD, 0, str(folder.absolute()), at_ms)
            for number, group in enumerate(groups, 1):
                court = replace(own, court=group.court, owner=Owner.ASSISTANT, number=number)
                if group.court == head:
                    # Nobody else takes the numbers of the head coach's own court.
                    court, own = replace(own, number=0), replace(own, number=number)
                draft = scratch / files[group.court].name
                # A full stick is told as that, and not as a failure of the book.
                with told_of(folder, _AGAIN), copy_of_court(book.path, draft, court) as copy:
                    copy.executemany(
                        "INSERT OR IGNORE INTO player_court VALUES (?, ?, ?, ?, ?, ?, ?)", dealt
                    )
                    _know_courts(copy, groups, group.court, at_ms)
            db.execute(STORED, stored_values(own))
            _know_courts(db, groups, head, at_ms)
            for path in files.values():
                with told_of(folder, _AGAIN):
                    put(path)
    return list(files.values())


def _know_courts(
    db: sqlite3.Connection, groups: Sequence[CourtGroup], own: str | None, at_ms: int
) -> None:
    """Write in a book that it knows all courts but its own up to this moment."""
    db.execute("DELETE FROM court_reading")
    db.executemany(
        "INSERT INTO court_reading VALUES (?, ?)",
        [(group.court, at_ms) for group in groups if group.court != own],
    )


@contextlib.contextmanager
def _all_or_none(scratch: Path) -> Iterator[Callable[[Path], None]]:
    """A function that gives a draft its final name; what was new there goes if anything fails."""
    new: list[Path] = []

    def put(path: Path) -> None:
        if path.exists():
            drafts.put(scratch / path.name, path)
        else:
            drafts.put_new(scratch / path.name, path)
            new.append(path)

    try:
        yield put
    except BaseException:
        for path in new:
            with contextlib.suppress(OSError):
                path.unlink()
        raise


def _check_replaceable(path: Path, book: Book, clinic_id: int) -> None:
    """Raise CourtlogError for a file that somebody else made or wrote in, or that knows more."""
    if not path.exists():
        return
    known = read_court_file(path)
    if known is None:
        raise CourtlogError(f"{path} is there, and it is no book of a court.", _AGAIN)
    if not known.untouched:
        raise CourtlogError(
            f"Somebody has written in {path} already.",
            _TAKE_IN,
        )
    if clinic_id not in known.clinics:
        raise CourtlogError(f"{path} is of another clinic.", _AGAIN)
    if knows_more(path, book.path):
        raise CourtlogError(f"{path} holds balls or check-ins that are not in your book.", _TAKE_IN)
