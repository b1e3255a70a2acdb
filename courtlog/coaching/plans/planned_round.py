"""A round of a day's plan: the value that the proposal, the kept plan and the court share."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from courtlog.coaching.game.people import Player
from courtlog.coaching.game.rounds import Purpose


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
    def task(self) -> tuple[int, str, Purpose]:
        """The same round, with however many balls."""
        return (self.player.id, self.drill, self.purpose)

    @property
    def identity(self) -> tuple[int, str, Purpose, int]:
        """What makes two planned rounds the same, whatever the reason given."""
        return (*self.task, self.balls)


def evening_holds(day: Sequence[Purpose]) -> list[int]:
    """Places (from 0) of the evening's holds among a player's rounds of a day: after practice."""
    first = day.index(Purpose.PRACTICE) if Purpose.PRACTICE in day else len(day)
    return [place for place in range(first, len(day)) if day[place] is Purpose.HOLD]


def in_blocks(rounds: Sequence[PlannedRound]) -> list[list[PlannedRound]]:
    """The rounds in runs in which everyone comes once at most; a player's return begins a run."""
    blocks: list[list[PlannedRound]] = []
    for round_ in rounds:
        if not blocks or any(other.player.id == round_.player.id for other in blocks[-1]):
            blocks.append([])
        blocks[-1].append(round_)
    return blocks
