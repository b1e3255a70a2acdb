"""Which court a book is of, who belongs to which court on a date, and how old that knowledge is."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from courtlog.coaching.game.people import Player
from courtlog.coaching.plans.court_dealing import CourtGroup
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups


class Owner(StrEnum):
    """Whose book of a court it is, and so what may be written in it."""

    HEAD = "head"
    ASSISTANT = "assistant"
    FREE = "free"
    """An assistant's, in which everything may be written since the head coach is away."""


@dataclass(frozen=True, slots=True)
class CourtBook:
    """Of which court a file is the book; moments are milliseconds UTC."""

    court: str
    owner: Owner
    number: int
    """Keeps its ids apart from those of the other courts' books."""
    stick: str
    """The folder in which it lays copies for the other courts."""
    written_at: int
    """When this file was written as a copy."""


@dataclass(frozen=True, slots=True)
class PlayerCourt:
    """The court a player belongs to on a date, how and since when, and the one before."""

    court: str
    kind: str
    """`dealt`, `handed` or `picked`."""
    at_ms: int
    before: str
    """The court before this one; empty where there was none."""


def court_book(book: Book) -> CourtBook | None:
    """Of which court this file is the book; None where the clinic was never dealt to courts."""
    row = book.db.execute(
        "SELECT court, owner, number, stick, written_at FROM court_book"
    ).fetchone()
    return None if row is None else CourtBook(row[0], Owner(row[1]), *row[2:])


def player_courts(book: Book, clinic_id: int, on: date) -> dict[int, PlayerCourt]:
    """The court of every player who was dealt to one on that date, by player id."""
    rows = book.db.execute(
        "SELECT player_id, court, kind, at FROM player_court"
        " WHERE clinic_id = ? AND date = ? ORDER BY at, id",
        [clinic_id, on.isoformat()],
    )
    found: dict[int, PlayerCourt] = {}
    for player, court, kind, at in rows:
        before = _court_before(found.get(player), court)
        found[player] = PlayerCourt(court, kind, at, before)
    return found


def _court_before(last: PlayerCourt | None, court: str) -> str:
    if last is None:
        return ""
    return last.before if last.court == court else last.court


def court_groups(book: Book, clinic_id: int, on: date) -> tuple[CourtGroup, ...]:
    """The courts of that date with their players, in the order of the courts' names.

    Nothing where nobody was dealt. Players whom nobody dealt, since they came later, are in none.
    """
    courts = player_courts(book, clinic_id, on)
    roster = lookups.players(book, clinic_id)
    names = sorted(_court_names(book, clinic_id, on), key=court_order)
    return tuple(
        CourtGroup(name, tuple(p for p in roster if p.id in courts and courts[p.id].court == name))
        for name in names
    )


def group_of_book(book: Book, clinic_id: int, on: date) -> frozenset[int] | None:
    """The ids of the players of this book's court; None where it is everybody's.

    Whoever was dealt to no court, since they came later, belongs to the book they are added in.
    """
    own = court_book(book)
    if own is None:
        return None
    courts = player_courts(book, clinic_id, on)
    if not courts:
        return None
    return frozenset(
        player.id
        for player in lookups.players(book, clinic_id)
        if player.id not in courts or courts[player.id].court == own.court
    )


def readings(book: Book) -> dict[str, int]:
    """Up to which moment this file knows what another court's book held, by the court's name."""
    return dict(book.db.execute("SELECT court, written_at FROM court_reading").fetchall())


def court_order(name: str) -> tuple[int, str]:
    """Courts by number, then those with other names."""
    return (int(name), "") if name.isascii() and name.isdigit() else (1 << 30, name)


def _court_names(book: Book, clinic_id: int, on: date) -> set[str]:
    """Every court that somebody was dealt or handed to on that date: an empty one is there too."""
    rows = book.db.execute(
        "SELECT DISTINCT court FROM player_court WHERE clinic_id = ? AND date = ?",
        [clinic_id, on.isoformat()],
    )
    return {name for (name,) in rows}


def others_of_book(book: Book, clinic_id: int, on: date) -> list[tuple[Player, PlayerCourt]]:
    """The players of the other courts, by court and in the order of the roster."""
    own = court_book(book)
    courts = player_courts(book, clinic_id, on)
    if own is None:
        return []
    found = [
        (player, courts[player.id])
        for player in lookups.players(book, clinic_id)
        if player.id in courts and courts[player.id].court != own.court
    ]
    return sorted(found, key=lambda one: court_order(one[1].court))
