"""How often balls will call a true change clear: what a plan can promise before they are played."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import accumulate
from math import exp, lgamma, log

from courtlog.measures.common.arguments import inside, whole, within
from courtlog.measures.common.enough import Level, Question, Words, level, verdict
from courtlog.measures.shares.proportions import newcombe


@dataclass(frozen=True, slots=True)
class ClearChance:
    """How often two yardsticks are called clearly up, and clearly down, 0..1."""

    up: float
    down: float


def clear_chance(
    early: float, late: float, seen_early: int, seen_late: int, confidence: float = 0.95
) -> ClearChance:
    """The chances of both words when the true share goes from `early` to `late`.

    The gate is the one of the verdict: the yardstick's minimum of balls, then Newcombe's interval.
    Exact: both binomials are summed over all pairs of counts. Source: Suissa S and Shuster JJ 1985,
    J R Stat Soc A 148:317-327 (from memory). No ball is tied to its neighbour.
    """
    early, late = within(early, "early", 0, 1), within(late, "late", 0, 1)
    seen_early, seen_late = whole(seen_early, "seen_early"), whole(seen_late, "seen_late")
    confidence = inside(confidence, "confidence")
    bears = level(Question.YARDSTICK, seen_late, seen_early, 1.0)
    if bears is Level.REFUSE:
        return ClearChance(0.0, 0.0)
    least = _least_clearly_up(seen_early, seen_late, bears, confidence)
    return ClearChance(
        _up(early, late, seen_late, least),
        _up(1 - early, 1 - late, seen_late, least),  # a fall of makes is a rise of misses
    )


def _least_clearly_up(
    seen_early: int, seen_late: int, bears: Level, confidence: float
) -> list[int]:
    """By made balls of the first time, the fewest of the second called clearly up.

    One more than were seen where none are enough. More made at first never need fewer later.
    """
    least, counts = 0, list[int]()
    for made_early in range(seen_early + 1):
        while least <= seen_late:
            difference = newcombe(least, seen_late, made_early, seen_early, confidence)
            if verdict(difference, bears).words is Words.CLEARLY_UP:
                break
            least += 1
        counts.append(least)
    return counts


def _up(early: float, late: float, seen_late: int, least: list[int]) -> float:
    from_above = accumulate(reversed(_binomial(late, seen_late)), initial=0.0)
    at_least = list(from_above)[::-1]
    chances = zip(_binomial(early, len(least) - 1), least, strict=True)
    return sum(chance * at_least[count] for chance, count in chances)


def _binomial(share: float, balls: int) -> list[float]:
    """The chance of each count of made balls, 0 to all."""
    if share in (0.0, 1.0):
        return [float(made == share * balls) for made in range(balls + 1)]
    ways = lgamma(balls + 1)
    return [
        exp(
            ways
            - lgamma(made + 1)
            - lgamma(balls - made + 1)
            + made * log(share)
            + (balls - made) * log(1 - share)
        )
        for made in range(balls + 1)
    ]
