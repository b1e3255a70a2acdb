"""A yardstick watched at home by somebody else, held against the court's and against earlier ones.

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
from courtlog.names import folded_name

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
    against = {}
    for cue in dict.fromkeys(cue for ball in balls for cue in ball.grades):
        start = first_yardstick(history.with_cue(cue))
        if start.balls and start.days[0] < balls[0].day:
            label = f"on day {list(dates).index(start.days[0]) + 1}"
            against[cue] = _held_against(history, cue, balls, start.balls, label)
    return against


def home_against_earlier(
    history: History, late: Sequence[PastBall], early: Sequence[PastBall]
) -> dict[str, Comparison]:
    """Balls of a later sheet against those of an earlier one, by cue; at most a look.

    What two ratings at the court leave in doubt is no doubt of who watched at home.
    """
    history = replace(history, doubts={})
    label = f"{AT_HOME} on {early[0].day.isoformat()}"
    both = [cue for cue in late[0].grades if cue in early[0].grades]
    return {cue: _held_against(history, cue, late, early, label) for cue in both}


def earlier_to_compare(
    records: Sequence[HomeYardstickRecord], late: HomeYardstickRecord
) -> HomeYardstickRecord | None:
    """The first of these sheets of the same drill that the same person watched before; else None.

    Two people do not see every ball alike, so sheets of two watchers are not compared.
    """
    return next(
        (
            early
            for early in records
            if early.on < late.on
            and early.balls
            and folded_name(early.watcher) == folded_name(late.watcher)
            and set(early.cues) & set(late.cues)
        ),
        None,
    )


def _held_against(
    history: History, cue: str, late: Sequence[PastBall], early: Sequence[PastBall], label: str
) -> Comparison:
    sides = (replace(history, balls=tuple(balls)).by_kind(cue) for balls in (late, early))
    kinds = [tough_ignored(side) for side in sides]
    on = late[0].day, early[0].day
    return compare_kinds(
        history,
        cue,
        (kinds[0], kinds[1]),
        (AT_HOME, label),
        on,
        Question.YARDSTICK,
        LOOK_CONFIDENCE,
    )
