"""The round on court: what the book holds of it, as one value the screen can show."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from courtlog.coaching.game.drills import Cue, UsedDrill
from courtlog.coaching.game.people import Player
from courtlog.coaching.game.rounds import Ball, Purpose
from courtlog.coaching.game.speaking import (
    Advice,
    Speak,
    Wording,
    by_band,
    by_plan,
    planned_to_speak,
    share_of,
)
from courtlog.coaching.on_court.feed_order import rated_balls
from courtlog.coaching.on_court.feeding import Feeding


@dataclass(frozen=True, slots=True, kw_only=True)
class LiveRound:
    """One player's go at one drill, with its feeding state."""

    id: int
    """The round's id in the book."""
    day_id: int
    """The day's id in the book."""
    player: Player
    """Who is fed."""
    drill: UsedDrill
    """The drill as it read when it was used."""
    purpose: Purpose
    """Why the round is played."""
    cue_keys: tuple[str, ...]
    """Keys of the cues in view, in stroke order."""
    feeding: Feeding
    """The balls, the open ball and the feeds."""
    started_at: int | None
    """The moment of the first ball, milliseconds UTC."""
    ended_at: int | None
    """The moment it ended; None while it runs."""
    plan_balls: int | None = None
    """Rated balls that a plan asks for; None without a plan."""
    main: str = ""
    """Key of the main cue so far; empty where none is named."""
    before: int = 0
    """The player's practice rounds of this drill earlier that day."""
    wordings_said: tuple[tuple[int, Wording], ...] = ()
    """After which balls (by number) the coach spoke, and in which wording."""

    @property
    def cues(self) -> tuple[Cue, ...]:
        """The cues in view, in stroke order."""
        return tuple(self.drill.cue(key) for key in self.cue_keys)

    @property
    def main_cue(self) -> Cue | None:
        """The main cue, where it is in view."""
        return self.drill.cue(self.main) if self.main in self.cue_keys else None

    @property
    def main_row(self) -> int:
        """The row (0-based) of the main cue; the first where none is named or in view."""
        return self.cue_keys.index(self.main) if self.main in self.cue_keys else 0

    @property
    def planned(self) -> int:
        """Balls this round is planned for, those fed in between counted."""
        every = self.feeding.feeds.every
        return every * rated_balls(self.drill.drill, self.purpose, every, self.plan_balls)

    def next_feed(self) -> str:
        """Where the open ball goes, in words, and that it is to be a tough one."""
        return "TOUGH · " * self.next_is_tough + self.next_spot

    @property
    def next_is_tough(self) -> bool:
        """Whether the open ball is to be a tough one."""
        return self.feeding.open.tough and self.feeding.feeds.is_tough(self.feeding.number)

    @property
    def next_spot(self) -> str:
        """Where the open ball goes, in words."""
        spots = self.drill.drill.spots
        return spots[self.feeding.feeds.spot(self.feeding.number) % len(spots)]

    def next_spot_word(self) -> str:
        """Where the open ball goes, in a short word."""
        drill = self.drill.drill
        return drill.spot_word(self.feeding.feeds.spot(self.feeding.number) % len(drill.spots))

    @property
    def empty(self) -> bool:
        """Whether no ball of the round has anything on it yet."""
        return not self.feeding.taken and not self.feeding.touched

    @property
    def share(self) -> float:
        """Share of this round's rated balls to speak after, by plan."""
        return share_of(self.before)

    def advice(self, speak: Speak) -> Advice | None:
        """Whether to speak after the ball in hand; None where it is not to be shown."""
        state = self.feeding
        if not self.purpose.coached or speak is Speak.OFF:
            return None
        number, _ = state.in_hand
        if speak is Speak.PLAN:
            return by_plan((number - 1) // state.feeds.every + 1, number, self.share)
        return self._by_band(state.rated + (state.open,) * state.touched)

    def advised(self, speak: Speak) -> int | None:
        """The number of taken balls after which the rule says to speak; None without a rule."""
        balls = self.feeding.rated
        if not self.purpose.coached or speak is Speak.OFF:
            return None
        if speak is Speak.PLAN:
            return planned_to_speak(len(balls), self.share)
        return sum(self._by_band(balls[:last]).speak for last in range(1, len(balls) + 1))

    @property
    def spoken(self) -> tuple[Wording, ...]:
        """The wordings that were said after the balls taken."""
        taken = len(self.feeding.taken)
        return tuple(word for number, word in self.wordings_said if number <= taken)

    def _by_band(self, balls: Sequence[Ball]) -> Advice:
        return by_band(balls, [cue.name for cue in self.cues])


@dataclass(frozen=True, slots=True)
class Basket:
    """Balls left before pick-up, of a full basket."""

    left: int
    size: int

    @property
    def empty(self) -> bool:
        """Whether it is time to pick up."""
        return self.left <= 0


@dataclass(frozen=True, slots=True)
class Bookmark:
    """What was on court when the book was last used: clinic, day, round, basket, pause."""

    clinic_id: int
    day_id: int
    round_id: int | None
    basket: Basket
    paused_at: int | None
