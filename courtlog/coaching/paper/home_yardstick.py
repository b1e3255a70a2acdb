"""A yardstick watched at home by somebody else, held against the one at the court.

The rules are those of the yardstick at the court. It is never more than a look, since the one
comparison that is chosen beforehand is that of the clinic's last day.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from courtlog.coaching.answers.ball_history import BallKind, History, PastBall
from courtlog.coaching.answers.comparison import Comparison, compare_kinds, tough_ignored
from courtlog.coaching.answers.yardstick import first_yardstick
from courtlog.coaching.game.rounds import Ball, Purpose
from courtlog.measures.common.enough import LOOK_CONFIDENCE, Question

AT_HOME = "at home"


@dataclass(frozen=True, slots=True, kw_only=True)
class HomeYardstickRecord:
    """What stands on such a sheet."""

    on: date
    watcher: str
    cues: tuple[str, ...]
    """Keys in stroke order."""
    balls: tuple[Ball, ...]

    def is_same(self, other: HomeYardstickRecord) -> bool:
        """Whether both have the same balls on the same cues."""
        return (self.cues, self.balls) == (other.cues, other.balls)

    def past_balls(self, kind: BallKind) -> tuple[PastBall, ...]:
        """Its balls as a comparison takes them; they belong to no round of the book."""
        return tuple(
            PastBall(
                self.on,
                0,
                Purpose.YARDSTICK,
                kind,
                dict(zip(self.cues, ball.grades, strict=True)),
            )
            for ball in self.balls
        )


def home_against_first(
    history: History, balls: Sequence[PastBall], dates: Sequence[date]
) -> dict[str, Comparison]:
    """Balls of one sheet against the first yardstick at the court, by cue; at most a look.

    A cue that was not in view at the court has no comparison.
    """
    against: dict[str, Comparison] = {}
    late = replace(history, balls=tuple(balls))
    for cue in dict.fromkeys(cue for ball in balls for cue in ball.grades):
        start = first_yardstick(history.with_cue(cue))
        if not start.balls or start.days[0] >= balls[0].day:
            continue
        kinds = tough_ignored(late.by_kind(cue)), tough_ignored(start.by_kind(cue))
        labels = AT_HOME, f"on day {list(dates).index(start.days[0]) + 1}"
        on = balls[0].day, start.days[0]
        against[cue] = compare_kinds(
            history, cue, kinds, labels, on, Question.YARDSTICK, LOOK_CONFIDENCE
        )
    return against
