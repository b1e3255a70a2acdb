"""All cues of a stroke on the same ball: how often the whole stroke was there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from courtlog.coaching.answers.ball_history import History, PastBall
from courtlog.coaching.answers.comparison import Comparison
from courtlog.coaching.answers.yardstick import whole_stroke_against_first
from courtlog.coaching.game.grades import Grade

ALL_CUES = "all cues"
"""What the cues together are filed under; no cue's key has a blank."""


def all_cues(history: History, cues: Sequence[str], dates: Sequence[date]) -> Comparison | None:
    """The latest uncoached balls with every cue made, against the first yardstick; else None.

    Only balls on which each of these cues was seen count. It is never a real gain or drop.
    """
    if len(cues) < 2:
        return None
    doubts = [history.doubts[cue] for cue in cues if cue in history.doubts]
    whole = replace(
        history,
        balls=tuple(_as_one_cue(ball, cues) for ball in history.balls),
        doubts={ALL_CUES: doubts[0]} if doubts else {},
        main=None,
    ).with_ties()
    return whole_stroke_against_first(whole, dates).get(ALL_CUES)


def _as_one_cue(ball: PastBall, cues: Sequence[str]) -> PastBall:
    """The ball with one grade for all cues, the least of theirs; none unless all were seen."""
    grades = [grade for cue in cues if (grade := ball.grades.get(cue)) is not None]
    least: dict[str, Grade | None] = {ALL_CUES: min(grades)} if len(grades) == len(cues) else {}
    return replace(ball, grades=least)
