"""The person of the whole book whom a name means: by the names that each clinic's screens show."""

from __future__ import annotations

from dataclasses import dataclass

from courtlog.coaching.game.people import Player
from courtlog.errors import UnknownNameError
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups


@dataclass(frozen=True, slots=True)
class NamedPlayer:
    """A player with the label of one clinic's roster; no clinic for who is on none."""

    player: Player
    clinic: str

    def words(self) -> str:
        """`Maren 2 of Harbour Week`."""
        return (
            f"{self.player.shown_name} of {self.clinic}" if self.clinic else self.player.shown_name
        )


def players_named(book: Book, name: str, clinic_id: int | None = None) -> list[NamedPlayer]:
    """Everyone in the book, or in one clinic of it, who may be meant; each person once.

    Matches as `lookups.players_fitting` does: a label counts in the clinic that shows it.
    """
    by_clinic = [
        NamedPlayer(player, clinic.name)
        for clinic in lookups.clinics(book)
        if clinic_id in (None, clinic.id)
        for player in lookups.players(book, clinic.id)
    ]
    on_a_roster = {named.player.id for named in by_clinic}
    others = [NamedPlayer(player, "") for player in _players_seen(book, clinic_id)]
    every = [*by_clinic, *(named for named in others if named.player.id not in on_a_roster)]
    fits = lookups.players_fitting([named.player for named in every], name)
    return list({named.player.id: named for named in every if named.player in fits}.values())


def player_named(book: Book, name: str, clinic_id: int | None = None) -> Player:
    """The one person who is meant. Raises UnknownNameError, which says how to tell two apart."""
    fits = players_named(book, name, clinic_id)
    if len(fits) == 1:
        return fits[0].player
    if fits:
        names = ", ".join(named.words() for named in fits)
        raise UnknownNameError(
            f"More than one player fits {name!r}: {names}.",
            "Write the name as it stands here; --clinic names the clinic.",
        )
    raise UnknownNameError(
        f"There is no player called {name!r} in the book.",
        "`courtlog roster list` names them.",
    )


def _players_seen(book: Book, clinic_id: int | None) -> list[Player]:
    """Everyone in the book; of a clinic everyone who was fed or asked there."""
    seen_in = " UNION ".join(
        f"SELECT player_id FROM {table} JOIN day ON day.id = day_id WHERE clinic_id = :clinic"
        for table in ("round", "check_in")
    )
    rows = book.db.execute(
        "SELECT id, name, hand, short_name FROM player"
        f" WHERE :clinic IS NULL OR id IN ({seen_in}) ORDER BY id",
        {"clinic": clinic_id},
    )
    return [Player(*row) for row in rows]
