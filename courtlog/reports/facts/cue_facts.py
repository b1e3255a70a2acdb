"""Cues over dates as facts: the counts of the book day by day, and one player's trend."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from datetime import date

from courtlog.coaching.answers.drill_mix import other_drills
from courtlog.coaching.answers.not_seen import not_seen_words
from courtlog.coaching.game.counts import Counts
from courtlog.coaching.game.people import Clinic
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import day_lookups, lookups
from courtlog.logbook.reads.cue_round_lookups import cue_rounds
from courtlog.logbook.reads.day_lookups import DayCounts
from courtlog.reports.facts.models import CueDay, CueFacts, TrendFacts


def cue_facts(
    names: Mapping[tuple[str, str], str],
    titles: Mapping[str, str],
    rows: list[DayCounts],
    dates: list[date],
) -> tuple[CueFacts, ...]:
    """Cues in stroke order, each over all these dates; dates without a ball have zero counts."""
    by_cue: dict[tuple[str, str], dict[date, DayCounts]] = defaultdict(dict)
    for row in rows:
        if row.date in dates:
            by_cue[row.stroke, row.cue][row.date] = row
    order = list(names)
    known = sorted(by_cue, key=lambda key: order.index(key) if key in names else len(order))
    return tuple(
        CueFacts(
            stroke=stroke,
            title=titles.get(stroke, stroke),
            cue=cue,
            name=names.get((stroke, cue), cue),
            days=_cue_days(by_cue[stroke, cue], dates),
        )
        for stroke, cue in known
    )


def _cue_days(rows: Mapping[date, DayCounts], dates: Sequence[date]) -> tuple[CueDay, ...]:
    counts = [rows[on].counts if on in rows else Counts() for on in dates]
    drills = [rows[on].drills if on in rows else {} for on in dates]
    return tuple(
        CueDay(
            date=on,
            missed=day.missed,
            near=day.near,
            made=day.made,
            unseen=day.unseen,
            share=day.share,
            drills=dict(mix),
            other_drills=other,
            not_seen=not_seen_words(day),
        )
        for on, day, mix, other in zip(dates, counts, drills, other_drills(drills), strict=True)
    )


def trend_facts(book: Book, clinic: Clinic, player: str) -> TrendFacts:
    """All cues of one player over the clinic. Raises UnknownNameError."""
    who = lookups.player_on_roster(book, clinic.id, player)
    dates = lookups.dates(book, clinic.id)
    rows = day_lookups.counts_by_day(book, clinic.id, who.id)
    names, titles = day_lookups.cue_names(book), day_lookups.stroke_titles(book)
    cues = cue_facts(names, titles, rows, dates)
    strokes = dict.fromkeys(cue.stroke for cue in cues)
    rounds = {stroke: cue_rounds(book, who.id, stroke, clinic_id=clinic.id) for stroke in strokes}
    return TrendFacts(
        clinic=clinic.name,
        player=who.shown_name,
        dates=tuple(dates),
        cues=cues,
        rounds=tuple(rounds[cue.stroke].get(cue.cue, ()) for cue in cues),
    )
