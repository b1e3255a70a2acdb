"""Players who came from another court in mid-day, and how old it is what is known of that one."""

from __future__ import annotations

from courtlog.coaching.game.court_book import Arrival, Owner
from courtlog.coaching.game.people import Clinic, Day
from courtlog.coaching.plans.court_dealing import CourtGroup
from courtlog.coaching.plans.next_courts import NextCourts
from courtlog.coaching.voice.court_ages import age_words, unknown_words
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads.courts.court_groups import (
    court_book,
    player_courts,
    readings,
)


def origins(book: Book, clinic: Clinic, day: Day, now: int) -> dict[int, str]:
    """`court 1 as of 10:42, 35 minutes ago`, by the ids of players who came from another court."""
    if court_book(book) is None:
        return {}
    known = readings(book)
    return {
        player: age_words(at.before, known[at.before], now, clinic.place)
        if at.before in known
        else unknown_words(at.before, None, clinic.place).rstrip(".")
        for player, at in player_courts(book, clinic.id, day.date).items()
        if at.before and at.kind is Arrival.PICKED
    }


def assistants_group(book: Book, courts: NextCourts | None) -> CourtGroup | None:
    """The group of an assistant's court on a planned day; None in a book that plans for all."""
    own = court_book(book)
    if own is None or own.owner is not Owner.ASSISTANT or courts is None:
        return None
    return next((group for group in courts.groups if group.court == own.court), None)
