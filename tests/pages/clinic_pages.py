"""A clinic in a book, and the facts of its pages: each is worked out once, however many read it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import cache, partial

from courtlog.coaching.game.people import Clinic
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.reports.facts.day_facts import day_facts, player_facts
from courtlog.reports.facts.models import DayFacts, PlayerFacts


class ClinicPages:
    """The facts of a clinic; whoever has them only looks into its book."""

    def __init__(self, book: Book, here: Clinic) -> None:
        self.book, self.here = book, here
        self.dates: list[date] = list(lookups.dates(book, here.id))
        self.roster: list[str] = [who.name for who in lookups.players(book, here.id)]
        self.day: Callable[[date, str | None], DayFacts] = cache(partial(day_facts, book, here))
        """The facts of a date: of the group, or of one player."""
        self.answer: Callable[[str], PlayerFacts] = cache(partial(player_facts, book, here))
        """The facts of a player's answer."""
