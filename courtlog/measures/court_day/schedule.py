"""Who hits what, when and with whom: feed orders, turns, pairs, and when to speak.

Offers an order and never forbids another. Every drawn order comes from a seed, so that the book can
keep the seed and show the same order again.
"""

from __future__ import annotations

import random
from bisect import bisect_right
from collections.abc import Collection, Hashable, Mapping, Sequence
from dataclasses import dataclass
from itertools import accumulate
from math import comb, floor
from statistics import median
from typing import TypeVar

from courtlog.measures.common.arguments import grades_of, whole, within

Feed = TypeVar("Feed", bound=Hashable)

MOST_BALLS = 500
"""No basket holds more; the bound also keeps the recursion shallow."""

NEARS_BEFORE_SPEAKING = 3


def usual_max_run(feeds: int) -> int:
    """The longest run of one feed that still counts as mixed: 3 for two feeds, 2 for more."""
    return 3 if whole(feeds, "feeds") <= 2 else 2


def orders_count(counts: Mapping[Feed, int], max_run: int | None = None) -> int:
    """The number of orders with exactly these counts per feed and no run longer than `max_run`.

    Only the check that orders are drawn evenly asks for it.
    """
    left, run = _checked(counts, max_run)
    ways = _Ways(run)
    return sum(ways.opened_by(place, length, left) for place, length in _openings(left, run))


def shuffled_feeds(
    counts: Mapping[Feed, int], max_run: int | None, seed: int
) -> tuple[Feed, ...] | None:
    """One order drawn uniformly from all that orders_count counts; None when there is none.

    Drawn run by run. Each next run is chosen with the share of all finished orders it leads to, in
    exact whole numbers, so that no order is favoured. The same seed gives the same order.
    """
    left, run = _checked(counts, max_run)
    ways, draw = _Ways(run), random.Random(seed)
    feeds, order, last = list(counts), [], -1
    while any(left):
        choices = [opening for opening in _openings(left, run) if opening[0] != last]
        sums = list(accumulate(ways.opened_by(place, length, left) for place, length in choices))
        if not sums or not sums[-1]:
            return None
        last, length = choices[bisect_right(sums, draw.randrange(sums[-1]))]
        order += [feeds[last]] * length
        left[last] -= length
    return tuple(order)


def _checked(counts: Mapping[Feed, int], max_run: int | None) -> tuple[list[int], int]:
    left = [whole(count, "A count of balls") for count in counts.values()]
    if not 0 < sum(left) <= MOST_BALLS:
        raise ValueError(f"An order needs 1 to {MOST_BALLS} balls, not {sum(left)}.")
    if max_run is None:
        return left, usual_max_run(len(left)) if len(left) > 1 else sum(left)
    return left, whole(max_run, "max_run", 1)


def _openings(left: Sequence[int], run: int) -> list[tuple[int, int]]:
    """Every (feed, length of its run) that an order of these counts may open with."""
    return [
        (place, length)
        for place, count in enumerate(left)
        for length in range(1, min(run, count) + 1)
    ]


class _Ways:
    """Counts the ways to finish an order. Feeds are alike, so a state is the balls left of the feed
    whose run just ended and the sorted balls left of the others."""

    def __init__(self, run: int) -> None:
        self._run = run
        self._known: dict[tuple[int, tuple[int, ...]], int] = {}

    def opened_by(self, place: int, length: int, left: Sequence[int]) -> int:
        """Ways to finish after a run of `length` balls of the feed at `place`."""
        others = sorted((*left[:place], *left[place + 1 :]))
        return self._finish(left[place] - length, tuple(others))

    def _finish(self, resting: int, others: tuple[int, ...]) -> int:
        if not any(others):
            return 0 if resting else 1
        state = (resting, others)
        if state not in self._known:
            ways = 0
            for place, count in enumerate(others):
                left = tuple(sorted((*others[:place], *others[place + 1 :], resting)))
                for length in range(1, min(self._run, count) + 1):
                    ways += self._finish(count - length, left)
            self._known[state] = ways
        return self._known[state]


def tough_plans_count(balls: int, tough: int) -> int:
    """The number of plans with this many tough balls, none of them first and no two in a row.

    Each tough ball stands behind a usual one of its own, so the plans are the choices of `tough`
    out of balls - tough places.
    """
    balls, tough = whole(balls, "balls", 1), whole(tough, "tough")
    return comb(balls - tough, tough) if 2 * tough <= balls else 0


def tough_plan(balls: int, tough: int, seed: int) -> tuple[bool, ...] | None:
    """Which balls of a round are tough: one plan drawn uniformly from all that are counted above.

    None when there is none (more than half of the balls). The same seed gives the same plan. The
    draw is apart from that of the feeds, so that tough balls do not go with a spot.
    """
    if not tough_plans_count(balls, tough):
        return None
    chosen = set(random.Random(f"tough {seed}").sample(range(balls - tough), tough))
    plan: list[bool] = []
    for place in range(balls - tough):
        plan += [False, True] if place in chosen else [False]
    return tuple(plan)


def williams(n: int) -> tuple[tuple[int, ...], ...]:
    """Orders of n drills (1..n) in which each follows each other one equally often.

    n rows for an even n, each ordered pair adjacent once; 2n rows for an odd n, each pair twice.
    Source: Williams EJ 1949, Aust J Sci Res A 2:149-168.
    """
    n = whole(n, "n", 2)
    first = [0]
    for step in range(1, n):
        first.append((step + 1) // 2 if step % 2 else n - step // 2)
    rows = [tuple((item + row) % n + 1 for item in first) for row in range(n)]
    return tuple(rows if n % 2 == 0 else rows + [row[::-1] for row in rows])


def pairs(n: int) -> tuple[tuple[tuple[int, int | None], ...], ...]:
    """Rounds in which each of n players (1..n) meets each other one once; None is a bye.

    The circle method: player 1 stays, the others move round.
    """
    n = whole(n, "n", 2)
    bye = n + 1
    ring = list(range(1, n + 1 + n % 2))
    half, rounds = len(ring) // 2, []
    for _ in ring[1:]:
        met = list(zip(ring[:half], reversed(ring[half:]), strict=True))
        if n % 2:
            met = [(b, a) if a == bye else (a, b) for a, b in met]
        rounds.append(tuple((a, None if b == bye else b) for a, b in met))
        ring = [ring[0], ring[-1], *ring[1:-1]]
    return tuple(rounds)


@dataclass(frozen=True, slots=True)
class Turn:
    """One finished turn at the feed: who, and how many balls were seen."""

    player: str
    balls: int


def balls_so_far(
    turns: Sequence[Turn], present: Collection[str], head_start: Mapping[str, float] | None = None
) -> dict[str, float]:
    """Balls of each player present, head starts of late comers included."""
    sums = {name: (head_start or {}).get(name, 0) for name in present}
    for turn in turns:
        if turn.player in sums:
            sums[turn.player] += whole(turn.balls, "balls")
    return sums


def late_start(
    turns: Sequence[Turn], present: Collection[str], head_start: Mapping[str, float] | None = None
) -> float:
    """The head start of a late comer: the median balls of those present, or they hit alone."""
    sums = balls_so_far(turns, present, head_start)
    return median(sums.values()) if sums else 0


def queue(
    turns: Sequence[Turn],
    present: Collection[str],
    head_start: Mapping[str, float] | None = None,
    order: Sequence[str] = (),
) -> tuple[str, ...]:
    """Who hits next, and after that, turns oldest first.

    Fewest balls, then longest since a turn, then the place in `order`, then by name. Who has just
    hit comes last, so that nobody hits twice in a row while someone else waits.
    """
    sums = balls_so_far(turns, present, head_start)
    last_turn = {turn.player: place for place, turn in enumerate(turns)}
    places = {name: place for place, name in enumerate(order)}
    just_hit = turns[-1].player if turns else None

    def turn_of(name: str) -> tuple[bool, float, int, int, str]:
        wait = last_turn.get(name, -1)
        return name == just_hit, sums[name], wait, places.get(name, len(places)), name

    return tuple(sorted(present, key=turn_of))


@dataclass(frozen=True, slots=True)
class BallSpread:
    """Balls of each player present, most minus fewest, and whether that is over one turn."""

    balls: dict[str, float]
    spread: float
    unfair: bool


def ball_spread(
    turns: Sequence[Turn], present: Collection[str], head_start: Mapping[str, float] | None = None
) -> BallSpread:
    """How evenly the balls went round; a spread beyond the largest turn so far is unfair."""
    sums = balls_so_far(turns, present, head_start)
    spread = max(sums.values(), default=0) - min(sums.values(), default=0)
    return BallSpread(sums, spread, spread > max((turn.balls for turn in turns), default=0))


def speak_now(
    ball: int, balls: int, start: float = 1.0, end: float = 0.25, blocks: int = 4
) -> bool:
    """Whether to speak on this ball (1..balls) when feedback fades from `start` to `end`.

    The share spoken on falls in even steps over `blocks` equal blocks, by default 100, 75, 50 and
    25 %. As many blocks as balls is a straight line. Says yes whenever the summed shares pass a
    whole number, so the count is right and nothing is drawn. After Winstein and Schmidt 1990, J Exp
    Psychol LMC 16:677-691 (from memory).
    """
    balls, blocks = whole(balls, "balls", 1), whole(blocks, "blocks", 1)
    if whole(ball, "ball", 1) > balls:
        raise ValueError(f"ball ({ball}) cannot be beyond the last one ({balls}).")
    start, end = within(start, "start", 0, 1), within(end, "end", 0, 1)
    step = (end - start) / max(blocks - 1, 1)
    before = sum(start + step * ((k - 1) * blocks // balls) for k in range(1, ball))
    now = before + start + step * ((ball - 1) * blocks // balls)
    return floor(now + 1e-9) > floor(before + 1e-9)


def speak_outside_band(grades: Sequence[int | None]) -> bool:
    """Whether to speak after the last of these balls: on a miss, or on the third near in a row."""
    seen = [grade for grade in grades_of(grades) if grade is not None]
    if not seen or grades[-1] is None:
        return False
    nears = seen[-NEARS_BEFORE_SPEAKING:]
    return seen[-1] == 0 or nears == [1] * NEARS_BEFORE_SPEAKING
