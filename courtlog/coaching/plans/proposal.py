"""What the next round should be: choose, then yardstick, practice; hold in the morning; yardstick.

Holds are fed on the yardstick's drill, so that on the last day both may be counted together. It is
only a proposal: the coach overrules it with one key.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from courtlog.coaching.answers.ball_history import History
from courtlog.coaching.game.drills import Feed
from courtlog.coaching.game.rounds import Purpose

MEASURED_BALLS = 20
"""Balls of a round that is to be compared: the least for a fair before and after."""

EVENING_BALLS = 10
"""Uncoached balls at the end of a day, for the next morning's to be held against."""

OVERNIGHT, ON_THE_YARDSTICK = "what stayed overnight", "on the yardstick's drill"
"""Why a morning begins with a hold, and why on that drill."""


@dataclass(frozen=True, slots=True)
class Proposal:
    """A purpose, the drill it needs (None: whatever is on court), and why."""

    purpose: Purpose
    drill: str | None
    reason: str

    def on(self, feed: Feed) -> Proposal:
        """The proposal on this feed; without a ball nothing can be chosen or measured."""
        if feed.has_ball or self.purpose not in (Purpose.CHOOSING, Purpose.YARDSTICK):
            return self
        return Proposal(Purpose.PRACTICE, None, "no ball to measure on this rung")


def propose(history: History, today: date, last_day: bool) -> Proposal:
    """The next round of a player on a stroke, from all balls so far."""
    before = history.where(lambda ball: ball.day < today)
    now = history.on(today)
    if now.of(Purpose.PRACTICE, Purpose.TRANSFER).balls:
        return Proposal(Purpose.PRACTICE, _left_on(history), "practice goes on")
    if not history.balls:
        return Proposal(Purpose.CHOOSING, None, "first day: watch, then pick two or three cues")
    if not Feed(history.balls[-1].kind.feed).has_ball and not before.balls:
        return Proposal(Purpose.PRACTICE, None, "no ball to measure on this rung")
    if not history.of(*(set(Purpose) - {Purpose.CHOOSING})).balls:
        return Proposal(
            Purpose.YARDSTICK, None, "fresh balls on the chosen cues, before they are taught"
        )
    if before.balls:
        return _later_day(history, today, last_day)
    return Proposal(Purpose.PRACTICE, None, "the yardstick is taken")


def _later_day(history: History, today: date, last_day: bool) -> Proposal:
    before, now = history.where(lambda ball: ball.day < today), history.on(today)
    evening = before.of(Purpose.PRACTICE, Purpose.TRANSFER)
    yardstick = before.of(Purpose.YARDSTICK)
    if not now.of(Purpose.HOLD).balls and evening.balls:
        if not yardstick.balls:
            return Proposal(Purpose.HOLD, evening.balls[-1].kind.drill, OVERNIGHT)
        return Proposal(
            Purpose.HOLD, yardstick.balls[0].kind.drill, f"{OVERNIGHT}, {ON_THE_YARDSTICK}"
        )
    if last_day and yardstick.balls and not now.of(Purpose.YARDSTICK).balls:
        return Proposal(
            Purpose.YARDSTICK, yardstick.balls[0].kind.drill, "the same yardstick as on day one"
        )
    return Proposal(Purpose.PRACTICE, _left_on(history), "the rounds without help are done")


def _left_on(history: History) -> str | None:
    """The drill practice was left on, after a round on the yardstick's; None: the one on court."""
    practice, last = history.of(Purpose.PRACTICE).balls, history.balls[-1]
    if not practice or last.purpose not in (Purpose.HOLD, Purpose.YARDSTICK):
        return None
    return practice[-1].kind.drill if practice[-1].kind.drill != last.kind.drill else None


def planned_balls(purpose: Purpose, usual: int) -> int:
    """Balls planned for a round: the drill's own, but enough where it is to be compared."""
    return max(usual, MEASURED_BALLS) if purpose.measured else usual
