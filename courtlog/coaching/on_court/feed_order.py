"""How a round is fed: where each ball goes, which are tough, which are rated. Drawn once and kept.

With every second ball rated, a ball that is not rated follows each rated one. It goes to the same
spot and is of the usual kind.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TypeVar

from courtlog.coaching.game.drills import Drill, Order
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.game.speaking import Speak
from courtlog.coaching.plans.proposal import planned_balls
from courtlog.measures.court_day.schedule import shuffled_feeds, tough_plan, usual_max_run

T = TypeVar("T")

MOST_DRAWS = 100
"""Most tries to draw a part that begins with another spot; at least every second one succeeds."""


@dataclass(frozen=True, slots=True)
class FeedChoice:
    """The coach's choice for a round's feeds; `tough` of `of` rated balls are tough.

    `speak` None leaves it to the settings.
    """

    order: Order
    tough: int
    of: int
    every: int = 1
    speak: Speak | None = None

    @classmethod
    def of_card(cls, drill: Drill) -> FeedChoice:
        """The choice that the drill card makes, with every ball rated."""
        return cls(drill.order, drill.tough, drill.balls)

    def tough_in(self, rated: int) -> int:
        """The same share of tough balls in a round with another number of rated ones."""
        return min((2 * self.tough * rated + self.of) // (2 * self.of), rated // 2)


@dataclass(frozen=True, slots=True)
class Feeds:
    """The feeds of one round; spots (0-based) and tough hold one entry a ball, and repeat.

    `kind` is None where a sheet gave the order.
    """

    kind: Order | None = None
    spots: tuple[int, ...] = ()
    tough: tuple[bool, ...] = ()
    every: int = 1
    speak: Speak | None = None
    seed: int = 0

    def is_rated(self, number: int) -> bool:
        """Whether the ball of that number (1-based) is rated, or fed in between."""
        return (number - 1) % self.every == 0

    def is_tough(self, number: int) -> bool:
        """Whether the ball of that number is planned tough."""
        return bool(self.tough) and self.tough[(number - 1) % len(self.tough)]

    def spot(self, number: int) -> int:
        """The spot of the ball of that number."""
        return self.spots[(number - 1) % len(self.spots)] if self.spots else 0

    def choice(self, drill: Drill) -> FeedChoice:
        """What was chosen to make these feeds."""
        rated = len(self.tough) // self.every
        tough = (sum(self.tough), rated) if rated else (drill.tough, drill.balls)
        return FeedChoice(self.kind or drill.order, *tough, self.every, self.speak)

    def begun_at(self, number: int) -> Feeds:
        """The same feeds for a round whose first ball is the one of that number here."""
        return replace(
            self, spots=_turned(self.spots, number - 1), tough=_turned(self.tough, number - 1)
        )

    def with_other_spot(self, number: int, count: int) -> tuple[Feeds, int | None]:
        """The feeds with that ball sent to another of `count` spots.

        It changes places with the next later ball that has that spot, so that each spot keeps its
        count. Where no such ball is left it takes the spot for itself. A ball fed in between goes
        along.
        """
        cycle = self.spots or (0,) * self.every
        spots = list(cycle * -(-(number + self.every - 1) // len(cycle)))
        index, here = number - 1, self.spot(number)
        wanted = (here + 1) % count
        later = range(index + self.every, len(spots), self.every)
        other = next((place for place in later if spots[place] == wanted), None)
        if other is not None:
            spots[other : other + self.every] = [here] * self.every
        spots[index : index + self.every] = [wanted] * self.every
        return replace(self, spots=tuple(spots)), None if other is None else other + 1


def _turned(items: tuple[T, ...], by: int) -> tuple[T, ...]:
    start = by % len(items) if items else 0
    return items[start:] + items[:start]


EVERY_BALL = Feeds()
"""One spot, nothing planned: a round as a sheet has it."""


def rated_balls(
    drill: Drill, purpose: Purpose, every: int = 1, plan_balls: int | None = None
) -> int:
    """Balls to rate in a round: all of a round to be compared, else its share of the balls fed.

    As many as the day's plan gives it (`plan_balls`), else its drill and purpose.
    """
    planned = plan_balls or planned_balls(purpose, drill.balls)
    return planned if purpose.measured else -(-planned // every)


def draw_feeds(
    drill: Drill, purpose: Purpose, choice: FeedChoice, seed: int, plan_balls: int | None = None
) -> Feeds:
    """The feeds of one round; the same seed gives the same."""
    rated = rated_balls(drill, purpose, choice.every, plan_balls)
    between = choice.every - 1
    spots = feed_order(drill, seed, choice.order, rated)
    tough: Sequence[bool] = ()
    if purpose.plans_tough:
        tough = tough_plan(rated, choice.tough_in(rated), seed) or ()
    return Feeds(
        choice.order,
        tuple(spot for spot in spots for _ in range(choice.every)),
        tuple(flag for ball in tough for flag in (ball, *(False,) * between)),
        choice.every,
        choice.speak,
        seed,
    )


def feed_order(
    drill: Drill, seed: int, order: Order | None = None, balls: int | None = None
) -> tuple[int, ...]:
    """Spot numbers (0-based) for the balls of one round; the same seed gives the same order.

    The drill card's own order and number of balls, where nothing else is given.
    """
    order, balls, spots = order or drill.order, balls or drill.balls, len(drill.spots)
    each, extra = divmod(balls, spots)
    counts = [each + (spot < extra) for spot in range(spots)]
    if order is Order.BLOCKED or spots == 1:
        return tuple(spot for spot, count in enumerate(counts) for _ in range(count))
    if order is Order.SERIAL:
        return tuple(ball % spots for ball in range(balls))
    return _shuffled(balls, spots, drill.balls, seed)


def _shuffled(balls: int, spots: int, at_once: int, seed: int) -> tuple[int, ...]:
    """Each spot its share, drawn at most `at_once` balls at a time and in parts of one size.

    What a draw costs grows steeply with its balls. A part begins with another spot than the one
    before it ended with, so that no run grows over the seam.
    """
    parts = -(-balls // at_once)
    order: tuple[int, ...] = ()
    for begin, end in pairwise(balls * part // parts for part in range(parts + 1)):
        serial = [ball % spots for ball in range(begin, end)]
        counts = {spot: serial.count(spot) for spot in range(spots)}
        for go in range(MOST_DRAWS):
            drawn = shuffled_feeds(counts, usual_max_run(spots), seed + begin + go * balls)
            if drawn is None or drawn[:1] != order[-1:]:
                break
        order += drawn or tuple(serial)
    return order
