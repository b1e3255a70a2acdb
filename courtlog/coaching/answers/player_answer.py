"""The player's answer: what changed, uncoached rounds first, and what the balls bear."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from courtlog.coaching.answers.all_cues import all_cues
from courtlog.coaching.answers.ball_history import BallKind, Doubt, History
from courtlog.coaching.answers.comparison import (
    Comparison,
    compare_cue,
    tough_against_usual,
)
from courtlog.coaching.answers.cue_curve import Curve, curve_of
from courtlog.coaching.answers.cue_rounds import CueRound, rounds_of_cue
from courtlog.coaching.answers.drill_mix import drill_mix, other_drills
from courtlog.coaching.answers.overnight import overnight
from courtlog.coaching.answers.yardstick import (
    balls_then_and_now,
    first_yardstick,
    hold_against_first,
    yardstick_again,
)
from courtlog.coaching.game.counts import Counts
from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Purpose
from courtlog.measures.common.enough import Question, Verdict, level, trend_verdict
from courtlog.measures.shares.association import CueBall, Keystone, keystone
from courtlog.measures.shares.trend import DayCounts, Trend, mantel


@dataclass(frozen=True, slots=True)
class DaysTrend:
    """Uncoached made shares day by day: counts, the trend within kinds of ball, and its words."""

    days: tuple[tuple[int, Counts], ...]
    alike: int
    """Balls of a kind seen on two days or more; the others say nothing of a trend."""
    trend: Trend | None
    verdict: Verdict
    doubt: Doubt | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CueAnswer:
    """One cue: learning (uncoached) first, then practice, the night, tough balls, the curve."""

    cue: str
    """The cue's key."""
    all: Counts
    """Counts of every ball."""
    start: Counts
    """Counts of the first yardstick."""
    start_on: date | None
    """Its date; None where none was played."""
    days: tuple[Counts, ...]
    """Counts by date, all drills together."""
    other_drills: tuple[bool, ...]
    """For each date whether its drills are others than the first one's."""
    rounds: tuple[CueRound, ...]
    """Every round of the stroke, all drills together."""
    learning: Comparison | None
    """The latest yardstick against the first one."""
    hold: Comparison | None
    """The latest morning round against the first yardstick."""
    then: tuple[Grade | None, ...]
    """Ball by ball the first yardstick behind the headline; empty without a later one."""
    now: tuple[Grade | None, ...]
    """Ball by ball the later side of the headline."""
    practice: Comparison | None
    """The latest day's practice against the first day's."""
    overnight: Comparison | None
    """The latest morning against the evening before."""
    tough: Comparison
    """Tough balls against usual ones."""
    trend: DaysTrend
    """Uncoached rounds day by day."""
    curve: Curve | None
    """The skill curve; None where it was not asked for, or balls are too few."""
    curve_asked: bool = True
    """Whether the curve was asked for."""

    @property
    def headline(self) -> Comparison | None:
        """The yardstick against the first one, else the morning round; None if none is alike."""
        return _headline(self.learning, self.hold)


@dataclass(frozen=True, slots=True)
class StrokeAnswer:
    """One stroke of one player over the clinic's dates so far."""

    stroke: str
    dates: tuple[date, ...]
    cues: tuple[CueAnswer, ...]
    keystone: Keystone | None
    whole: Comparison | None
    """All cues on the same ball, the latest uncoached balls against the first yardstick."""
    main: str = ""
    """The key of the main cue; empty where none is named."""

    @property
    def last_day(self) -> int:
        """The place in `dates` of the last day with a seen ball; 0 without any."""
        days = range(len(self.dates) - 1, 0, -1)
        return next((n for n in days if any(cue.days[n].seen for cue in self.cues)), 0)

    @property
    def last_counts(self) -> dict[str, Counts]:
        """The cues' counts on that day."""
        return {cue.cue: cue.days[self.last_day] for cue in self.cues}


def stroke_answer(
    history: History, dates: Sequence[date], cues: Sequence[str], curves: bool = True
) -> StrokeAnswer:
    """The answer for the cues (in stroke order) over these dates, the last being today.

    Without `curves` only the cue made least today gets its skill curve.
    """
    today = history.on(dates[-1])
    shares = {cue: share for cue in cues if (share := today.counts(cue).share) is not None}
    least = min(shares, key=lambda cue: shares[cue], default=None)
    return StrokeAnswer(
        history.stroke,
        tuple(dates),
        tuple(cue_answer(history, dates, cue, curves or cue == least) for cue in cues),
        _keystone(history, cues),
        all_cues(history, cues, dates),
        history.main or "",
    )


def cue_answer(
    history: History, dates: Sequence[date], cue: str, with_curve: bool = True
) -> CueAnswer:
    """Everything about one cue."""
    watched = history.with_cue(cue)
    start = first_yardstick(watched)
    learning, hold = _learning(history, cue, dates), _hold(history, cue, dates)
    headline = _headline(learning, hold)
    then, now = balls_then_and_now(history, cue, headline) if headline else ((), ())
    return CueAnswer(
        cue=cue,
        all=watched.counts(cue),
        start=start.counts(cue),
        start_on=start.days[0] if start.balls else None,
        days=tuple(watched.on(day).counts(cue) for day in dates),
        other_drills=other_drills([drill_mix(watched.on(day), cue) for day in dates]),
        rounds=rounds_of_cue(history, cue),
        learning=learning,
        hold=hold,
        then=tuple(ball.grades[cue] for ball in then),
        now=tuple(ball.grades[cue] for ball in now),
        practice=_practice(watched, cue, dates),
        overnight=overnight(watched, cue, dates),
        tough=tough_against_usual(watched, cue),
        trend=_trend(watched, cue, dates),
        curve=curve_of(watched, cue) if with_curve else None,
        curve_asked=with_curve,
    )


def _headline(learning: Comparison | None, hold: Comparison | None) -> Comparison | None:
    alike = (one for one in (learning, hold) if one is not None and one.result is not None)
    return next(alike, None)


def _learning(history: History, cue: str, dates: Sequence[date]) -> Comparison | None:
    """The latest yardstick with this cue against the first one."""
    rounds = history.of(Purpose.YARDSTICK).with_cue(cue)
    if not rounds.balls:
        return None
    on = rounds.days[-1]
    return yardstick_again(history, on, dates, f"on day {_number(on, dates)}").get(cue)


def _hold(history: History, cue: str, dates: Sequence[date]) -> Comparison | None:
    """The latest morning's hold with this cue against the first yardstick."""
    rounds = history.before_practice.of(Purpose.HOLD).with_cue(cue)
    if not rounds.balls:
        return None
    on = rounds.days[-1]
    return hold_against_first(history, on, dates, f"on day {_number(on, dates)}").get(cue)


def _practice(history: History, cue: str, dates: Sequence[date]) -> Comparison | None:
    """The latest day's practice against the first day's, on the drills of both."""
    practice = history.of(Purpose.PRACTICE)
    if len(practice.days) < 2:
        return None
    first, last = practice.days[0], practice.days[-1]
    return compare_cue(practice.on(last), practice.on(first), cue, _on(last, first, dates))


def _trend(history: History, cue: str, dates: Sequence[date]) -> DaysTrend:
    uncoached = history.before_practice.of(Purpose.YARDSTICK, Purpose.HOLD, Purpose.TRANSFER)
    days: list[tuple[int, Counts]] = []
    kinds: dict[BallKind, list[DayCounts]] = {}
    for day in uncoached.days:
        balls_of_day, number = uncoached.on(day), _number(day, dates)
        if (counts := balls_of_day.counts(cue)).seen:
            days.append((number, counts))
        for kind, (made, seen) in balls_of_day.by_kind(cue).items():
            kinds.setdefault(kind, []).append((made, seen, number))
    alike = [of_kind for of_kind in kinds.values() if len(of_kind) > 1]
    balls = sum(seen for of_kind in alike for _, seen, _ in of_kind)
    bears = level(Question.TREND, len({day for c in alike for *_, day in c}), balls)
    tie = history.ties.get(cue)
    trend = mantel(alike, tie.inflation if tie else 1.0)
    verdict = trend_verdict(trend, bears, planned=False)
    return DaysTrend(tuple(days), balls, trend, verdict, history.doubts.get(cue))


def _keystone(history: History, cues: Sequence[str]) -> Keystone | None:
    """The cue that two others go with, if any; of the balls the cues were picked by none count.

    A cue that is rated differently each time is left out.
    """
    balls = [
        CueBall(ball.grades, (ball.kind, ball.day, ball.purpose.coached))
        for ball in history.balls
        if ball.purpose is not Purpose.CHOOSING
    ]
    return keystone(balls, [cue for cue in cues if cue not in history.doubts])


def _on(late: date, early: date, dates: Sequence[date]) -> tuple[str, str]:
    return f"on day {_number(late, dates)}", f"on day {_number(early, dates)}"


def _number(day: date, dates: Sequence[date]) -> int:
    return list(dates).index(day) + 1
