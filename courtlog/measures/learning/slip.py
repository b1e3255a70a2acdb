"""The watch for slipping: a running sum that climbs on misses, and its rate of false alarms.

No page prints `average_run` and `alarm_chance` yet: they are the check of USUAL_LIMIT.
"""

from __future__ import annotations

from dataclasses import dataclass

from courtlog.measures.common.arguments import inside, whole

PER_MISS, PER_MADE = 2, 1
USUAL_LIMIT = 12
"""One false alarm in about 1,650 balls at 80 % made; a fall to 60 % shows after 41 on average."""


@dataclass(frozen=True, slots=True)
class SlipWatch:
    """An integer CUSUM after mastery: two up on a miss, one down on a make, never below zero.

    Right for a share of misses of 0.20 against 0.49. The alarm stands until `acknowledged`; `balls`
    counts since mastery, as below ten no alarm is worth a word. Sources: Page ES 1954, Biometrika
    41:100-115; Reynolds MR and Stoumbos ZG 1999, J Qual Technol 31:87-108.
    """

    limit: int = USUAL_LIMIT
    total: int = 0
    balls: int = 0

    def __post_init__(self) -> None:
        whole(self.limit, "limit", 1)
        whole(self.total, "total")
        whole(self.balls, "balls")

    @property
    def alarm(self) -> bool:
        """Whether the sum has reached the limit."""
        return self.total >= self.limit

    def after(self, made: bool) -> SlipWatch:
        """The watch after one more seen ball."""
        total = self.total if self.alarm else _moved(self.total, made, PER_MISS, PER_MADE)
        return SlipWatch(self.limit, total, self.balls + 1)

    def acknowledged(self) -> SlipWatch:
        """The watch from zero again, once the coach has seen the alarm."""
        return SlipWatch(self.limit, 0, self.balls)


def average_run(
    p_miss: float,
    limit: int = USUAL_LIMIT,
    per_miss: int = PER_MISS,
    per_made: int = PER_MADE,
) -> float:
    """Balls until the alarm on average, at a true share of misses; exact.

    Source: Brook D and Evans DA 1972, Biometrika 59:539-549 (run lengths as a Markov chain).
    """
    miss, limit = inside(p_miss, "p_miss"), whole(limit, "limit", 1)
    per_miss, per_made = whole(per_miss, "per_miss", 1), whole(per_made, "per_made")
    steps = [[0.0] * limit for _ in range(limit)]
    for total in range(limit):
        steps[total][total] += 1.0
        for made, chance in ((True, 1 - miss), (False, miss)):
            moved = _moved(total, made, per_miss, per_made)
            if moved < limit:
                steps[total][moved] -= chance
    return _solved_for_ones(steps)[0]


def alarm_chance(p_miss: float, balls: int, limit: int = USUAL_LIMIT) -> float:
    """The exact chance of an alarm within this many balls, at a true share of misses."""
    miss, limit = inside(p_miss, "p_miss"), whole(limit, "limit", 1)
    no_alarm = [1.0] + [0.0] * (limit - 1)
    for _ in range(whole(balls, "balls")):
        after = [0.0] * limit
        for total, chance in enumerate(no_alarm):
            for made, share in ((True, 1 - miss), (False, miss)):
                moved = _moved(total, made, PER_MISS, PER_MADE)
                if moved < limit:
                    after[moved] += chance * share
        no_alarm = after
    return 1.0 - sum(no_alarm)


def _moved(total: int, made: bool, per_miss: int, per_made: int) -> int:
    return max(0, total - per_made) if made else total + per_miss


def _solved_for_ones(matrix: list[list[float]]) -> list[float]:
    """x of matrix x = (1, 1, ...); no pivots needed, as no row gives away more than it holds."""
    size = len(matrix)
    rows = [[*row, 1.0] for row in matrix]
    for place in range(size):
        for row in rows[place + 1 :]:
            if row[place]:
                part = row[place] / rows[place][place]
                for column in range(place, size + 1):
                    row[column] -= part * rows[place][column]
    solution = [0.0] * size
    for place in reversed(range(size)):
        known = sum(rows[place][column] * solution[column] for column in range(place + 1, size))
        solution[place] = (rows[place][size] - known) / rows[place][place]
    return solution
