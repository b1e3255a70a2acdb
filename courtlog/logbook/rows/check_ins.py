"""A check-in as rows: the one place that writes and reads its columns."""

from __future__ import annotations

import sqlite3

from courtlog.coaching.game.clinic_record import CheckIn, CheckInMoment, signs_of
from courtlog.logbook.rows.ids import Ids
from courtlog.logbook.rows.row_changes import insert

COLUMNS = "player.name, moment, pain, place, effort, minutes, note, at, signs"
"""What as_check_in takes; the query joins check_in with player."""


def as_check_in(
    name: str,
    moment: str | None,
    pain: int | None,
    place: str,
    effort: int | None,
    minutes: int | None,
    note: str,
    at_ms: int | None,
    signs: str,
) -> CheckIn:
    """The check-in that these columns hold."""
    when = None if moment is None else CheckInMoment(moment)
    return CheckIn(
        player=name,
        moment=when,
        pain=pain,
        place=place,
        effort=effort,
        minutes=minutes,
        note=note,
        at_ms=at_ms,
        signs=signs_of(signs),
    )


def insert_check_in(
    db: sqlite3.Connection,
    ids: Ids,
    at_ms: int,
    day: int,
    player: int,
    round_id: int | None,
    check_in: CheckIn,
) -> int:
    """A check-in's row, inside the caller's transaction; returns its id."""
    return insert(
        db,
        ids,
        at_ms,
        "check_in",
        day_id=day,
        player_id=player,
        round_id=round_id,
        moment=None if check_in.moment is None else str(check_in.moment),
        pain=check_in.pain,
        place=check_in.place,
        effort=check_in.effort,
        minutes=check_in.minutes,
        note=check_in.note,
        at=check_in.at_ms,
        signs=", ".join(check_in.signs),
    )
