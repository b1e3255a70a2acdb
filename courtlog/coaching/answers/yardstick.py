"""The first yardstick, and later uncoached balls on its drill against it.

The one comparison that is chosen beforehand is that of the clinic's last day; it alone may be
clear. No tough ball is planned in these rounds. So a mark of one is ignored: set afterwards, it
must not pick the balls.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from courtlog.coaching.answers.ball_history import History, PastBall
from courtlog.coaching.answers.comparison import Comparison, compare_kinds, judged, tough_ignored
from courtlog.coaching.game.rounds import Purpose
from courtlog.measures.common.enough import CONFIDENCE, LOOK_CONFIDENCE, Question

HOLD_INCLUDED = "hold included"


def first_yardstick(history: History) -> History:
    """Rounds of that purpose on the first date that has any."""
    rounds = history.of(Purpose.YARDSTICK)
    return rounds.on(rounds.days[0]) if rounds.balls else rounds


def yardstick_again(
    history: History, on: date, dates: Sequence[date], label: str
) -> dict[str, Comparison]:
    """The yardstick of that later date against the first one, by cue; empty where there is none.

    The morning's hold on the same drill counts with it. On the clinic's last day the main cue is
    judged first and the others after it; before that day nothing is clear yet.
    """
    late, label = _yardstick_of(history, on, label)
    if not late.balls:
        return {}
    against = _against_first(history, late, on, dates, label, CONFIDENCE)
    planned = history.planned_days
    last = planned is None or dates.index(on) + 1 >= planned
    return judged(against, history.main) if last else against


def whole_stroke_against_first(history: History, dates: Sequence[date]) -> dict[str, Comparison]:
    """The latest yardstick, else the latest morning's hold, against the first; at most a look."""
    start = first_yardstick(history).days
    later = [day for day in history.days if start and day > start[0]]
    for of_day in (_yardstick_of, _hold_of):
        for on in reversed(later):
            late, label = of_day(history, on, f"on day {dates.index(on) + 1}")
            if late.balls:
                return _against_first(history, late, on, dates, label, LOOK_CONFIDENCE)
    return {}


def hold_against_first(
    history: History, on: date, dates: Sequence[date], label: str
) -> dict[str, Comparison]:
    """The morning's hold of a later date against the first yardstick, by cue; at most a look."""
    return _against_first(history, _morning_hold(history, on), on, dates, label, LOOK_CONFIDENCE)


def balls_then_and_now(
    history: History, cue: str, comparison: Comparison
) -> tuple[tuple[PastBall, ...], tuple[PastBall, ...]]:
    """Ball by ball what is behind such a comparison: the first yardstick's balls, the later's.

    Balls of a kind that only one side has are left out, as they are from its counts.
    """
    on = comparison.late.on
    assert on is not None
    early = first_yardstick(history.with_cue(cue))
    late = _yardstick_of(history, on, "")[0]
    late = (late if late.balls else _morning_hold(history, on)).with_cue(cue)
    kinds = [{ball.kind._replace(tough=False) for ball in side.balls} for side in (early, late)]
    shared = kinds[0] & kinds[1]
    then, now = (
        tuple(ball for ball in side.balls if ball.kind._replace(tough=False) in shared)
        for side in (early, late)
    )
    return then, now


def _yardstick_of(history: History, on: date, label: str) -> tuple[History, str]:
    """The yardstick of that date, with the morning's hold on its drill; and its label."""
    again = history.on(on).of(Purpose.YARDSTICK)
    drills = {ball.kind.drill for ball in again.balls}
    hold = _morning_hold(history, on).where(lambda ball: ball.kind.drill in drills)
    late = replace(again, balls=again.balls + hold.balls)
    return late, f"{label}, {HOLD_INCLUDED}" if hold.balls else label


def _hold_of(history: History, on: date, label: str) -> tuple[History, str]:
    return _morning_hold(history, on), label


def _morning_hold(history: History, on: date) -> History:
    return history.on(on).before_practice.of(Purpose.HOLD)


def _against_first(
    history: History,
    late: History,
    on: date,
    dates: Sequence[date],
    label: str,
    confidence: float,
) -> dict[str, Comparison]:
    against = {}
    for cue in dict.fromkeys(cue for ball in late.balls for cue in ball.grades):
        start = first_yardstick(history.with_cue(cue))
        if start.balls and start.days[0] < on:
            kinds = tough_ignored(late.by_kind(cue)), tough_ignored(start.by_kind(cue))
            labels = label, f"on day {dates.index(start.days[0]) + 1}"
            against[cue] = compare_kinds(
                history, cue, kinds, labels, (on, start.days[0]), Question.YARDSTICK, confidence
            )
    return against
