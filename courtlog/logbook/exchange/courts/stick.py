"""What courts tell one another over a stick: each lays a copy of its book, and joins the others'.

A stick that is out, full or read-only is one sentence; the court goes on, and nothing is lost.
"""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass, replace
from pathlib import Path

from courtlog import drafts
from courtlog.coaching.game.court_book import COURT_FILES, CourtBook, Owner
from courtlog.errors import BookError, CourtlogError
from courtlog.logbook.exchange.courts.court_files import (
    copy_of_court,
    file_of,
    read_court_file,
    told_of,
)
from courtlog.logbook.exchange.join_books import JoinResult, join_book
from courtlog.logbook.exchange.matching import Question
from courtlog.logbook.exchange.removals import Removal
from courtlog.logbook.file import copying
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads.courts.court_file import CourtFile
from courtlog.logbook.reads.courts.court_groups import court_book, readings

_GO_ON = "The court goes on; try again when the stick is in."


@dataclass(frozen=True, slots=True)
class StickRead:
    """What came in from the stick, and what could not be read, each as a sentence."""

    courts: tuple[str, ...] = ()
    """The courts of which something newer was read."""
    reds: tuple[int, ...] = ()
    """Ids of red flags that only the books together call for."""
    troubles: tuple[str, ...] = ()


def own_court(book: Book) -> CourtBook:
    """Of which court the book is. Raises CourtlogError where it is no court's."""
    own = court_book(book)
    if own is None:
        raise CourtlogError(
            "This clinic is on one court.", "`courtlog courts 2` deals it to two in the morning."
        )
    return own


def set_stick(book: Book, folder: Path) -> None:
    """Lay copies in this folder from now on. Raises CourtlogError where it is none."""
    own_court(book)
    if not folder.is_dir():
        raise CourtlogError(f"There is no folder {folder}.", "Put the stick in, or name another.")
    with book.writing() as db:
        db.execute("UPDATE court_book SET stick = ?", [str(folder.absolute())])


def set_free(book: Book) -> None:
    """Let everything be written in this book, since the head coach is away."""
    if own_court(book).owner is not Owner.ASSISTANT:
        raise CourtlogError("This book is the head coach's, or free already.")
    with book.writing() as db:
        db.execute("UPDATE court_book SET owner = ?", [str(Owner.FREE)])


def lay_copy(book: Book, at_ms: int) -> Path:
    """Lay a whole copy of this book on the stick for the other courts; returns its file.

    What somebody wrote in the copy that lies there is taken in first. Raises CourtlogError.
    """
    own = own_court(book)
    folder = _folder(own)
    path = file_of(folder, own.court)
    if path.exists() and path.samefile(book.path):
        return path  # the book itself lies on the stick
    with told_of(folder, _GO_ON):
        _make_room(book, path, at_ms)
        with drafts.folder_noted(folder, book.path.absolute().parent) as scratch:
            draft = scratch / path.name
            # A copy of the head's book takes numbers that the book itself never takes.
            laid = replace(
                own, written_at=at_ms, number=0 if own.owner is Owner.HEAD else own.number
            )
            with copy_of_court(book.path, draft, laid):
                pass
            drafts.put(draft, path)
    return path


def read_stick(book: Book, clinic_id: int, at_ms: int) -> StickRead:
    """Join every other court's book that lies on the stick and knows something newer.

    Raises CourtlogError only where this is no court's book; what fails is told.
    """
    own = own_court(book)
    troubles: list[str] = []
    try:
        with told_of(Path(own.stick), _GO_ON):
            found = sorted(_folder(own).glob(COURT_FILES))
    except CourtlogError as error:
        return StickRead(troubles=(str(error),))
    courts, reds = [], list[int]()
    for path in found:
        if path.samefile(book.path):
            continue
        other = read_court_file(path)
        if other is None:
            troubles.append(f"{path.name} on the stick cannot be read: lay it there again.")
        elif clinic_id not in other.clinics:
            troubles.append(f"{path.name} on the stick is of another clinic, and was left alone.")
        elif other.own.court != own.court and _is_news(book, other):
            try:
                reds += _join(book, path, at_ms).reds
            except CourtlogError as error:
                troubles.append(_in_short(path, error))
            else:
                courts.append(other.own.court)
                _note_readings(book, own, other)
    return StickRead(tuple(courts), tuple(reds), tuple(troubles))


def _folder(own: CourtBook) -> Path:
    folder = Path(own.stick)
    if not folder.is_dir():
        raise CourtlogError(f"The stick ({folder}) is not there.", _GO_ON)
    return folder


def _is_news(book: Book, other: CourtFile) -> bool:
    """Whether it is another copy than the one read last; clocks of two laptops do not compare."""
    return not other.untouched or other.known_until != readings(book).get(other.own.court)


class _AskedError(CourtlogError):
    """A joining had a question, which courts of one clinic never have."""


class _RemovalError(CourtlogError):
    """A joining would remove people, which only the evening's gathering asks about."""


def _join(book: Book, path: Path, at_ms: int) -> JoinResult:
    def asked(question: Question) -> bool:
        raise _AskedError(f"a {question.table} is in both")

    def removal(_removal: Removal) -> bool:
        raise _RemovalError("somebody was erased")

    return join_book(book, path, asked, at_ms, removal)


def _in_short(path: Path, error: CourtlogError) -> str:
    if isinstance(error, _AskedError):
        return f"{path.name} was set up by itself: in the evening `courtlog gather` takes it in."
    if isinstance(error, _RemovalError):
        return f"Somebody was erased in {path.name}: in the evening `courtlog gather` asks."
    return f"{path.name} could not be taken in: {error}"


def note_joined(book: Book, other: CourtFile | None) -> None:
    """Keep how old it is what another court's book told that was joined elsewhere than here."""
    own = court_book(book)
    if own is not None and other is not None and other.own.court != own.court:
        _note_readings(book, own, other)


def _note_readings(book: Book, own: CourtBook, other: CourtFile) -> None:
    """Keep how old it is what is known now of that court, and of those that it knows."""
    with book.writing() as db:
        db.executemany(
            "INSERT INTO court_reading VALUES (?, ?) ON CONFLICT (court)"
            " DO UPDATE SET written_at = max(written_at, excluded.written_at)",
            [(court, until) for court, until in other.readings.items() if court != own.court],
        )
        db.execute(
            "INSERT OR REPLACE INTO court_reading VALUES (?, ?)",
            [other.own.court, other.known_until],
        )


def _make_room(book: Book, path: Path, at_ms: int) -> None:
    """Take in what was written in the copy that lies there; put aside what cannot be read."""
    if not path.exists():
        return
    before = read_court_file(path)
    if before is None:
        path.rename(copying.free_name(path.parent, f"unreadable-{path.stem}", at_ms))
    elif not before.untouched:
        try:
            _join(book, path, at_ms)
        except (BookError, sqlite3.Error, _AskedError, _RemovalError) as error:
            raise CourtlogError(
                f"{path} holds what this book does not, and cannot be taken in.",
                "Lay the copy in another folder; in the evening `courtlog gather` takes it in.",
            ) from error
