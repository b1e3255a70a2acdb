"""A player who changes courts: handed over on one, picked on the other; each is stored at once."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from courtlog.coaching.game.court_book import Arrival
from courtlog.errors import CourtlogError
from courtlog.logbook.exchange.courts.stick import StickRead, own_court, read_stick
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads.courts.court_groups import PlayerCourt, player_courts
from courtlog.logbook.writes.courts.deal_writer import move_player


@dataclass(frozen=True, slots=True)
class PickedPlayer:
    """What is known of a player who was picked."""

    came_from: str
    """The court the player was on."""
    handed: bool
    """Whether what was read says that the other court handed the player over."""
    read: StickRead


def hand_over(book: Book, clinic_id: int, on: date, player_id: int, court: str, at_ms: int) -> None:
    """Give the player to another court. Raises CourtlogError for one that is not there."""
    own = own_court(book)
    if court == own.court:
        raise CourtlogError(f"This is court {court}.", "Name another one.")
    move_player(book, clinic_id, on, player_id, court, Arrival.HANDED, at_ms)


def pick(book: Book, clinic_id: int, on: date, player_id: int, at_ms: int) -> PickedPlayer:
    """Take a player of another court, after reading the stick if there is one.

    Raises CourtlogError for a player who is here already.
    """
    own = own_court(book)
    before = player_courts(book, clinic_id, on).get(player_id)
    if before is not None and before.is_on(own.court):
        raise CourtlogError("This player is on this court already.")
    read = read_stick(book, clinic_id, at_ms)
    now = player_courts(book, clinic_id, on).get(player_id)
    move_player(book, clinic_id, on, player_id, own.court, Arrival.PICKED, at_ms)
    return PickedPlayer(_came_from(now, own.court), _is_handed(now, own.court), read)


def _came_from(now: PlayerCourt | None, here: str) -> str:
    if now is None:
        return ""
    return now.before if now.court == here else now.court


def _is_handed(now: PlayerCourt | None, here: str) -> bool:
    return now is not None and now.kind is Arrival.HANDED and now.court == here
