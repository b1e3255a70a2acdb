"""What a plan's yardsticks will be able to tell, before a ball of them is played."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from statistics import median_low

from courtlog.coaching.answers.yardstick import first_yardstick
from courtlog.coaching.game.drills import Ladder
from courtlog.coaching.game.people import Player
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.plans.day_plan import USUAL_BALLS, StrokeStanding, find_drill
from courtlog.coaching.plans.planned_round import PlannedRound, evening_holds
from courtlog.coaching.plans.proposal import planned_balls
from courtlog.measures.common.enough import MINIMUMS, PLAN_NEXT, Question
from courtlog.measures.shares.power import clear_chance

OUT_OF = 20
"""Rises are told as made balls of this many."""

RISES = ((7, 14), (7, 11))
"""Made balls before and after: a large rise, and a smaller one."""

LEAST_SEEN = int(MINIMUMS[Question.YARDSTICK][1].refuse)
"""Balls of a first yardstick below which nothing is compared with it."""


@dataclass(frozen=True, slots=True)
class YardstickPair:
    """Balls of the first yardstick and of the last day, and the chance to find each of RISES.

    `of_hold` of the later ones are that morning's hold.
    """

    first: int
    last: int
    of_hold: int
    found: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class YardstickReach:
    """What the planned balls can tell, and what they could with PLAN_NEXT where it is more.

    `again` is True once the first yardstick was played; `too_few` are players for whose main cue it
    cannot be compared.
    """

    again: bool
    planned: tuple[YardstickPair, ...]
    advised: YardstickPair | None
    too_few: tuple[Player, ...] = ()


def yardstick_reach(
    rounds: Sequence[PlannedRound],
    standings: Iterable[StrokeStanding],
    last_day: bool,
    ladders: Mapping[str, Ladder],
) -> YardstickReach | None:
    """The reach of a day's planned yardsticks; None where no yardstick will be compared."""
    seen = {standing.player.id: _seen_first(standing) for standing in standings}
    yardsticks = [round_ for round_ in rounds if round_.purpose is Purpose.YARDSTICK]
    repeats = [r for r in yardsticks if seen.get(r.player.id) is not None]
    if repeats:
        return _of_repeats(repeats, rounds, {r.player: seen[r.player.id] or 0 for r in repeats})
    return _of_firsts(yardsticks, ladders) if yardsticks and not last_day else None


def _seen_first(standing: StrokeStanding) -> int | None:
    """Balls of the main cue, else of the cue seen least, in the first yardstick; None before it."""
    start = first_yardstick(standing.history)
    if not start.balls:
        return None
    main = standing.history.main
    cues = (main,) if main else dict.fromkeys(cue for ball in start.balls for cue in ball.grades)
    return min((start.counts(cue).seen for cue in cues), default=0)


def _of_firsts(firsts: Sequence[PlannedRound], ladders: Mapping[str, Ladder]) -> YardstickReach:
    """The last day is taken to have as many balls as would be proposed: yardstick and hold."""
    first = _usual(round_.balls for round_ in firsts)
    ladder_drill = find_drill(ladders, firsts[0].drill)
    usual = ladder_drill[1].balls if ladder_drill else USUAL_BALLS
    again, hold = (planned_balls(why, usual) for why in (Purpose.YARDSTICK, Purpose.HOLD))
    planned = (_pair(first, again), _pair(first, again, hold))
    advised = _pair(PLAN_NEXT, PLAN_NEXT, hold) if first < PLAN_NEXT else None
    return YardstickReach(False, planned, advised)


def _of_repeats(
    repeats: Sequence[PlannedRound], rounds: Sequence[PlannedRound], seen: Mapping[Player, int]
) -> YardstickReach:
    too_few = tuple(player for player, balls in seen.items() if balls < LEAST_SEEN)
    compared = [balls for balls in seen.values() if balls >= LEAST_SEEN]
    if not compared:
        return YardstickReach(True, (), None, too_few)
    first = median_low(compared)
    again = _usual(round_.balls for round_ in repeats)
    holds = [hold for round_ in repeats if (hold := _morning_hold(round_, rounds))]
    hold = _usual(holds) if holds else 0
    planned = [_pair(first, again)] + ([_pair(first, again, hold)] if hold else [])
    advised = _pair(first, PLAN_NEXT, hold) if again < PLAN_NEXT else None
    return YardstickReach(True, tuple(planned), advised, too_few)


def _morning_hold(repeat: PlannedRound, rounds: Sequence[PlannedRound]) -> int:
    """Balls of the player's morning hold on the yardstick's drill; 0 without one."""
    theirs = [round_ for round_ in rounds if round_.player.id == repeat.player.id]
    evenings = evening_holds([round_.purpose for round_ in theirs])
    return sum(
        round_.balls
        for place, round_ in enumerate(theirs)
        if round_.purpose is Purpose.HOLD and place not in evenings and round_.drill == repeat.drill
    )


def _pair(first: int, again: int, hold: int = 0) -> YardstickPair:
    last = again + hold
    found = tuple(
        clear_chance(before / OUT_OF, after / OUT_OF, first, last).up for before, after in RISES
    )
    return YardstickPair(first, last, hold, found)


def _usual(balls: Iterable[int]) -> int:
    """The number that comes most often; of equals the least."""
    counts = Counter(balls)
    return min(counts, key=lambda number: (-counts[number], number))
