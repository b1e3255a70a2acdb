"""Balls against baskets and minutes: what a plan asks of the coach's basket and of the day."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from courtlog.coaching.game.drills import Feed

BALLS_A_MINUTE: dict[Feed, tuple[int, int]] = {
    Feed.SHADOW: (15, 20),
    Feed.FENCE: (15, 20),
    Feed.SELF: (6, 10),
    Feed.HAND: (12, 18),
    Feed.RACQUET: (8, 15),
    Feed.LIVE: (6, 12),
}
"""Slow and quick pace by feed, while feeding (common practice, no source; the fence as a shadow
swing)."""

SERVES_A_MINUTE = (4, 6)
"""Slow and quick pace of serves with a ball (common practice, no source)."""

PICK_UP_MINUTES = (2, 4)
"""Picking up a basket (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class FedRound:
    """One round of a plan: its stroke, its feed and its balls."""

    stroke: str
    feed: Feed
    balls: int


@dataclass(frozen=True, slots=True)
class Effort:
    """What a plan takes: balls, those from the basket, baskets, pick-ups between, minutes."""

    balls: int
    from_basket: int
    baskets: int
    pick_ups: int
    quick: float
    slow: float


def effort(rounds: Iterable[FedRound], basket: int) -> Effort:
    """The sum over these rounds with a basket of that many balls, one hitter after the other."""
    rounds = list(rounds)
    from_basket = sum(round_.balls for round_ in rounds if round_.feed.from_basket)
    baskets = -(-from_basket // basket)
    pick_ups = max(0, baskets - 1)
    slow_pace, quick_pace = zip(*(map(_pace, rounds)), strict=True) if rounds else ((), ())
    return Effort(
        sum(round_.balls for round_ in rounds),
        from_basket,
        baskets,
        pick_ups,
        _minutes(rounds, quick_pace) + pick_ups * PICK_UP_MINUTES[0],
        _minutes(rounds, slow_pace) + pick_ups * PICK_UP_MINUTES[1],
    )


def _pace(round_: FedRound) -> tuple[int, int]:
    if round_.stroke == "serve" and round_.feed is Feed.SELF:
        return SERVES_A_MINUTE
    return BALLS_A_MINUTE[round_.feed]


def _minutes(rounds: Iterable[FedRound], paces: Iterable[int]) -> float:
    return sum(round_.balls / pace for round_, pace in zip(rounds, paces, strict=True))
