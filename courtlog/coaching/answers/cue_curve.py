"""The skill curve of one cue over a clinic: its band, and the ball from which it is learned."""

from __future__ import annotations

from dataclasses import dataclass

from courtlog.coaching.answers.ball_history import Doubt, History
from courtlog.coaching.game.counts import Counts
from courtlog.measures.common.enough import Level, Question, level
from courtlog.measures.learning.curve import skill_curve

TARGET = 0.70
"""The share made that a coach usually wants before going on (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """The chance of a made ball, ball by ball, and since when it is surely better than before."""

    low: tuple[float, ...]
    """The 5% point of each ball, from 0 to 1."""
    median: tuple[float, ...]
    """The 50% point of each ball."""
    high: tuple[float, ...]
    """The 95% point of each ball."""
    mornings: tuple[int, ...]
    """The balls (from 1) that began a day."""
    seen: int
    """Balls with a grade."""
    named: bool
    """Whether the balls are enough to say since when."""
    yardstick: float | None
    """The first yardstick's share; None where it cannot be told."""
    since_yardstick: int | None
    """The ball from which the skill is surely above the yardstick's share; None: not yet."""
    since_target: int | None
    """The ball from which the skill is surely above TARGET; None: not yet."""
    doubt: Doubt | None = None
    """There when the cue is not seen the same way twice."""


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
        low=tuple(map(float, skill.low)),
        median=tuple(map(float, skill.median)),
        high=tuple(map(float, skill.high)),
        mornings=tuple(breaks),
        seen=seen,
        named=named,
        yardstick=share,
        since_yardstick=skill.learning_ball(share)
        if named and share is not None and 0 < share < 1
        else None,
        since_target=skill.learning_ball(TARGET) if named else None,
        doubt=history.doubts.get(cue),
    )
