"""The plan to take home: drills to do alone, balls by week, the yardstick to repeat.

The doses are common practice, no source. They rise gently from what the player did at the clinic
and leave a day between sessions.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from statistics import median

from courtlog.coaching.answers.ball_history import History
from courtlog.coaching.answers.comparison import Comparison
from courtlog.coaching.answers.not_seen import not_seen_words
from courtlog.coaching.answers.player_answer import CueAnswer, StrokeAnswer
from courtlog.coaching.answers.yardstick import first_yardstick
from courtlog.coaching.game.counts import Counts
from courtlog.coaching.game.drills import Cue, Drill, Ladder, Station
from courtlog.coaching.game.rounds import Ball, Purpose
from courtlog.coaching.plans.proposal import planned_balls
from courtlog.measures.common.enough import Level, Question, level
from courtlog.measures.common.hundredths import hundredths
from courtlog.measures.shares.proportions import wilson
from courtlog.plain_text import many

DRILLS = 2
"""Drills to take home: as many as a player remembers, and half a page has room for."""

WEEKS = ((2, 0.40), (2, 0.45), (3, 0.35), (3, 0.40))
"""Sessions a week, and balls of a session as a share of a usual clinic day."""

LEAST_BALLS = 5
"""Least balls of one drill in a session, however few were rated."""

MOST_A_DAY = 120
"""A usual day counts as this at most: nobody repeats a clinic's longest day at home."""

LATER = 3
"""The week in which a drill from above the current rung joins, where there are too few below."""

MOST_YARDSTICK = 40
"""Balls of a home yardstick that fit on the page."""


@dataclass(frozen=True, slots=True)
class HomeDrill:
    """A drill to do alone, from this week on."""

    drill: Drill
    from_week: int = 1


@dataclass(frozen=True, slots=True)
class HomeWeek:
    """Sessions of a week, and the balls of one session by drill (0: not yet)."""

    number: int
    sessions: int
    balls: tuple[int, ...]

    @property
    def total(self) -> int:
        """Balls of the whole week."""
        return self.sessions * sum(self.balls)


@dataclass(frozen=True, slots=True)
class HomeYardstick:
    """The yardstick to repeat: drill, cues in stroke order, balls each time.

    `first` is the clinic's first one, by rounds, and `on` its date. Both are empty where none was
    played: then the first is played at home, before week 1.
    """

    drill: Drill
    cues: tuple[Cue, ...]
    balls: int
    first: tuple[tuple[Ball, ...], ...] = ()
    on: date | None = None


@dataclass(frozen=True, slots=True)
class Homework:
    """The plan: what to do alone, how much, and the yardstick; `usual` balls on a clinic day."""

    drills: tuple[HomeDrill, ...]
    usual: int
    weeks: tuple[HomeWeek, ...]
    yardstick: HomeYardstick | None


def homework(history: History, answer: StrokeAnswer, ladder: Ladder, rung: int) -> Homework:
    """The plan from a stroke's balls and answer; `care.home_care` says who gets none."""
    drills = home_drills(ladder, rung)
    usual = usual_day(history)
    weeks = doses(drills, usual) if usual else ()
    return Homework(drills, usual, weeks, home_yardstick(history, answer, ladder, drills))


def current_rung(history: History) -> int:
    """The highest rung practised on the last day with practice; else that of the last ball."""
    practice = history.of(Purpose.PRACTICE)
    if practice.balls:
        return max(ball.kind.rung for ball in practice.on(practice.days[-1]).balls)
    return history.balls[-1].kind.rung if history.balls else 1


def usual_day(history: History) -> int:
    """Balls on the middle one of the player's days; 0 without a ball."""
    days = [len(history.on(day).balls) for day in history.days]
    return round(median(days)) if days else 0


def home_drills(ladder: Ladder, rung: int) -> tuple[HomeDrill, ...]:
    """The drills with station alone, the highest rung at or below this one first.

    Where fewer are that low, the next ones up join later.
    """
    alone = [drill for drill in ladder.in_rung_order() if drill.station is Station.ALONE]
    below = [drill for drill in reversed(alone) if drill.rung <= rung][:DRILLS]
    above = [drill for drill in alone if drill.rung > rung][: DRILLS - len(below)]
    first = LATER if below else 1
    return (
        *map(HomeDrill, below),
        *(HomeDrill(drill, first if index == 0 else LATER) for index, drill in enumerate(above)),
    )


def doses(drills: Sequence[HomeDrill], usual: int) -> tuple[HomeWeek, ...]:
    """Balls by week; no week has fewer than the one before."""
    if not drills:
        return ()
    weeks: list[HomeWeek] = []
    for number, (sessions, share) in enumerate(WEEKS, 1):
        now = sum(home.from_week <= number for home in drills)
        each = max(LEAST_BALLS, round(share * min(usual, MOST_A_DAY) / now))
        balls = tuple(each if home.from_week <= number else 0 for home in drills)
        weeks.append(HomeWeek(number, sessions, balls))
    return tuple(weeks)


def home_yardstick(
    history: History, answer: StrokeAnswer, ladder: Ladder, drills: Sequence[HomeDrill]
) -> HomeYardstick | None:
    """The clinic's first yardstick to repeat, else the first home drill as a new one."""
    start = first_yardstick(history)
    for played in start.rounds:
        drill = ladder.drill(played.balls[0].kind.drill.partition("/")[2])
        keys = tuple(played.balls[0].grades)
        cues = _cues(ladder, keys)
        if drill is None or len(cues) != len(keys):
            continue
        rounds = tuple(
            tuple(Ball(tuple(ball.grades.values()), ball.kind.tough) for ball in part.balls)
            for part in start.rounds
            if part.balls[0].kind.drill == played.balls[0].kind.drill
            and tuple(part.balls[0].grades) == keys
        )
        balls = planned_balls(Purpose.YARDSTICK, sum(map(len, rounds)))
        return HomeYardstick(drill, cues, min(balls, MOST_YARDSTICK), rounds, start.days[0])
    cues = _cues(ladder, [cue.cue for cue in answer.cues] or ladder.first_cues)
    if not drills or not cues:
        return None
    usual = drills[0].drill.balls
    return HomeYardstick(drills[0].drill, cues[:4], planned_balls(Purpose.YARDSTICK, usual))


def going_well(
    answer: StrokeAnswer, names: dict[str, str], counts_only: bool = False
) -> tuple[str, ...]:
    """The good thing in figures: the cue made most often on the last day, beside the others.

    With `counts_only` there is no percentage and no interval.
    """
    told = Counts.of_words if counts_only else with_interval
    number, counts = _last_day(answer)
    seen = {cue: count for cue, count in counts.items() if count.seen}
    made = [cue for cue in _most_borne(seen) if seen[cue].made]
    if not made:
        return _not_made_yet(seen, names, counts_only)
    best = max(made, key=lambda cue: seen[cue].share or 0.0)
    words = f"Made most often on day {number}: {names[best]}, {told(seen[best])}."
    others = [
        f"{names[cue]} {told(seen[cue])}"
        for cue in seen
        if cue != best and 2 * seen[cue].made >= seen[cue].seen
    ]
    if others:
        words += f" At least every second ball: {'; '.join(others)}."
    return (words,)


def with_interval(counts: Counts) -> str:
    """`69 of 86 (80%, 70 to 87)`: the share and its 95 % interval, where the balls bear one.

    Where many were not seen: `69 of 86 (80%, 70 to 87; 30 of 116 not seen: 69 to 99 made)`.
    """
    percent, interval = counts.percent_words(), wilson(counts.made, counts.seen)
    parts = []
    if percent and interval is not None:
        parts.append(f"{percent}, {hundredths(interval.low)} to {hundredths(interval.high)}")
    parts += filter(None, [not_seen_words(counts)])
    return f"{counts.of_words()} ({'; '.join(parts)})" if parts else counts.of_words()


def ups_first(cues: Sequence[CueAnswer]) -> list[CueAnswer]:
    """The cues whose uncoached balls went up first; else in stroke order."""
    return sorted(cues, key=lambda cue: -_way(cue.learning or cue.hold))


def _cues(ladder: Ladder, keys: Sequence[str]) -> tuple[Cue, ...]:
    return tuple(cue for key in keys if (cue := ladder.cue(key)) is not None)


def _last_day(answer: StrokeAnswer) -> tuple[int, dict[str, Counts]]:
    """The last day's number on which any cue was seen, and the cues' counts on it."""
    for index in range(len(answer.dates) - 1, 0, -1):
        if any(cue.days[index].seen for cue in answer.cues):
            return index + 1, {cue.cue: cue.days[index] for cue in answer.cues}
    return 1, {cue.cue: cue.days[0] for cue in answer.cues}


def _most_borne(seen: dict[str, Counts]) -> list[str]:
    """The cues with the most balls to speak for them: ten and more, else five, else any."""
    for bearing in (Level.NORMAL, Level.WEAK, Level.REFUSE):
        made_cues = [cue for cue, c in seen.items() if c.made and _bears(c) is bearing]
        if made_cues:
            return made_cues
    return []


def _not_made_yet(
    seen: dict[str, Counts], names: dict[str, str], counts_only: bool
) -> tuple[str, ...]:
    if not seen:
        return ("Your balls were hit; no cue was seen on them, and not seen is never a miss.",)
    near = max(seen, key=lambda cue: seen[cue].near)
    balls = seen[near].seen
    if seen[near].near:
        close = f"{names[near]} was near on {seen[near].near} of {many(balls, 'ball')}"
        return (f"Close already: {close}. No cue was made yet.",)
    told = Counts.of_words if counts_only else Counts.words
    looked = "; ".join(f"{names[cue]} {told(counts)}" for cue, counts in seen.items())
    return (f"{many(balls, 'ball')} hit and seen. Made so far: {looked}.",)


def _bears(counts: Counts) -> Level:
    return level(Question.RATE, counts.seen)


def _way(comparison: Comparison | None) -> int:
    return (
        comparison.verdict.direction if comparison is not None and comparison.bears_statement else 0
    )
