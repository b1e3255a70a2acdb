"""Trends over every clinic of the book: counts by date from tallies alone, so days are what costs.

A player is the same in two clinics when the id is the same.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import groupby
from typing import Any

from courtlog.coaching.answers.drill_mix import DrillMix, other_drills
from courtlog.coaching.game.counts import Counts, total
from courtlog.coaching.game.people import Player
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import day_lookups, lookups


@dataclass(frozen=True, slots=True)
class TrendDate:
    """A date of a clinic: one place on the axis."""

    clinic_id: int
    clinic: str
    date: date


@dataclass(frozen=True, slots=True)
class TrendCounts:
    """Counts of one player on one cue of one stroke on one date of one clinic.

    `taught` tells whether any of them is of a round after the cues were chosen; `drills` has the
    seen balls of each drill.
    """

    player_id: int
    stroke: str
    cue: str
    on: TrendDate
    taught: bool
    counts: Counts
    drills: DrillMix


def trend_counts(
    book: Book, clinic_id: int, until: date | None = None, player_id: int | None = None
) -> list[TrendCounts]:
    """Counts of the clinic's roster (or one player of it) in all clinics, by date, up to a date."""
    rows = book.db.execute(
        "SELECT player_id, tally.stroke, cue, clinic.id, clinic.name, date, drill_used.name,"
        " max(purpose <> 'choosing'), sum(missed), sum(near), sum(made), sum(unseen)"
        " FROM tally JOIN day ON day.id = day_id JOIN clinic ON clinic.id = day.clinic_id"
        " JOIN drill_used ON drill_used.id = drill_id"
        " WHERE player_id IN (SELECT player_id FROM roster WHERE roster.clinic_id = :clinic"
        "   AND (:player IS NULL OR player_id = :player))"
        " AND (:until IS NULL OR date <= :until)"
        " GROUP BY player_id, tally.stroke, cue, clinic.id, date, drill_used.name"
        " HAVING sum(missed + near + made + unseen) > 0"
        " ORDER BY date, clinic.id, player_id, tally.stroke, cue, drill_used.name",
        {
            "clinic": clinic_id,
            "player": player_id,
            "until": until.isoformat() if until else None,
        },
    )
    return [_of_all_drills(list(of_day)) for _, of_day in groupby(rows, key=lambda row: row[:6])]


def _of_all_drills(rows: list[tuple[Any, ...]]) -> TrendCounts:
    """The rows of one day, a drill each, as one."""
    player, stroke, cue, clinic, name, on = rows[0][:6]
    by_drill = {row[6]: Counts(*row[8:]) for row in rows}
    return TrendCounts(
        player,
        stroke,
        cue,
        TrendDate(clinic, name, date.fromisoformat(on)),
        any(row[7] for row in rows),
        total(by_drill.values()),
        {drill: counts.seen for drill, counts in by_drill.items()},
    )


def axis(places: Iterable[TrendDate]) -> tuple[TrendDate, ...]:
    """These dates in order, clinic after clinic, the clinic that began first at the left."""
    found = set(places)
    began: dict[int, date] = {}
    for place in found:
        began[place.clinic_id] = min(place.date, began.get(place.clinic_id, place.date))
    return tuple(sorted(found, key=lambda at: (began[at.clinic_id], at.clinic_id, at.date)))


@dataclass(frozen=True, slots=True)
class CueTrend:
    """One cue over the dates on which it was watched; `taught` unless it was only to choose.

    `drills` has the seen balls of each drill by date.
    """

    key: str
    name: str
    taught: bool
    days: dict[TrendDate, Counts]
    drills: dict[TrendDate, DrillMix]

    def along(self, places: Sequence[TrendDate]) -> tuple[Counts, ...]:
        """Counts on each of these dates; zero counts where it was not watched."""
        return tuple(self.days.get(place, Counts()) for place in places)

    def other_drills(self, places: Sequence[TrendDate]) -> tuple[bool, ...]:
        """For each of these dates whether it has other drills than the first one with a ball."""
        return other_drills([self.drills.get(place, {}) for place in places])

    @property
    def latest(self) -> tuple[TrendDate, Counts] | None:
        """The last date with a ball seen, and its counts; None when it was never seen."""
        seen = [place for place in axis(self.days) if self.days[place].seen]
        return (seen[-1], self.days[seen[-1]]) if seen else None


@dataclass(frozen=True, slots=True)
class StrokeTrend:
    """One stroke of one player: its dates, and its cues in stroke order."""

    stroke: str
    dates: tuple[TrendDate, ...]
    cues: tuple[CueTrend, ...]

    def watched_lately(self, most: int) -> tuple[CueTrend, ...]:
        """The cues watched last, on most balls, this many at most; in stroke order.

        Cues that were watched only while choosing are left out once there are others.
        """

        def lateness(cue: CueTrend) -> tuple[int, int]:
            last = max(at for at, place in enumerate(self.dates) if place in cue.days)
            return -last, -_balls(cue.days[self.dates[last]])

        taught = [cue for cue in self.cues if cue.taught] or self.cues
        chosen = [cue.key for cue in sorted(taught, key=lateness)[:most]]
        return tuple(cue for cue in self.cues if cue.key in chosen)


@dataclass(frozen=True, slots=True)
class PlayerTrend:
    """One player's strokes, the main one of the latest clinic first; none without a ball."""

    player: Player
    strokes: tuple[StrokeTrend, ...]


def roster_trends(book: Book, clinic_id: int, until: date | None = None) -> list[PlayerTrend]:
    """The trends of everyone on the clinic's roster, in its order."""
    names = day_lookups.cue_names(book)
    by_player: dict[int, list[TrendCounts]] = {}
    for row in trend_counts(book, clinic_id, until):
        by_player.setdefault(row.player_id, []).append(row)
    return [
        PlayerTrend(player, _strokes(by_player.get(player.id, []), names))
        for player in lookups.players(book, clinic_id)
    ]


def _strokes(rows: list[TrendCounts], names: dict[tuple[str, str], str]) -> tuple[StrokeTrend, ...]:
    order = list(names)
    found: dict[tuple[str, str], dict[TrendDate, Counts]] = {}
    drills: dict[tuple[str, str], dict[TrendDate, DrillMix]] = {}
    for row in rows:
        found.setdefault((row.stroke, row.cue), {})[row.on] = row.counts
        drills.setdefault((row.stroke, row.cue), {})[row.on] = row.drills
    taught = {(row.stroke, row.cue) for row in rows if row.taught}
    known = sorted(found, key=lambda key: order.index(key) if key in names else len(order))
    strokes = [
        StrokeTrend(
            stroke,
            axis(row.on for row in rows if row.stroke == stroke),
            tuple(
                CueTrend(key[1], names.get(key, key[1]), key in taught, found[key], drills[key])
                for key in known
                if key[0] == stroke
            ),
        )
        for stroke in dict.fromkeys(stroke for stroke, _ in known)
    ]
    latest = axis(row.on for row in rows)[-1].clinic_id if rows else None

    def weight(stroke: StrokeTrend) -> tuple[int, int]:
        lately = [row.counts for row in rows if row.stroke == stroke.stroke]
        here = [
            row.counts for row in rows if row.stroke == stroke.stroke and row.on.clinic_id == latest
        ]
        return -_balls(total(here)), -_balls(total(lately))

    return tuple(sorted(strokes, key=weight))


def _balls(counts: Counts) -> int:
    return counts.seen + counts.unseen
