"""A player's balls on one stroke in their order, and the cuts that comparisons are made on."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from typing import NamedTuple

from courtlog.coaching.game.counts import Counts
from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Purpose
from courtlog.measures.shares.neighbours import Neighbours, neighbours


class BallKind(NamedTuple):
    """What makes two balls of a player, stroke and cue alike."""

    drill: str
    rung: int
    feed: str
    tough: bool


@dataclass(frozen=True, slots=True)
class PastBall:
    """A taken ball: when, in which round and why, of what kind, and the grade of each cue watched.

    A cue that was watched and not seen has None; a cue that was not watched is not there.
    """

    day: date
    round_id: int
    purpose: Purpose
    kind: BallKind
    grades: dict[str, Grade | None]
    number: int = 0
    """Its place in the round, from 1; 0 where nobody asked."""
    ball_id: int = 0
    """Its id in the book; 0 for a ball that is not in one."""


@dataclass(frozen=True, slots=True)
class Doubt:
    """A cue that got other grades when the same balls were rated twice.

    `value` is the agreement beyond luck (at most 1), `balls` how many were rated twice.
    """

    value: float
    balls: int


@dataclass(frozen=True, slots=True)
class History:
    """Balls of one player on one stroke, oldest first, and the cues whose ratings are in doubt."""

    stroke: str
    balls: tuple[PastBall, ...]
    doubts: Mapping[str, Doubt] = field(default_factory=dict)
    main: str | None = None
    """The cue judged first, named before the first yardstick; None where nobody named one."""
    planned_days: int | None = None
    """How many days the clinic was planned for; None where nobody said."""
    ties: Mapping[str, Neighbours] = field(default_factory=dict)
    """By cue, where neighbouring balls go alike, over all the player's balls so far."""

    def where(self, wanted: Callable[[PastBall], bool]) -> History:
        """Only the balls for which `wanted` says yes."""
        return replace(self, balls=tuple(ball for ball in self.balls if wanted(ball)))

    def on(self, day: date) -> History:
        """Only the balls of that date."""
        return self.where(lambda ball: ball.day == day)

    def of(self, *purposes: Purpose) -> History:
        """Only balls of rounds with these purposes."""
        return self.where(lambda ball: ball.purpose in purposes)

    def with_cue(self, cue: str) -> History:
        """Only balls on which this cue was watched."""
        return self.where(lambda ball: cue in ball.grades)

    def tough(self, tough: bool) -> History:
        """Only tough balls, or only usual ones."""
        return self.where(lambda ball: ball.kind.tough is tough)

    @property
    def days(self) -> tuple[date, ...]:
        """The dates with a ball, in order."""
        return tuple(sorted({ball.day for ball in self.balls}))

    @property
    def rounds(self) -> tuple[History, ...]:
        """One history a round, in order."""
        parts: dict[int, list[PastBall]] = {}
        for ball in self.balls:
            parts.setdefault(ball.round_id, []).append(ball)
        return tuple(replace(self, balls=tuple(part)) for part in parts.values())

    def with_ties(self) -> History:
        """The history with how far neighbouring balls of a cue go alike, over all balls of it."""
        parts = [part.balls for part in self.rounds]
        ties = {
            cue: tie
            for cue in dict.fromkeys(cue for ball in self.balls for cue in ball.grades)
            if (tie := neighbours([ball.grades.get(cue) for ball in part] for part in parts))
        }
        return replace(self, ties=ties)

    @property
    def before_practice(self) -> History:
        """The balls of each day up to its first practice: its morning."""
        return self._by_practice(begun=False)

    @property
    def after_practice(self) -> History:
        """The balls of each day from its first practice on."""
        return self._by_practice(begun=True)

    def _by_practice(self, begun: bool) -> History:
        practised: set[date] = set()
        wanted = []
        for ball in self.balls:
            if ball.purpose is Purpose.PRACTICE:
                practised.add(ball.day)
            if (ball.day in practised) is begun:
                wanted.append(ball)
        return replace(self, balls=tuple(wanted))

    def counts(self, cue: str) -> Counts:
        """Counts of a cue over the balls on which it was watched."""
        return Counts.of(ball.grades[cue] for ball in self.balls if cue in ball.grades)

    def by_kind(self, cue: str) -> dict[BallKind, tuple[int, int]]:
        """Made and seen balls of a cue by kind of ball; kinds with none seen are left out."""
        counts: dict[BallKind, tuple[int, int]] = {}
        for ball in self.balls:
            grade = ball.grades.get(cue)
            if grade is not None:
                made, seen = counts.get(ball.kind, (0, 0))
                counts[ball.kind] = made + (grade is Grade.MADE), seen + 1
        return counts

    def sequence(self, cue: str) -> tuple[list[Grade | None], list[int]]:
        """A cue's grades in order, and the numbers (from 1) of the balls that began a day."""
        watched = [ball for ball in self.balls if cue in ball.grades]
        breaks = [
            index + 1
            for index in range(1, len(watched))
            if watched[index].day != watched[index - 1].day
        ]
        return [ball.grades[cue] for ball in watched], breaks

    def last(self, count: int) -> History:
        """The last balls, this many at most."""
        return replace(self, balls=self.balls[-count:] if count else ())
