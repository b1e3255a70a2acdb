"""Whoever has not agreed to be filmed is refused, with what to do about it."""

from __future__ import annotations

from courtlog.coaching.game.people import Clinic, Player
from courtlog.errors import CourtlogError
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads.film.filming_consent import filming_consent
from courtlog.reports.pages.film_text import why_left_out

ASK_FIRST = "Ask first, then `courtlog roster edit NAME --filming yes --filming-by WHO`."


def check_agreed(book: Book, clinic: Clinic, who: Player, consequence: str) -> None:
    """Raise CourtlogError, with what comes of it and why, for a player without a yes."""
    no_yes = filming_consent(book, clinic.id).not_agreed.get(who.id)
    if no_yes is not None:
        raise CourtlogError(f"{consequence}: {why_left_out(no_yes)}.", ASK_FIRST)
