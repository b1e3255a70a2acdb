"""The test for moving up a rung: Wald's sequential test, and how often it is right.

Counts are of seen balls on one rung, a near counting as not made. Assumes a share that stays the
same inside the test; where the skill curve rises steeply, prefer the curve.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import ceil, floor, log
from typing import Literal

from courtlog.measures.common.arguments import inside, made_of_seen, whole, within

Decision = Literal["up", "not yet", "keep feeding", "undecided"]

ROUNDING = 1e-9

UPS_IN_A_ROW = 2
"""Times in a row the test must say "up" on a rung before a player moves up.

Begun again after each decision, one "up" comes to four of ten who make half of 60 balls.
"""


@dataclass(frozen=True, slots=True)
class TestLines:
    """The two lines of the test: up at `above + slope * seen` makes, not yet at `-below + ...`.

    `per_made`, `per_miss`, `upper` and `lower` are the same in log-likelihood.
    """

    per_made: float
    per_miss: float
    upper: float
    lower: float
    slope: float
    above: float
    below: float


@dataclass(frozen=True, slots=True)
class CardRow:
    """After this many balls: how many made move up, and how few mean not yet (None: neither)."""

    balls: int
    up: int | None
    not_yet: int | None


@dataclass(frozen=True, slots=True)
class Operating:
    """What the test does with a player of a given true share: chances, and balls on average."""

    up: float
    not_yet: float
    undecided: float
    mean_balls: float


@dataclass(frozen=True, slots=True)
class MasteryTest:
    """Sequential test of "at most `low`" against "at least `high`" made.

    `alpha` is the accepted chance of moving up wrongly, `beta` of holding back wrongly; after `cap`
    balls it stops undecided. Source: Wald A 1945, Ann Math Stat 16:117-186; Sequential Analysis
    1947 (from memory).
    """

    low: float = 0.5
    high: float = 0.8
    alpha: float = 0.1
    beta: float = 0.1
    cap: int = 30

    def __post_init__(self) -> None:
        if inside(self.low, "low") >= inside(self.high, "high"):
            raise ValueError(f"low ({self.low}) must be below high ({self.high}).")
        if inside(self.alpha, "alpha") + inside(self.beta, "beta") >= 1:
            raise ValueError("alpha and beta together must stay below 1.")
        whole(self.cap, "cap", 1)

    @property
    def lines(self) -> TestLines:
        """The lines of the test, from the four shares."""
        per_made = log(self.high / self.low)
        per_miss = log((1 - self.high) / (1 - self.low))
        upper, lower = log((1 - self.beta) / self.alpha), log(self.beta / (1 - self.alpha))
        both = per_made - per_miss
        return TestLines(
            per_made, per_miss, upper, lower, -per_miss / both, upper / both, -lower / both
        )

    def decide(self, made: int, seen: int) -> Decision:
        """What the counts say now; the first decision of a run of balls is the one that stands."""
        made, seen = made_of_seen(made, seen)
        row = self._row(seen, self.lines)
        if row.up is not None and made >= row.up:
            return "up"
        if row.not_yet is not None and made <= row.not_yet:
            return "not yet"
        return "keep feeding" if seen < self.cap else "undecided"

    def follow(self, balls: Iterable[bool]) -> tuple[Decision, int]:
        """The first decision over these balls in order (made or not), and after how many."""
        made = seen = 0
        for ball in balls:
            made, seen = made + bool(ball), seen + 1
            decision = self.decide(made, seen)
            if decision != "keep feeding":
                return decision, seen
        return "keep feeding", seen

    def card(self) -> tuple[CardRow, ...]:
        """The test as a card to print, one row a ball from 1 to the cap."""
        lines = self.lines
        return tuple(self._row(balls, lines) for balls in range(1, self.cap + 1))

    def operating(self, p: float) -> Operating:
        """Exact chances and mean length for a true share p, by recursion on the makes."""
        p = within(p, "p", 0, 1)
        up = not_yet = balls = 0.0
        going = {0: 1.0}
        for row in self.card():
            balls += sum(going.values())
            after: dict[int, float] = {}
            for made, chance in going.items():
                after[made] = after.get(made, 0.0) + chance * (1 - p)
                after[made + 1] = after.get(made + 1, 0.0) + chance * p
            going = {}
            for made, chance in after.items():
                if row.up is not None and made >= row.up:
                    up += chance
                elif row.not_yet is not None and made <= row.not_yet:
                    not_yet += chance
                else:
                    going[made] = chance
        return Operating(up, not_yet, sum(going.values()), balls)

    def ready_by(self, p: float, balls: int, in_a_row: int = UPS_IN_A_ROW) -> tuple[float, ...]:
        """Exact chance, after each ball, that the test has said "up" so often in a row.

        The test begins again after every decision; `p` is the true share. By recursion on ups, seen
        and made balls.
        """
        p = within(p, "p", 0, 1)
        balls, in_a_row = whole(balls, "balls"), whole(in_a_row, "in_a_row", 1)
        going, ready, by_ball = {(0, 0, 0): 1.0}, 0.0, list[float]()
        for _ in range(balls):
            after: dict[tuple[int, int, int], float] = {}
            for (ups, seen, made), chance in going.items():
                for one, share in ((1, p), (0, 1 - p)):
                    state = self._after(ups, seen + 1, made + one)
                    if state[0] == in_a_row:
                        ready += chance * share
                    else:
                        after[state] = after.get(state, 0.0) + chance * share
            going = after
            by_ball.append(ready)
        return tuple(by_ball)

    def _after(self, ups: int, seen: int, made: int) -> tuple[int, int, int]:
        """Ups in a row, and the counts of the running test, which a decision begins again."""
        match self.decide(made, seen):
            case "keep feeding":
                return ups, seen, made
            case "up":
                return ups + 1, 0, 0
            case _:
                return 0, 0, 0

    def _row(self, balls: int, lines: TestLines) -> CardRow:
        up = ceil(lines.above + lines.slope * balls - ROUNDING)
        not_yet = floor(lines.slope * balls - lines.below + ROUNDING)
        return CardRow(balls, up if up <= balls else None, not_yet if not_yet >= 0 else None)
