"""Whether hitting at home waits for a clinician's word. It clears nobody to play.

One rule: hitting waits while a red stands, and while the last answer about pain raised a caution.
So pain above the amber line waits until a later answer is lower. In the pain-monitoring model (see
arm_care.PAIN_MODEL) a physiotherapist watched over training with more than 2 of 10; a sheet cannot.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from courtlog.coaching.care.arm_care import DatedCheckIn, cautions
from courtlog.coaching.game.clinic_record import Sign


@dataclass(frozen=True, slots=True)
class ToldPain:
    """Pain (0-10) and warning signs that a player told on a date; the place may be empty."""

    level: int
    place: str
    on: date
    signs: tuple[Sign, ...] = ()


def hitting_waits_for(
    check_ins: Sequence[DatedCheckIn], minor: bool, red_dates: Sequence[date]
) -> ToldPain | None:
    """What was told that hitting at home waits for; None where it waits for nothing.

    `check_ins` are one player's in order; `red_dates` those of the reds that stand.
    """
    last = _last_answers(check_ins)
    raised = {caution.place for caution in cautions(check_ins, minor)}
    told = [_told(check_ins[place]) for place in last if place in raised]
    told += [_told(s) for s in check_ins if s.date in red_dates and (s.check_in.pain or _signs(s))]
    if not told and red_dates:
        return ToldPain(0, "", max(red_dates))
    return max(told, key=lambda pain: (pain.level, len(pain.signs)), default=None)


def worst_pain(check_ins: Sequence[DatedCheckIn]) -> ToldPain | None:
    """The highest pain the player told, at its first date; None where none was told."""
    told = [_told(on_date) for on_date in check_ins if on_date.check_in.pain]
    return max(told, key=lambda pain: pain.level, default=None)


def _last_answers(check_ins: Sequence[DatedCheckIn]) -> Iterator[int]:
    """The places of the last answers about pain: all those of its date and moment."""
    answered = [place for place, s in enumerate(check_ins) if _answers(s)]
    if answered:
        last = check_ins[answered[-1]]
        for place in answered:
            asked = check_ins[place]
            if (asked.date, asked.check_in.moment) == (last.date, last.check_in.moment):
                yield place


def _answers(on_date: DatedCheckIn) -> bool:
    return on_date.check_in.pain is not None or bool(_signs(on_date))


def _signs(on_date: DatedCheckIn) -> tuple[Sign, ...]:
    return on_date.check_in.signs


def _told(on_date: DatedCheckIn) -> ToldPain:
    said = on_date.check_in
    return ToldPain(said.pain or 0, said.place, on_date.date, said.signs)
