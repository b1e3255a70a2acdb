"""The skill curve of one cue over a clinic: its band, and the ball from which it is learned."""

from __future__ import annotations

from dataclasses import dataclass

from courtlog.coaching.answers.ball_history import Doubt, History
from courtlog.coaching.game.counts import Counts
from courtlog.measures.common.enough import Level, Question, level
from courtlog.measures.learning.curve import skill_curve

TARGET = 0.70
"""The share made that a coach usually wants before going on (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Curve:
    """Chance of a made ball, ball by ball: 5, 50 and 95 % points; balls that began a day.

    `since_yardstick` and `since_target` are the balls (from 1) from which the skill is surely
    better than the yardstick's share and the target, to the end: None means not yet. `named` says
    whether there are balls enough to name one at all.
    """

    low: tuple[float, ...]
    median: tuple[float, ...]
    high: tuple[float, ...]
    mornings: tuple[int, ...]
    seen: int
    named: bool
    yardstick: float | None
    since_yardstick: int | None
    since_target: int | None
    doubt: Doubt | None = None


def curve_of(history: History, cue: str, start: Counts) -> Curve | None:
    """The curve over all balls on which the cue was watched; None with fewer than 20 seen."""
    grades, breaks = history.sequence(cue)
    seen = sum(grade is not None for grade in grades)
    bears = level(Question.LEARNING_BALL, seen)
    if bears is Level.REFUSE:
        return None
    skill = skill_curve(grades, breaks)
    named = bears is Level.NORMAL
    share = start.share if level(Question.RATE, start.seen) is not Level.REFUSE else None
    return Curve(
        tuple(map(float, skill.low)),
        tuple(map(float, skill.median)),
        tuple(map(float, skill.high)),
        tuple(breaks),
        seen,
        named,
        share,
        skill.learning_ball(share) if named and share is not None and 0 < share < 1 else None,
        skill.learning_ball(TARGET) if named else None,
        history.doubts.get(cue),
    )
