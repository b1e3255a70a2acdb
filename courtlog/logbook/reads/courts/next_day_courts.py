"""The courts of a day that is planned: as the coach kept them, else as the last day had them."""

from __future__ import annotations

from datetime import date, timedelta

from courtlog.coaching.game.court_book import court_order
from courtlog.coaching.plans.court_dealing import CourtGroup, DealBy, deal
from courtlog.coaching.plans.next_courts import NextCourts, next_courts
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import day_lookups, lookups
from courtlog.logbook.reads.courts.court_groups import court_groups
from courtlog.logbook.reads.courts.player_levels import player_levels


def next_day_courts(
    book: Book, clinic_id: int, on: date, count: int | None = None
) -> NextCourts | None:
    """The dealing of that date to so many courts; None where the clinic is on one court.

    Without a number as many as are kept for the date, else as on the last day before it.
    """
    kept = court_groups(book, clinic_id, on)
    before = on - timedelta(days=1)
    if kept and count in (None, len(kept)):
        return NextCourts(_with_newcomers(book, clinic_id, kept, before), kept=True)
    last = _last_groups(book, clinic_id, on)
    courts = [group.court for group in last]
    if count is not None and count != len(courts):
        courts = [str(number) for number in range(1, count + 1)]
    if len(courts) < 2:
        return None
    roster = lookups.players(book, clinic_id)
    balls = {who.id: day_lookups.balls_until(book, clinic_id, who.id, before) for who in roster}
    return next_courts(roster, courts, last, player_levels(book, clinic_id, before), balls)


def _with_newcomers(
    book: Book, clinic_id: int, kept: tuple[CourtGroup, ...], before: date
) -> tuple[CourtGroup, ...]:
    """The kept groups, and whoever came on the roster since where there is room."""
    there = {group.court: group.players for group in kept}
    roster, courts = lookups.players(book, clinic_id), list(there)
    return deal(roster, courts, DealBy.LEVEL, player_levels(book, clinic_id, before), there)


def _last_groups(book: Book, clinic_id: int, on: date) -> tuple[CourtGroup, ...]:
    """Where everybody was at the end of the last day before that date.

    That is the court a player was dealt or handed to; where nobody was dealt, the last one hit on.
    """
    days = [day for day in lookups.dates(book, clinic_id) if day < on]
    if not days:
        return ()
    if dealt := court_groups(book, clinic_id, days[-1]):
        return dealt
    where = {
        played.player_id: played.court
        for played in day_lookups.rounds_on(book, clinic_id, days[-1])
    }
    roster = lookups.players(book, clinic_id)
    return tuple(
        CourtGroup(court, tuple(who for who in roster if where.get(who.id) == court))
        for court in sorted(set(where.values()), key=court_order)
    )
