"""Which court a book is of, who belongs to which court on a date, and how old that knowledge is."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from courtlog import times
from courtlog.coaching.game.court_book import OFFICE, Arrival, CourtBook, court_order
from courtlog.coaching.game.people import Player
from courtlog.coaching.plans.court_dealing import CourtGroup
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.head_book import read_court_book
from courtlog.logbook.reads import lookups


@dataclass(frozen=True, slots=True)
class PlayerCourt:
    """The court a player belongs to on a date, how and since when, and the one before."""

    court: str
    kind: Arrival
    at_ms: int
    before: str
    """The court before this one; empty where there was none."""

    def is_on(self, court: str) -> bool:
        """Whether the player is on that court, and not on the way to it."""
        return self.court == court and self.kind is not Arrival.HANDED


def court_book(book: Book) -> CourtBook | None:
    """Of which court this file is the book; None where the clinic was never dealt to courts."""
    return read_court_book(book.db)


def player_courts(book: Book, clinic_id: int, on: date) -> dict[int, PlayerCourt]:
    """The court of every player who was dealt to one on that date, by player id."""
    rows = book.db.execute(
        "SELECT player_id, court, kind, at FROM player_court"
        " WHERE clinic_id = ? AND date = ? ORDER BY at, id",
        [clinic_id, on.isoformat()],
    )
    found: dict[int, PlayerCourt] = {}
    for player, court, kind, at in rows:
        last, arrival = found.get(player), Arrival(kind)
        was_picked = last is not None and last.court == court and last.kind is Arrival.PICKED
        if arrival is Arrival.HANDED and was_picked:
            continue  # picked before this court knew that the other had handed over
        found[player] = PlayerCourt(court, arrival, at, _court_before(last, court))
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
    names = _court_names(book, clinic_id, on)
    own = court_book(book)
    if names:
        # Those to which nobody was dealt.
        names |= readings(book).keys()
        names |= {own.court} if own is not None and own.court != OFFICE else set()
    return tuple(
        CourtGroup(name, tuple(p for p in roster if p.id in courts and courts[p.id].court == name))
        for name in sorted(names, key=court_order)
    )


def group_of_book(book: Book, clinic_id: int, on: date) -> frozenset[int] | None:
    """The ids of the players of this book's court; None where it is everybody's.

    Whoever was dealt to no court, since they came later, belongs to the book they are added in.
    A player who was handed to this court comes when they are picked.
    """
    own = court_book(book)
    if own is None:
        return None
    courts = player_courts(book, clinic_id, on)
    if not courts:
        return None
    if own.court == OFFICE:
        return None  # the head coach is on no court
    return frozenset(
        player.id
        for player in lookups.players(book, clinic_id)
        if player.id not in courts or courts[player.id].is_on(own.court)
    )


def dealt_on(book: Book, at_ms: int) -> tuple[int, date] | None:
    """The latest clinic whose players were dealt to courts for today, and today's date there."""
    rows = book.db.execute("SELECT DISTINCT clinic_id FROM player_court ORDER BY clinic_id DESC")
    for (clinic_id,) in rows.fetchall():
        today = times.local_date(at_ms, lookups.clinic(book, clinic_id).place)
        if _court_names(book, clinic_id, today):
            return clinic_id, today
    return None


def court_of_day(book: Book, own: CourtBook, clinic_id: int, on: date) -> str | None:
    """The court on which this book plays that date; None where that is as it was before."""
    names = _court_names(book, clinic_id, on)
    if not names or own.court == OFFICE:
        return None
    return own.court


def readings(book: Book) -> dict[str, int]:
    """Up to which moment this file knows what another court's book held, by the court's name."""
    return dict(book.db.execute("SELECT court, written_at FROM court_reading").fetchall())


def _court_names(book: Book, clinic_id: int, on: date) -> set[str]:
    """Every court that somebody was dealt or handed to on that date."""
    rows = book.db.execute(
        "SELECT DISTINCT court FROM player_court WHERE clinic_id = ? AND date = ?",
        [clinic_id, on.isoformat()],
    )
    return {name for (name,) in rows}


def others_of_book(book: Book, clinic_id: int, on: date) -> list[tuple[Player, PlayerCourt]]:
    """The players of the other courts and those on the way here, who come first.

    The others by court, all in the order of the roster.
    """
    own = court_book(book)
    courts = player_courts(book, clinic_id, on)
    if own is None:
        return []
    found = [
        (player, courts[player.id])
        for player in lookups.players(book, clinic_id)
        if player.id in courts and not courts[player.id].is_on(own.court)
    ]
    return sorted(found, key=lambda one: (one[1].court != own.court, court_order(one[1].court)))
