"""The balls of both yardsticks as somebody rates them who does not know their day.

Who knows the day tends to see what was hoped for. Source: Hrobjartsson A et al. 2012, BMJ
344:e1119: assessors who were not blind exaggerated odds ratios by 36 % on average (from memory).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from random import Random

from courtlog.coaching.answers.ball_history import History, PastBall
from courtlog.coaching.answers.player_answer import CueAnswer, cue_answer
from courtlog.coaching.answers.yardstick import balls_then_and_now
from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Purpose

_JUDGED = (Purpose.YARDSTICK, Purpose.HOLD)


@dataclass(frozen=True, slots=True)
class YardstickSides:
    """The balls on which a stroke's verdicts rest, on cues that were watched on all of them."""

    cues: tuple[str, ...]
    """The cues, in stroke order."""
    then: tuple[PastBall, ...]
    """The balls of the first yardstick."""
    now: tuple[PastBall, ...]
    """The balls of the latest one."""
    left_out: tuple[str, ...]
    """Cues with a verdict from balls of other days."""

    @property
    def days(self) -> tuple[date, date]:
        """The dates of the two."""
        return self.then[0].day, self.now[0].day


def yardstick_sides(
    history: History, dates: Sequence[date], cues: Sequence[str]
) -> YardstickSides | None:
    """The balls behind the verdicts on as many cues as rest on the same two days; None without.

    A ball on which one of these cues was not watched is left out, since its cues would give its
    day away.
    """
    groups: dict[tuple[object, ...], list[CueAnswer]] = {}
    for cue in cues:
        answer = cue_answer(history, dates, cue, with_curve=False)
        headline = answer.headline
        if headline is not None:
            rests_on = headline.early.on, headline.late.on, headline is answer.learning
            groups.setdefault(rests_on, []).append(answer)
    if not groups:
        return None
    chosen = max(groups.values(), key=len)
    keys = tuple(answer.cue for answer in chosen)
    then, now = _sides_of(history, chosen[0], keys)
    if not (then and now):
        return None
    judged = {answer.cue for group in groups.values() for answer in group}
    others = tuple(cue for cue in cues if cue in judged and cue not in keys)
    return YardstickSides(keys, then, now, others)


def shuffled(then: Sequence[PastBall], now: Sequence[PastBall], seed: int) -> tuple[int, ...]:
    """The ids of as many balls of each day, kind by kind, in an order that the seed fixes.

    Of a day with more balls of a kind the seed also says which are left out.
    """
    random = Random(seed)
    drawn: list[int] = []
    for kind in sorted({ball.kind._replace(tough=False) for ball in then}):
        sides = [
            sorted(ball.ball_id for ball in side if ball.kind._replace(tough=False) == kind)
            for side in (then, now)
        ]
        for side in sides:
            drawn += random.sample(side, min(map(len, sides)))
    random.shuffle(drawn)
    return tuple(drawn)


def with_grades(history: History, grades: Mapping[int, Mapping[str, Grade | None]]) -> History:
    """The history with these balls (by id) as graded here, and without other balls of its tests.

    Practice stays, since it says where a morning ends. So does how far neighbouring balls go
    alike, which is of the player's balls, whoever rates them.
    """
    balls = [
        replace(ball, grades=dict(grades[ball.ball_id])) if ball.ball_id in grades else ball
        for ball in history.balls
        if ball.ball_id in grades or ball.purpose not in _JUDGED
    ]
    return replace(history, balls=tuple(balls))


def as_rated_blind(history: History, grades: Mapping[int, Mapping[str, Grade | None]]) -> History:
    """The same by somebody who did not know the days, and without doubts.

    Whose grades go by luck hides a change; to show one that is not there takes knowing the day. So
    a blind reading is judged by itself, however far it is from another.
    """
    return replace(with_grades(history, grades), doubts={})


def _sides_of(
    history: History, answer: CueAnswer, cues: Sequence[str]
) -> tuple[tuple[PastBall, ...], tuple[PastBall, ...]]:
    assert answer.headline is not None
    then, now = (
        tuple(ball for ball in side if all(cue in ball.grades for cue in cues))
        for side in balls_then_and_now(history, answer.cue, answer.headline)
    )
    return then, now
