"""The round on court: what the book holds of it, as one value the screen can show."""

from __future__ import annotations

from dataclasses import dataclass

from courtlog.coaching.drills import Cue, UsedDrill
from courtlog.coaching.feeding import Feeding
from courtlog.coaching.feeds import spot_of
from courtlog.coaching.people import Player
from courtlog.coaching.proposing import planned_balls
from courtlog.coaching.rounds import Purpose


@dataclass(frozen=True, slots=True)
class LiveRound:
    """One player's go at one drill, with its feeding state and feed order."""

    id: int
    day_id: int
    player: Player
    drill: UsedDrill
    purpose: Purpose
    cue_keys: tuple[str, ...]
    order: tuple[int, ...]
    feeding: Feeding
    started_at: int | None
    ended_at: int | None
    plan_balls: int | None = None

    @property
    def cues(self) -> tuple[Cue, ...]:
        """The cues in view, in stroke order."""
        return tuple(self.drill.cue(key) for key in self.cue_keys)

    @property
    def planned(self) -> int:
        """Balls this round is planned for: by the day's plan, else by its purpose and drill."""
        return self.plan_balls or planned_balls(self.purpose, self.drill.drill.balls)

    def next_feed(self) -> str:
        """Where the open ball goes, in words."""
        return spot_of(self.drill.drill, self.order, self.feeding.number)

    @property
    def empty(self) -> bool:
        """Whether no key has said anything of any ball yet."""
        return not self.feeding.taken and not self.feeding.open.touched


@dataclass(frozen=True, slots=True)
class Basket:
    """Balls left before pick-up, of a full basket."""

    left: int
    size: int

    @property
    def empty(self) -> bool:
        """Time to pick up."""
        return self.left <= 0


@dataclass(frozen=True, slots=True)
class Bookmark:
    """Where the book was left: the clinic, day and round on court, the basket, a pause."""

    clinic_id: int
    day_id: int
    round_id: int | None
    basket: Basket
    paused_at: int | None
