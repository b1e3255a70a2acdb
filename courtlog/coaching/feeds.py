"""Which spot the next ball goes to: the order of a round's feeds, drawn once and kept."""

from __future__ import annotations

from courtlog.coaching.drills import Drill, Order
from courtlog.measures.schedule import shuffled_feeds, usual_max_run


def feed_order(drill: Drill, seed: int) -> tuple[int, ...]:
    """Spot numbers (0-based) for the balls of one round; the same seed gives the same order."""
    spots = len(drill.spots)
    each, extra = divmod(drill.balls, spots)
    counts = [each + (spot < extra) for spot in range(spots)]
    if drill.order is Order.BLOCKED or spots == 1:
        return tuple(spot for spot, count in enumerate(counts) for _ in range(count))
    if drill.order is Order.SERIAL:
        return tuple(ball % spots for ball in range(drill.balls))
    drawn = shuffled_feeds(dict(enumerate(counts)), usual_max_run(spots), seed)
    return drawn or tuple(ball % spots for ball in range(drill.balls))


def spot_of(drill: Drill, order: tuple[int, ...], number: int) -> str:
    """The spot of the ball of that number (1-based); after the last the order starts again."""
    if not order:
        return drill.spots[0]
    return drill.spots[order[(number - 1) % len(order)]]
