"""Whether the balls of two days are of the same drills, so that their shares can be compared.

The same player makes fewer balls of a harder drill. Over a week of the usual drills a share falls
by 7 to 17 points while nothing changes.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from courtlog.coaching.answers.ball_history import History

_NEED_NOT = "a lower share need not be lower skill"

DrillMix = Mapping[str, int]
"""Seen balls by drill."""

OTHER_PART = 0.1
"""The same drills are another mix where more than this part of the balls is of another drill."""


def drill_mix(history: History, cue: str) -> dict[str, int]:
    """The seen balls of a cue by drill."""
    mix: dict[str, int] = {}
    for kind, (_, seen) in history.by_kind(cue).items():
        mix[kind.drill] = mix.get(kind.drill, 0) + seen
    return mix


def of_other_drills(day: DrillMix, first: DrillMix) -> bool:
    """Whether the balls are of other drills, or of another mix of them; no ball is of none."""
    balls, of = sum(day.values()), sum(first.values())
    if not balls or not of:
        return False
    drills = {drill for mix in (day, first) for drill, seen in mix.items() if seen}
    if any(not day.get(drill) or not first.get(drill) for drill in drills):
        return True
    moved = sum(abs(day[drill] * of - first[drill] * balls) for drill in drills)
    return moved > 2 * OTHER_PART * balls * of


def other_drills(days: Sequence[DrillMix]) -> tuple[bool, ...]:
    """For each day whether it has other drills than the first day with a seen ball."""
    first = next((mix for mix in days if sum(mix.values())), {})
    return tuple(of_other_drills(mix, first) for mix in days)


def other_drills_words(mark: str, first_days: Collection[int]) -> str:
    """The one sentence below marked days; `first_days` are the numbers they are held against."""
    first = f"day {min(first_days)}" if len(set(first_days)) == 1 else "the first day"
    return f"{mark} other drills than on {first}, or than each other: {_NEED_NOT}."


def other_drills_in_short(mark: str) -> str:
    """The same on one line of a screen, below rows of days."""
    return f"{mark} other drills than on the first day: {_NEED_NOT}"
