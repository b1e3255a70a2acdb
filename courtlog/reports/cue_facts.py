"""Cues over dates as facts: the counts of the book, laid out day by day."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from datetime import date

from courtlog.coaching.counts import Counts
from courtlog.logbook.reads.day_lookups import DayCounts
from courtlog.reports.facts import CueDay, CueFacts


def cue_facts(
    names: Mapping[tuple[str, str], str],
    titles: Mapping[str, str],
    rows: list[DayCounts],
    dates: list[date],
) -> tuple[CueFacts, ...]:
    """Cues in stroke order, each over all these dates; dates without a ball have zero counts."""
    found: dict[tuple[str, str], dict[date, Counts]] = defaultdict(dict)
    for row in rows:
        if row.date in dates:
            found[row.stroke, row.cue][row.date] = row.counts
    order = list(names)
    known = sorted(found, key=lambda key: order.index(key) if key in names else len(order))
    return tuple(
        CueFacts(
            stroke=stroke,
            title=titles.get(stroke, stroke),
            cue=cue,
            name=names.get((stroke, cue), cue),
            days=tuple(_cue_day(on, found[stroke, cue].get(on, Counts())) for on in dates),
        )
        for stroke, cue in known
    )


def _cue_day(on: date, counts: Counts) -> CueDay:
    return CueDay(
        date=on,
        missed=counts.missed,
        near=counts.near,
        made=counts.made,
        unseen=counts.unseen,
        share=counts.share,
    )
