"""The facts of one player's trend, from the tallies alone."""

from __future__ import annotations

from courtlog.coaching.people import Clinic
from courtlog.logbook.file.opening import Book
from courtlog.logbook.reads import day_lookups, lookups
from courtlog.reports.cue_facts import cue_facts
from courtlog.reports.facts import TrendFacts


def trend_facts(book: Book, clinic: Clinic, player: str) -> TrendFacts:
    """All cues of one player over the clinic. Raises UnknownNameError."""
    who = lookups.player_named(book, clinic.id, player)
    dates = lookups.dates(book, clinic.id)
    rows = day_lookups.counts_by_day(book, clinic.id, who.id)
    return TrendFacts(
        clinic=clinic.name,
        player=who.shown,
        dates=tuple(dates),
        cues=cue_facts(day_lookups.cue_names(book), day_lookups.stroke_titles(book), rows, dates),
    )
