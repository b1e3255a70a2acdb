"""What happens to a player of a drawn clinic, and what is left of the planned days then."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from enum import StrEnum

from courtlog.coaching.game.clinic_record import (
    CheckIn,
    CheckInMoment,
    DayRecord,
    RoundRecord,
    Sign,
)
from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Ball


class Fate(StrEnum):
    """One player's clinic."""

    USUAL = "plays all that is planned"
    SORE = "pain 4 in the elbow on the first day, leaves after four balls"
    ABSENT = "stands on the roster and never comes"
    ONLY_MISSES = "misses every ball"
    LATE = "comes on the second day, on an only day after half of it"
    ONE_BALL = "hits one ball"
    ONLY_UNSEEN = "no cue of any ball is seen"
    LEFT = "leaves after half of the first day"
    RED = "pain 8 with numbness after the first day, does not come back"
    ALL_MADE = "makes every ball"
    ONLY_NEAR = "comes near on every ball"


SORE_BALLS = 4

_GRADES: dict[Fate, Grade | None] = {
    Fate.ONLY_MISSES: Grade.MISSED,
    Fate.ONLY_NEAR: Grade.NEAR,
    Fate.ALL_MADE: Grade.MADE,
    Fate.ONLY_UNSEEN: None,
}
"""Where every ball has the same grade."""

_SAID = {
    Fate.SORE: CheckIn(
        player="", moment=CheckInMoment.END, pain=4, place="elbow", note="it hurts on every hit"
    ),
    Fate.RED: CheckIn(
        player="", moment=CheckInMoment.END, pain=8, place="shoulder", signs=(Sign.NUMBNESS,)
    ),
}
"""What they say at the end of the first day."""


def as_it_went(days: Sequence[DayRecord], fates: dict[str, Fate]) -> tuple[DayRecord, ...]:
    """The days as they went for everybody; `fates` go by name."""
    return tuple(_day(day, number, len(days), fates) for number, day in enumerate(days, 1))


def _day(day: DayRecord, number: int, of: int, fates: dict[str, Fate]) -> DayRecord:
    rounds: list[RoundRecord] = []
    for name, fate in fates.items():
        theirs = [round_ for round_ in day.rounds if round_.player == name]
        rounds += _rounds(theirs, fate, number, of)
    rounds.sort(key=lambda round_: round_.started or 0)
    there = {round_.player for round_ in rounds}
    said = [check_in for check_in in day.check_ins if check_in.player in there]
    said += [
        replace(_SAID[fate], player=name)
        for name, fate in fates.items()
        if number == 1 and fate in _SAID
    ]
    return replace(day, rounds=tuple(rounds), check_ins=tuple(said))


def _rounds(theirs: list[RoundRecord], fate: Fate, number: int, of: int) -> list[RoundRecord]:
    """What is left of a player's rounds of a day."""
    half, first = len(theirs) // 2 or 1, number == 1
    left: dict[Fate, Callable[[], list[RoundRecord]]] = {
        Fate.ABSENT: list,
        Fate.ONE_BALL: lambda: _cut(theirs, 1) if first else [],
        Fate.SORE: lambda: _cut(theirs, SORE_BALLS) if first else [],
        Fate.LEFT: lambda: theirs[:half] if first else [],
        Fate.RED: lambda: theirs if first else [],
        Fate.LATE: lambda: theirs[half:] if of == 1 else [] if first else theirs,
    }
    if fate in _GRADES:
        return [_all_alike(round_, _GRADES[fate]) for round_ in theirs]
    return left[fate]() if fate in left else theirs


def _cut(theirs: list[RoundRecord], balls: int) -> list[RoundRecord]:
    return [replace(round_, balls=round_.balls[:balls]) for round_ in theirs[:1]]


def _all_alike(round_: RoundRecord, grade: Grade | None) -> RoundRecord:
    def balls() -> Iterator[Ball]:
        for record in round_.balls:
            yield replace(record.ball, grades=(grade,) * len(round_.cues))

    alike = zip(round_.balls, balls(), strict=True)
    return replace(round_, balls=tuple(replace(record, ball=ball) for record, ball in alike))
