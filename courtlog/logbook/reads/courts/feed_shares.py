"""What all courts of a clinic together show: who got how many balls, and which court is missing."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from courtlog.coaching.plans.courts_fairness import CourtsFairness, FedRound, courts_fairness
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import day_lookups, lookups
from courtlog.logbook.reads.courts.court_groups import court_groups


def fairness_on(book: Book, clinic_id: int, on: date) -> CourtsFairness:
    """The balls and minutes of everybody on the roster over all courts, up to that date."""
    roster = [(who.id, who.list_name) for who in lookups.players(book, clinic_id)]
    before = [
        fed
        for day in lookups.dates(book, clinic_id, on)
        if day < on
        for fed in _fed_on(book, clinic_id, day)
    ]
    return courts_fairness(roster, _fed_on(book, clinic_id, on), before)


def _fed_on(book: Book, clinic_id: int, on: date) -> list[FedRound]:
    return [
        FedRound(played.player_id, played.court, played.balls, played.minutes)
        for played in day_lookups.rounds_on(book, clinic_id, on)
    ]


@dataclass(frozen=True, slots=True)
class MissingCourt:
    """A court that players were dealt to and of which nothing is in the book, and those players."""

    court: str
    players: tuple[str, ...]


def missing_courts(book: Book, clinic_id: int, on: date) -> tuple[MissingCourt, ...]:
    """The courts of that date of which this book has neither a ball nor a check-in.

    A player who hit elsewhere on that date is missing nowhere.
    """
    came = book.db.execute(
        "SELECT court FROM day WHERE clinic_id = ? AND date = ?"
        " AND (EXISTS (SELECT 1 FROM check_in WHERE day_id = day.id)"
        " OR EXISTS (SELECT 1 FROM round JOIN ball ON round_id = round.id AND taken"
        " WHERE day_id = day.id))",
        [clinic_id, on.isoformat()],
    ).fetchall()
    missing = [
        group
        for group in court_groups(book, clinic_id, on)
        if group.players and (group.court,) not in came
    ]
    there = {fed.player_id for fed in _fed_on(book, clinic_id, on)} if missing else set()
    return tuple(
        MissingCourt(
            group.court, tuple(who.shown_name for who in group.players if who.id not in there)
        )
        for group in missing
    )
