"""Who may be shown in what is made of films, and why others are left out.

The one look-up for all commands about films: the latest word on a player's card decides.
"""

from __future__ import annotations

from dataclasses import dataclass

from courtlog.coaching.game.cards import ADULT
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import people_lookups

_ONCE_AGREED = "SELECT DISTINCT player_id FROM filming_consent WHERE answer = 'yes'"


@dataclass(frozen=True, kw_only=True)
class NotAgreed:
    """A player who may not be shown, since there is no yes, or none that counts."""

    player: str
    """The name as the clinic shows it."""
    filming: str
    """What was said: `asked`, `no`, `yes` where it does not say who said it, or nothing."""
    filming_on: str
    """The date of that word, as 2026-05-12; empty where nothing was said."""
    minor: bool
    """Whether the player is known to be a minor."""
    adult: bool
    """Whether the player is known to be an adult; whoever is neither counts as a minor."""
    agreed_before: bool
    """Whether there was a yes that no longer counts: something may have been made of films."""


@dataclass(frozen=True, slots=True)
class FilmingConsent:
    """Who of a clinic's roster agreed to be filmed, in its order."""

    agreed: frozenset[int]
    """The ids of the players who may be shown."""
    not_agreed: dict[int, NotAgreed]
    """The others by their ids."""


def filming_consent(book: Book, clinic_id: int) -> FilmingConsent:
    """What the clinic's players, or their guardians, last said on filming."""
    once = {player for (player,) in book.db.execute(_ONCE_AGREED)}
    lines = people_lookups.entries(book, clinic_id)
    return FilmingConsent(
        frozenset(line.player.id for line in lines if line.card.may_be_filmed),
        {
            line.player.id: NotAgreed(
                player=line.player.shown_name,
                filming=line.card.filming,
                filming_on=line.card.filming_on,
                minor=line.card.minor,
                adult=line.card.age == ADULT,
                agreed_before=line.card.filming != "yes" and line.player.id in once,
            )
            for line in lines
            if not line.card.may_be_filmed
        },
    )
