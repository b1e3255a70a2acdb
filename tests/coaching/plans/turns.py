"""Shorthand for a rotation: players by letter, and turns of four minutes one after the other."""

from __future__ import annotations

from courtlog.coaching.game.people import Player
from courtlog.coaching.plans.rotation import FedTurn

MINUTE = 60_000


def roster(count: int) -> tuple[Player, ...]:
    return tuple(Player(number, "ABCDEFGHIJKL"[number]) for number in range(count))


def turn(player: int, balls: int = 10, number: int = 0, minutes: float = 4) -> FedTurn:
    """A turn that begins where a row of such turns would put it."""
    start = round(number * minutes * MINUTE)
    return FedTurn(player, balls, start, start + round(minutes * MINUTE))
