"""What stayed overnight, and what was learned: uncoached rounds against earlier ones.

A round is given as made and seen balls by kind of ball, {kind: (made, seen)}, so that the two days
are compared on the kinds they share. Learning is what an uncoached round of a later day shows; what
a coached, warmed-up round shows is performance. Source of the distinction: Soderstrom NC and Bjork
RA 2015, Perspect Psychol Sci 10:176-199.
"""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from dataclasses import dataclass
from typing import TypeVar

from courtlog.measures.common.arguments import made_of_seen, whole, within
from courtlog.measures.common.enough import MINIMUMS, Level, Question, Verdict, level, verdict
from courtlog.measures.shares.strata import LikeForLike, Stratum, like_for_like

Kind = TypeVar("Kind", bound=Hashable)

TIRED_EFFORT = 7
"""From this effort (0-10) on, an evening round may look worse than the player is."""

WARM_UP_BALLS = 5
"""The first balls of a morning are also counted apart. Adams JA 1961, Psychol Bull 58:257-273."""


@dataclass(frozen=True, slots=True)
class Change:
    """Later minus earlier on the shared kinds of ball, and the words the balls can bear."""

    difference: LikeForLike | None
    level: Level
    verdict: Verdict


@dataclass(frozen=True, slots=True)
class Savings:
    """Share of balls saved on the way to the same mark; `at_least` when it was never reached."""

    value: float
    at_least: bool


def overnight(
    evening: Mapping[Kind, tuple[int, int]], morning: Mapping[Kind, tuple[int, int]]
) -> Change:
    """The uncoached first round of a morning minus the last round of the evening before."""
    return _change(morning, evening)


def learning_gain(
    baseline: Mapping[Kind, tuple[int, int]], hold: Mapping[Kind, tuple[int, int]]
) -> Change:
    """The last day's uncoached morning round minus the first day's yardstick: the headline."""
    return _change(hold, baseline)


def performance_gain(
    baseline: Mapping[Kind, tuple[int, int]], final: Mapping[Kind, tuple[int, int]]
) -> Change:
    """The last day's final round minus the yardstick; say "with coaching, warmed up" beside it."""
    return _change(final, baseline)


def tired_evening(effort: float) -> bool:
    """Whether the evening was so hard (0-10) that the morning may look better than it is."""
    return within(effort, "effort", 0, 10) >= TIRED_EFFORT


def share_kept(
    baseline: Mapping[Kind, tuple[int, int]],
    evening: Mapping[Kind, tuple[int, int]],
    morning: Mapping[Kind, tuple[int, int]],
) -> float | None:
    """(morning - baseline) / (evening - baseline) on the kinds of ball all three share.

    None unless the evening's gain has an interval clear of zero. May lie below 0 or above 1, has no
    interval: show it to one figure and never compare players by it.
    """
    kinds = [
        kind
        for kind in evening
        if all(
            made_of_seen(*record.get(kind, (0, 0)))[1] for record in (baseline, evening, morning)
        )
    ]
    gained = like_for_like(_paired({k: evening[k] for k in kinds}, baseline))
    if gained is None or gained.low <= 0 <= gained.high:
        return None
    mix = {kind: evening[kind][1] / sum(evening[k][1] for k in kinds) for kind in kinds}
    start, end, later = (
        sum(part * record[kind][0] / record[kind][1] for kind, part in mix.items())
        for record in (baseline, evening, morning)
    )
    return (later - start) / (end - start) if end != start else None


def savings(
    first: int, again: int, first_reached: bool = True, again_reached: bool = True
) -> Savings | None:
    """Balls saved in reaching the same mark again, (first - again) / first.

    When the mark was not reached the first time, `first` are the balls fed and the answer is "at
    least"; None when it was not reached again. Source: Ebbinghaus H 1885.
    """
    first, again = whole(first, "first", 1), whole(again, "again", 1)
    return Savings((first - again) / first, not first_reached) if again_reached else None


def _paired(
    late: Mapping[Kind, tuple[int, int]], early: Mapping[Kind, tuple[int, int]]
) -> list[Stratum]:
    return [
        Stratum(*late.get(kind, (0, 0)), *early.get(kind, (0, 0)))
        for kind in dict.fromkeys([*late, *early])
    ]


def _change(late: Mapping[Kind, tuple[int, int]], early: Mapping[Kind, tuple[int, int]]) -> Change:
    difference = like_for_like(_paired(late, early))
    bears = Level.REFUSE
    if difference is not None:
        bears = level(Question.OVERNIGHT, difference.balls_late, difference.balls_early)
        if difference.share_used < MINIMUMS[Question.LIKE_FOR_LIKE][2].refuse:
            bears = Level.REFUSE
    return Change(difference, bears, verdict(difference, bears))
