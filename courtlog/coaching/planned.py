"""A round of a day's plan: the value that the proposal, the kept plan and the court share."""

from __future__ import annotations

from dataclasses import dataclass

from courtlog.coaching.people import Player
from courtlog.coaching.rounds import Purpose


@dataclass(frozen=True, slots=True)
class PlannedRound:
    """Who, on which drill (full name), why, how many balls; the reason in words where one is known.

    The place in the plan is the order of play.
    """

    player: Player
    drill: str
    purpose: Purpose
    balls: int
    reason: str = ""

    @property
    def same(self) -> tuple[int, str, Purpose, int]:
        """What makes two planned rounds the same, whatever the reason given."""
        return (self.player.id, self.drill, self.purpose, self.balls)
