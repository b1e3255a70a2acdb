"""What stayed overnight: the morning's uncoached balls against the evening before's."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from courtlog.coaching.answers.ball_history import History
from courtlog.coaching.answers.comparison import Comparison, Kinds, compare_kinds, tough_ignored
from courtlog.coaching.game.rounds import Purpose
from courtlog.measures.common.enough import MINIMUMS, Level, Question, Verdict, Words

EVENING_BALLS = 20
"""The last coached balls of an evening that a hold round is shown beside."""

WARM_UP_BALLS = 5
"""The first balls of a morning are left out. Adams JA 1961, Psychol Bull 58:257-273."""

LEAST_BALLS = MINIMUMS[Question.OVERNIGHT][0].refuse


def overnight(history: History, cue: str, dates: Sequence[date]) -> Comparison | None:
    """The latest morning's hold against the evening before, on the same drills; None without.

    Against an uncoached evening round it is like for like. Against coached balls it is not, and no
    direction is told: the coach's word helps while it is spoken.
    """
    holds = history.before_practice.of(Purpose.HOLD)
    if not holds.balls:
        return None
    morning = holds.on(holds.days[-1])
    drills = {ball.kind.drill for ball in morning.balls}
    before = history.after_practice.where(
        lambda ball: ball.day < morning.days[0] and ball.kind.drill in drills
    )
    evening, coached = uncoached_evening(before), before.of(Purpose.PRACTICE)
    if evening.balls:
        morning = _warmed_up(morning)
        kinds = tough_ignored(morning.by_kind(cue)), tough_ignored(evening.by_kind(cue))
        return _night(history, morning, evening, cue, dates, kinds)
    if not coached.balls:
        return None
    evening = coached.on(coached.days[-1]).last(EVENING_BALLS)
    kinds = morning.by_kind(cue), evening.by_kind(cue)
    night = _night(history, morning, evening, cue, dates, kinds)
    if night.result is None or night.level is Level.REFUSE:
        return night
    return replace(night, verdict=Verdict(Words.NOT_LIKE))


def uncoached_evening(before: History) -> History:
    """The latest uncoached evening round of these balls, if none of them was coached later."""
    uncoached, coached = before.of(Purpose.HOLD, Purpose.TRANSFER), before.of(Purpose.PRACTICE)
    if not uncoached.balls or (coached.balls and coached.days[-1] > uncoached.days[-1]):
        return replace(before, balls=())
    return uncoached.on(uncoached.days[-1])


def has_evening(history: History, drill: str) -> bool:
    """Whether the next morning's hold on this drill will find such a round."""
    return bool(
        uncoached_evening(history.after_practice.where(lambda b: b.kind.drill == drill)).balls
    )


def _warmed_up(morning: History) -> History:
    """The morning's round without its first balls, where enough are left."""
    warm = replace(morning, balls=morning.balls[WARM_UP_BALLS:])
    return warm if len(warm.balls) >= LEAST_BALLS else morning


def _night(
    history: History,
    morning: History,
    evening: History,
    cue: str,
    dates: Sequence[date],
    kinds: tuple[Kinds, Kinds],
) -> Comparison:
    days = morning.days[0], evening.days[0]
    late, early = (dates.index(day) + 1 for day in days)
    labels = f"on the morning of day {late}", f"on the evening of day {early}"
    return compare_kinds(history, cue, kinds, labels, days, Question.OVERNIGHT)
