"""The first yardstick, and later uncoached balls on its drill against it.

The one comparison that is chosen beforehand is that of the clinic's last day; it alone may be
clear. No tough ball is planned in these rounds. So a mark of one is ignored: set afterwards, it
must not pick the balls.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from courtlog.coaching.answers.ball_history import History
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
    again = history.on(on).of(Purpose.YARDSTICK)
    if not again.balls:
        return {}
    drills = {ball.kind.drill for ball in again.balls}
    hold = _morning_hold(history, on).where(lambda ball: ball.kind.drill in drills)
    late = replace(again, balls=again.balls + hold.balls)
    if hold.balls:
        label = f"{label}, {HOLD_INCLUDED}"
    against = _against_first(history, late, on, dates, label, CONFIDENCE)
    planned = history.planned_days
    last = planned is None or dates.index(on) + 1 >= planned
    return judged(against, history.main) if last else against


def hold_against_first(
    history: History, on: date, dates: Sequence[date], label: str
) -> dict[str, Comparison]:
    """The morning's hold of a later date against the first yardstick, by cue; at most a look."""
    return _against_first(history, _morning_hold(history, on), on, dates, label, LOOK_CONFIDENCE)


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
                history, cue, kinds, labels, Question.YARDSTICK, confidence
            )
    return against
