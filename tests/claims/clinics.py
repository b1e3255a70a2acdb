"""A clinic drawn from a seed: the schedule of Harbour Week, six players, the balls of one world."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import cache

import numpy as np
from numpy.typing import NDArray

from courtlog.coaching.game.drills import UsedDrill
from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Ball, Purpose
from courtlog.coaching.plans.proposal import EVENING_BALLS
from tests.claims.worlds import LEADER, World
from tests.samples.drawing import (
    EASE,
    NEAR_WIDTH,
    SPOTS_COST,
    TOUGH,
    TOUGH_UNCHANGED,
    UNSEEN_BALL,
    UNSEEN_CUE,
    UNSEEN_LATE,
)
from tests.samples.generator import shipped_library
from tests.samples.harbour_players import PLAYERS
from tests.samples.harbour_week import DAY_ONE_FEED, HARBOUR_WEEK
from tests.samples.plans import Block

SEED = 20261127
CUES = ("turn", "spacing", "finish")
BESIDE = "split-step"
"""Looked at while choosing, and not picked."""
FIVE = ("split-step", "turn", "spacing", "contact", "finish")
DAYS = tuple(day.date for day in HARBOUR_WEEK.days)
WARM_AFTER = 20

Chances = NDArray[np.float64]
Flags = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class DrawnRound:
    """A round as played; `chances` are the true chances of made (ball, cue) as it was rated."""

    id: int
    day: int
    purpose: Purpose
    drill: UsedDrill
    cues: tuple[str, ...]
    balls: tuple[Ball, ...]
    chances: Chances

    @property
    def date(self) -> date:
        """The date of its day."""
        return DAYS[self.day - 1]

    def of_cue(self, cue: str) -> Chances:
        """The true chances of one cue, ball by ball."""
        return self.chances[:, self.cues.index(cue)]


@dataclass(frozen=True, slots=True)
class DrawnPlayer:
    """A player of a clinic: the cues picked, log-odds without any change, main cue, rounds."""

    number: int
    cues: tuple[str, ...]
    usual: dict[str, float]
    main: str | None
    rounds: tuple[DrawnRound, ...]


@cache
def drill_named(name: str) -> UsedDrill:
    """The drill as it is shipped."""
    return UsedDrill.of(*shipped_library().drill(name))


def clinic(world: World, number: int, seed: int = SEED) -> tuple[DrawnPlayer, ...]:
    """The six players of the clinic of that number; the same in every run."""
    chance = np.random.default_rng([seed, number])
    return tuple(_Week(world, chance, player).player() for player in range(len(PLAYERS)))


class _Week:
    """One player's week, ball after ball."""

    def __init__(self, world: World, chance: np.random.Generator, number: int) -> None:
        self.world, self.chance, self.number = world, chance, number
        like = PLAYERS[number].strokes["forehand"]
        known = [like[cue].start for cue in CUES]
        self.usual = {cue: float(chance.choice(known)) for cue in FIVE}
        self.picked: tuple[str, ...] = CUES
        self.hit = 0

    def player(self) -> DrawnPlayer:
        rounds = tuple(self._rounds())
        main = self.picked[0] if self.world.main_named else None
        return DrawnPlayer(self.number, self.picked, self.usual, main, rounds)

    def _rounds(self) -> Iterator[DrawnRound]:
        ids = iter(range(1, 1000))
        for day, plan in enumerate(HARBOUR_WEEK.days, 1):
            self.hit = 0
            for block in self._blocks(day, plan.blocks):
                if block.purpose is Purpose.CHOOSING:
                    looked_at = self._looked_at()
                    watched = [self._round(next(ids), day, block, cues) for cues in looked_at]
                    yield from watched
                    self._pick(watched)
                else:
                    asked = block.task.cues.split()
                    cues = self.picked if len(asked) == len(CUES) else self.picked[: len(asked)]
                    yield self._round(next(ids), day, block, cues)

    def _blocks(self, day: int, blocks: Sequence[Block]) -> Iterator[Block]:
        """The blocks of a day as in the samples, or with the holds that the plan offers."""
        if not self.world.as_planned:
            yield from blocks
            return
        for block in blocks:
            hold = block.purpose is Purpose.HOLD
            yield replace(block, task=DAY_ONE_FEED) if hold else block
        if day < len(DAYS):
            yield Block("17:00", Purpose.HOLD, replace(DAY_ONE_FEED, balls=EVENING_BALLS))

    def _looked_at(self) -> tuple[tuple[str, ...], ...]:
        """The cues of each choosing round; five do not fit into one."""
        return (FIVE[:3], FIVE[3:]) if self.world.worst_of_five else ((BESIDE, *CUES),)

    def _pick(self, watched: list[DrawnRound]) -> None:
        """The three cues that looked worst, in stroke order."""
        if not self.world.worst_of_five:
            return
        made = {
            cue: sum(ball.grades[row] is Grade.MADE for ball in round_.balls)
            for round_ in watched
            for row, cue in enumerate(round_.cues)
        }
        worst = sorted(made, key=lambda cue: made[cue])[: len(CUES)]
        self.picked = tuple(cue for cue in FIVE if cue in worst)

    def _round(self, number: int, day: int, block: Block, cues: tuple[str, ...]) -> DrawnRound:
        purpose = block.purpose
        drill = drill_named(DAY_ONE_FEED.drill if self.world.one_drill else block.task.drill)
        count = block.task.balls
        if purpose is Purpose.YARDSTICK:
            count = self.world.yardstick_balls
        tough = self.chance.random(count) < _tough_share(drill, purpose)
        odds = self._odds(day, drill, purpose, cues, tough)
        draws = self._draws(*odds.shape)
        odds += self._lent(cues, odds, draws)
        grades = (draws < _shares(odds)).astype(int) + (draws < _shares(odds + NEAR_WIDTH))
        if self.world.excused and day > 1:
            missed = (grades == Grade.MISSED).any(axis=1)
            tough |= missed & (self.chance.random(count) < self.world.excused)
        seen = self._seen(*odds.shape)
        balls = tuple(
            Ball(tuple(Grade(g) if s else None for g, s in zip(row, sight, strict=True)), bool(t))
            for row, sight, t in zip(grades.tolist(), seen.tolist(), tough.tolist(), strict=True)
        )
        return DrawnRound(number, day, purpose, drill, cues, balls, _shares(odds))

    def _odds(
        self, day: int, drill: UsedDrill, purpose: Purpose, cues: tuple[str, ...], tough: Flags
    ) -> Chances:
        world, count = self.world, len(tough)
        level = [world.level(self.usual[cue], day, len(DAYS)) for cue in cues]
        odds = np.tile(level, (count, 1)) + world.looser * (day - 1)
        if world.drills_differ:
            odds += _ease(drill) - _ease(drill_named(DAY_ONE_FEED.drill))
        odds += world.coached * purpose.coached
        odds -= world.tough_cost * tough[:, None]
        odds += world.shared * self.chance.standard_normal(count)[:, None]
        balls_before = self.hit + np.arange(count)
        odds -= world.cold * np.clip(1 - balls_before / WARM_AFTER, 0, 1)[:, None]
        self.hit += count
        return odds

    def _lent(self, cues: tuple[str, ...], odds: Chances, draws: Chances) -> Chances:
        """What the leading cue lends the others where it was made, and takes where it was not."""
        leads = np.array([cue == LEADER for cue in cues])
        made = (draws < _shares(odds)) @ leads
        return self.world.leads * np.outer(made - 0.5, ~leads) * leads.any()

    def _draws(self, balls: int, cues: int) -> Chances:
        """A draw for each ball and cue; in a streak it is that of the ball before."""
        draws = self.chance.random((balls, cues))
        again = self.chance.random((balls, cues)) < self.world.repeats
        for ball in range(1, balls):
            draws[ball] = np.where(again[ball], draws[ball - 1], draws[ball])
        return draws

    def _seen(self, balls: int, cues: int) -> Flags:
        unseen = np.full(cues, UNSEEN_CUE)
        unseen[-1] = UNSEEN_LATE
        whole = self.chance.random(balls) >= UNSEEN_BALL
        seen: Flags = (self.chance.random((balls, cues)) >= unseen) & whole[:, None]
        return seen


def _ease(drill: UsedDrill) -> float:
    return EASE[drill.drill.feed] - SPOTS_COST * (len(drill.drill.spots) > 1)


def _tough_share(drill: UsedDrill, purpose: Purpose) -> float:
    usual = TOUGH.get(drill.drill.feed, 0.0)
    return usual if purpose.plans_tough else min(usual, TOUGH_UNCHANGED)


def _shares(odds: Chances) -> Chances:
    shares: Chances = 1 / (1 + np.exp(-odds))
    return shares
