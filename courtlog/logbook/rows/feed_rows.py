"""How a round's row holds its feeds: one digit a ball for the spots, one 0 or 1 for tough."""

from __future__ import annotations

from courtlog.coaching.game.drills import Order
from courtlog.coaching.game.speaking import Speak
from courtlog.coaching.on_court.feed_order import Feeds

FEED_COLUMNS = "order_kind, feed_order, tough_plan, rate_every, speak, feed_seed"
"""The columns of `round` that feeds_of reads, in its order."""


def feed_values(feeds: Feeds) -> dict[str, object]:
    """The columns of a round with these feeds."""
    return {
        "order_kind": str(feeds.kind or ""),
        "feed_order": order_text(feeds.spots),
        "tough_plan": "".join(str(int(tough)) for tough in feeds.tough),
        "rate_every": feeds.every,
        "speak": str(feeds.speak or ""),
        "feed_seed": feeds.seed,
    }


def feeds_of(kind: str, order: str, tough: str, every: int, speak: str, seed: int) -> Feeds:
    """The feeds that feed_values wrote."""
    return Feeds(
        Order(kind) if kind else None,
        order_of(order),
        tuple(digit == "1" for digit in tough),
        every,
        Speak(speak) if speak else None,
        seed,
    )


def order_text(order: tuple[int, ...]) -> str:
    """A feed order as spot numbers from 1, one digit a ball."""
    return "".join(str(spot + 1) for spot in order)


def order_of(text: str) -> tuple[int, ...]:
    """The feed order that order_text wrote."""
    return tuple(int(digit) - 1 for digit in text)
