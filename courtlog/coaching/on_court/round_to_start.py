"""The round that is to start: who, which drill, why and which cues."""

from __future__ import annotations

from dataclasses import dataclass

from courtlog.coaching.game.drills import UsedDrill
from courtlog.coaching.game.people import Player
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.on_court.feed_order import FeedChoice, rated_balls


@dataclass(frozen=True, slots=True)
class NextRound:
    """The round to start, why it has this purpose, and its balls where the day's plan says so."""

    player: Player
    used: UsedDrill
    purpose: Purpose
    cues: tuple[str, ...]
    feeds: FeedChoice
    reason: str
    balls: int | None = None

    @property
    def rated(self) -> int:
        """Balls to rate in it."""
        return rated_balls(self.used.drill, self.purpose, self.feeds.every, self.balls)
