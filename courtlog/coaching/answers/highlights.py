"""The good thing and the one thing to work on: one rule for the court, the day and the plan.

Both are asked of a stroke's balls of one day, all rounds together.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from courtlog.coaching.answers.ball_history import History
from courtlog.coaching.game.counts import Counts
from courtlog.measures.common.enough import Level, Question, level


@dataclass(frozen=True, slots=True)
class CueCount:
    """A cue with its counts."""

    cue: str
    counts: Counts


@dataclass(frozen=True, slots=True)
class Highlights:
    """What is good already, and the one thing; either may be missing."""

    good: CueCount | None
    """The cue made most often; where none was made, the one that came near most often."""
    one_thing: CueCount | None
    """The cue made least often; None where every ball seen was made."""


def highlights(counts: Mapping[str, Counts], order: Sequence[str]) -> Highlights:
    """The two, of the cues in this order; a cue seen on enough balls goes before one that is not.

    The one thing is another cue than the good thing, unless there is only one cue.
    """
    good = _good(counts, order)
    short = [cue for cue in order if counts[cue].made < counts[cue].seen]
    others = [cue for cue in short if good is None or cue != good.cue]
    if len(order) > 1:
        short = others
    least = min(_enough(counts, short), key=lambda cue: counts[cue].share or 0.0, default=None)
    return Highlights(good, CueCount(least, counts[least]) if least is not None else None)


def of_balls(history: History, cues: Sequence[str]) -> Highlights:
    """The two over all these balls."""
    return highlights({cue: history.counts(cue) for cue in cues}, cues)


def of_last_day(history: History, cues: Sequence[str]) -> Highlights:
    """The two of the last day on which a cue was seen."""
    return of_balls(last_day_of(history, cues), cues)


def last_day_of(history: History, cues: Sequence[str]) -> History:
    """The balls of the last day on which one of the cues was seen."""
    seen = [ball.day for ball in history.balls if any(cue in ball.grades for cue in cues)]
    return history.on(seen[-1]) if seen else history


def _good(counts: Mapping[str, Counts], order: Sequence[str]) -> CueCount | None:
    made = [cue for cue in order if counts[cue].made]
    near = [cue for cue in order if counts[cue].near]
    if made:
        best = max(_enough(counts, made), key=lambda cue: counts[cue].share or 0.0)
    elif near:
        best = max(_enough(counts, near), key=lambda cue: counts[cue].near / counts[cue].seen)
    else:
        return None
    return CueCount(best, counts[best])


def _enough(counts: Mapping[str, Counts], cues: Sequence[str]) -> Sequence[str]:
    """The cues on enough balls for a share where there are any, else all of these."""
    enough = [c for c in cues if level(Question.RATE, counts[c].seen) is not Level.REFUSE]
    return enough or cues
