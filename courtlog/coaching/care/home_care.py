"""Whether hitting at home waits for a clinician's word. It clears nobody to play.

One rule: hitting waits while a red stands, and while an amber stands (arm_care.standing_amber) and
no clinician has spoken since. So pain above the amber line waits until a later answer is lower. In
the pain-monitoring model (arm_care.PAIN_MODEL) a physiotherapist watched over training with more
than 2 of 10; a sheet cannot.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from courtlog.coaching.care.arm_care import DatedCheckIn
from courtlog.coaching.game.clinic_record import Sign


@dataclass(frozen=True, slots=True)
class ToldPain:
    """Pain (0-10) and warning signs that a player told on a date; the place may be empty."""

    level: int
    place: str
    on: date
    signs: tuple[Sign, ...] = ()


def hitting_waits_for(
    check_ins: Sequence[DatedCheckIn], red_dates: Sequence[date], amber: DatedCheckIn | None
) -> ToldPain | None:
    """What was told that hitting at home waits for; None where it waits for nothing.

    `check_ins` are one player's, `red_dates` those of the reds that stand, and `amber` the check-in
    of the amber that stands.
    """
    told = [_told(s) for s in check_ins if s.date in red_dates and _tells_of_arm(s)]
    told += [_told(amber)] if amber is not None else []
    if not told and red_dates:
        return ToldPain(0, "", max(red_dates))
    return max(told, key=lambda pain: (pain.level, len(pain.signs)), default=None)


def worst_pain(check_ins: Sequence[DatedCheckIn]) -> ToldPain | None:
    """The highest pain the player told, at its first date; None where none was told."""
    told = [_told(on_date) for on_date in check_ins if on_date.check_in.pain]
    return max(told, key=lambda pain: pain.level, default=None)


def _tells_of_arm(on_date: DatedCheckIn) -> bool:
    return bool(on_date.check_in.pain or on_date.check_in.signs)


def _told(on_date: DatedCheckIn) -> ToldPain:
    said = on_date.check_in
    return ToldPain(said.pain or 0, said.place, on_date.date, said.signs)
