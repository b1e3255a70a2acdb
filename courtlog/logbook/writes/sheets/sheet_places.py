"""Give the rounds of a sheet their places in a day, and ids that keep these places.

Where books are joined, the rounds of a day are put in the order of their ids. So the id of a round
that comes late, and stands before others, lies between those of its neighbours.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass

from courtlog.coaching.game.round_places import BookRound, SheetRound, Slot, places
from courtlog.logbook.rows.ids import COUNT_BITS, Ids

_BEFORE_THE_FIRST = 1 << 16
"""How far (about ms) before the first round of a day one is put that was earlier."""

_TRIES = 64

DayRounds = list[tuple[int, BookRound]]
"""Every round of a day in its order, with its id."""


def day_rounds(db: sqlite3.Connection, day: int) -> DayRounds:
    """The rounds of the day, those without a ball too."""
    rows = db.execute(
        "SELECT id, started_at,"
        " EXISTS (SELECT 1 FROM ball WHERE round_id = round.id AND number > 0)"
        " OR EXISTS (SELECT 1 FROM note WHERE round_id = round.id)"
        " OR EXISTS (SELECT 1 FROM check_in WHERE round_id = round.id)"
        " FROM round WHERE day_id = ? ORDER BY place",
        [day],
    )
    return [(row, BookRound(started, bool(held))) for row, started, held in rows]


def make_room(
    db: sqlite3.Connection,
    ids: Ids,
    held: DayRounds,
    sheet: Sequence[SheetRound],
    at_ms: int,
) -> dict[int, tuple[int, int]]:
    """Move the day's rounds apart; the id and place of each new round by its index on the sheet."""
    order = places([round_ for _, round_ in held], sheet)
    rows: list[int] = []
    new: dict[int, tuple[int, int]] = {}
    for place, slot in enumerate(order, 1):
        if slot.from_sheet:
            later = order[place - 1 :]
            gap = _Gap(rows[-1] if rows else None, *_next_of_book(later, held))
            rows.append(_free_id(db, ids, gap, sheet[slot.index].started, set(rows), at_ms))
            new[slot.index] = (rows[-1], place)
        else:
            rows.append(held[slot.index][0])
    came = {row for row, _ in new.values()}
    moved = [(place, row) for place, row in enumerate(rows, 1) if row not in came]
    # Below 0 first, since no two rounds of a day may share a place even for a moment.
    for sign in (-1, 1):
        db.executemany(
            "UPDATE round SET place = ? WHERE id = ? AND place <> ?",
            [(sign * place, row, place) for place, row in moved],
        )
    return new


@dataclass(frozen=True, slots=True)
class _Gap:
    """Where a new round goes: after one round, and with some others before another one."""

    low: int | None
    high: int | None
    sharing: int
    """How many new rounds are still to come between the two, with this one."""

    def begin(self, started: int | None) -> tuple[int, int | None]:
        """The count to begin with, by the time where there is one; and the first one too high."""
        after = 0 if self.low is None else _count(self.low) + 1
        last = None if self.high is None else _count(self.high)
        if started is not None:
            own = max(after, Ids.count_at(started))
            if last is None or own < last:
                return own, last
        if last is None:
            return after, None
        after = max(after, last - _BEFORE_THE_FIRST) if self.low is None else after
        return after + max(0, last - after) // (self.sharing + 1), last


def _next_of_book(later: Sequence[Slot], held: DayRounds) -> tuple[int | None, int]:
    for sharing, slot in enumerate(later):
        if not slot.from_sheet:
            return held[slot.index][0], sharing
    return None, len(later)


def _free_id(
    db: sqlite3.Connection,
    ids: Ids,
    gap: _Gap,
    started: int | None,
    used: set[int],
    at_ms: int,
) -> int:
    """An id whose count lies in the gap; a usual one where there is none, or nothing to say so."""
    begin, last = gap.begin(started)
    usual = ids.next(at_ms)
    if started is None and last is None and begin <= _count(usual):
        return usual
    end = begin + _TRIES if last is None else min(last, begin + _TRIES)
    for count in range(begin, end):
        row = ids.earlier(count)
        if row is not None and row not in used and not _is_known(db, row):
            return row
    return usual


def _is_known(db: sqlite3.Connection, row: int) -> bool:
    """Whether the book has or had a round of that id."""
    known = db.execute(
        "SELECT 1 FROM round WHERE id = ?1"
        " UNION ALL SELECT 1 FROM former WHERE tbl = 'round' AND key = ?2",
        [row, json.dumps([row])],
    ).fetchone()
    return known is not None


def _count(row: int) -> int:
    return row & ((1 << COUNT_BITS) - 1)
