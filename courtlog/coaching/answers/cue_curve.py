"""The skill curve of one cue over a clinic, with its band.

It claims no change: it mixes drills and coached balls, and a share of one round is itself in doubt.
"""

from __future__ import annotations

from dataclasses import dataclass

from courtlog.coaching.answers.ball_history import Doubt, History
from courtlog.measures.common.enough import Level, Question, level
from courtlog.measures.learning.curve import skill_curve


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """The chance of a made ball, ball by ball."""

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
    doubt: Doubt | None = None
    """There when the cue is not seen the same way twice."""


def curve_of(history: History, cue: str) -> Curve | None:
    """The curve over all balls on which the cue was watched; None with fewer than 20 seen."""
    grades, breaks = history.sequence(cue)
    seen = sum(grade is not None for grade in grades)
    if level(Question.SKILL_CURVE, seen) is Level.REFUSE:
        return None
    skill = skill_curve(grades, breaks)
    return Curve(
        low=tuple(map(float, skill.low)),
        median=tuple(map(float, skill.median)),
        high=tuple(map(float, skill.high)),
        mornings=tuple(breaks),
        seen=seen,
        doubt=history.doubts.get(cue),
    )
