"""Which cues go together on the same balls, and which one to try first.

An easy ball makes every cue and a hard one breaks every cue, so balls are compared within their
kind. None of these numbers can tell which cue leads: only stroke order, or an experiment, can.
"""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from courtlog.measures.common.arguments import grades_of, whole
from courtlog.measures.common.enough import Level, Question, level, weakest
from courtlog.measures.shares.strata import LikeForLike, Stratum, like_for_like

MADE = 2
SELDOM, OFTEN = 0.20, 0.80
"""A cue made less or more often than this cannot show what follows from it."""
TIE = 0.05
RESAMPLES = 1000


@dataclass(frozen=True, slots=True)
class GoesWith:
    """How much more often the second cue was made when the first was, on balls of one kind.

    `difference` is None where no kind holds both. `balls` had both cues seen. `fewest` is the
    smallest count of made or not made of either cue.
    """

    difference: LikeForLike | None
    balls: int
    fewest: int
    level: Level


@dataclass(frozen=True, slots=True)
class CueBall:
    """Grades of one ball by cue (0, 1, 2, None), its kind, and the basket and day it came from."""

    grades: Mapping[str, int | None]
    kind: Hashable = None
    basket: Hashable = None
    day: Hashable = None


@dataclass(frozen=True, slots=True)
class KeyCue:
    """One cue's keystone score: the mean difference it goes with in the other cues.

    `low` and `high` are the 5th and 95th percentile over resampled baskets, None below six.
    """

    cue: str
    score: float | None
    low: float | None
    high: float | None
    made_share: float | None
    level: Level


@dataclass(frozen=True, slots=True)
class Keystone:
    """Cues from the highest score down; the one to try first, and those it ties with."""

    ranked: tuple[KeyCue, ...]
    suggested: str | None
    tied: tuple[str, ...] = field(default=())


def paired_strata(
    first: Sequence[int | None], second: Sequence[int | None], strata: Sequence[Hashable]
) -> list[Stratum]:
    """Second cue made and seen where the first was made ("late") and where not, by kind of ball."""
    first_grades, second_grades = grades_of(first), grades_of(second)
    if not len(first_grades) == len(second_grades) == len(strata):
        raise ValueError("Both cues and the kinds of ball must be equally long.")
    counts: dict[Hashable, list[int]] = {}
    for a, b, kind in zip(first_grades, second_grades, strata, strict=True):
        if a is not None and b is not None:
            cells = counts.setdefault(kind, [0, 0, 0, 0])
            side = 0 if a == MADE else 2
            cells[side] += b == MADE
            cells[side + 1] += 1
    return [Stratum(*cells) for cells in counts.values()]


def goes_with(
    first: Sequence[int | None], second: Sequence[int | None], strata: Sequence[Hashable]
) -> GoesWith:
    """Two cues ball by ball (grades, None not seen) with each ball's kind.

    Like-for-like with "first cue made" in place of the later day. Says that they go together, and
    never that one brings the other.
    """
    kinds = paired_strata(first, second, strata)
    balls = sum(kind.seen_late + kind.seen_early for kind in kinds)
    first_made = sum(kind.seen_late for kind in kinds)
    second_made = sum(kind.made_late + kind.made_early for kind in kinds)
    fewest = min(first_made, balls - first_made, second_made, balls - second_made)
    bears = level(Question.TOGETHER, balls, fewest)
    return GoesWith(like_for_like(kinds), balls, fewest, bears)


def keystone(
    balls: Sequence[CueBall], cue_order: Sequence[str], seed: int = 1, resamples: int = RESAMPLES
) -> Keystone:
    """Cues ranked by how much the other cues go with them; `cue_order` is the order in the stroke.

    Only a cue made on 20 to 80 % of its balls is suggested. Of cues within 0.05 of the best, or
    with overlapping intervals, it is the earliest in the stroke, since later parts cannot cause
    earlier ones. The interval resamples whole baskets within their day, from a seed.
    """
    if len(set(cue_order)) != len(cue_order):
        raise ValueError("Each cue may be named once in the order of the stroke.")
    whole(resamples, "resamples", 1)
    counts, day_of = _counts_by_basket(balls, cue_order)
    scores = _scores(counts.sum(axis=0)[None])[0]
    low: list[float | None] = [None] * len(cue_order)
    high = low
    if level(Question.KEYSTONE_RANGE, len(day_of)) is not Level.REFUSE:
        drawn = _scores(np.tensordot(_resampled(day_of, seed, resamples), counts, axes=1))
        low, high = _percentiles(drawn)
    cues = [
        KeyCue(
            cue,
            None if np.isnan(scores[place]) else float(scores[place]),
            low[place],
            high[place],
            _made_share(balls, cue),
            _level_of(balls, cue, cue_order),
        )
        for place, cue in enumerate(cue_order)
    ]
    tied = _best(cues)
    ranked = sorted(cues, key=lambda cue: -2.0 if cue.score is None else cue.score, reverse=True)
    return Keystone(tuple(ranked), tied[0] if tied else None, tuple(tied))


def _made_share(balls: Sequence[CueBall], cue: str) -> float | None:
    seen = [ball.grades[cue] for ball in balls if ball.grades.get(cue) is not None]
    return sum(grade == MADE for grade in seen) / len(seen) if seen else None


def _level_of(balls: Sequence[CueBall], cue: str, cue_order: Sequence[str]) -> Level:
    kinds = [ball.kind for ball in balls]
    grades = {name: [ball.grades.get(name) for ball in balls] for name in cue_order}
    others = [goes_with(grades[cue], grades[k], kinds).level for k in cue_order if k != cue]
    return weakest(others) if others else Level.REFUSE


def _best(cues: Sequence[KeyCue]) -> list[str]:
    """The best of the cues that can be suggested and all that tie with it, in stroke order."""
    fit = [
        cue
        for cue in cues
        if cue.score is not None
        and cue.made_share is not None
        and SELDOM <= cue.made_share <= OFTEN
    ]
    if not fit:
        return []
    best = max(fit, key=lambda cue: cue.score or 0.0)
    return [cue.cue for cue in fit if _ties(cue, best)]


def _ties(cue: KeyCue, best: KeyCue) -> bool:
    if (best.score or 0.0) - (cue.score or 0.0) <= TIE:
        return True
    return cue.high is not None and best.low is not None and cue.high >= best.low


def _counts_by_basket(
    balls: Sequence[CueBall], cue_order: Sequence[str]
) -> tuple[NDArray[np.float64], list[Hashable]]:
    """(basket, first cue, second cue, kind, cell) with cells as in Stratum, and baskets' days."""
    baskets = {key: n for n, key in enumerate(dict.fromkeys((b.day, b.basket) for b in balls))}
    kinds = {kind: n for n, kind in enumerate(dict.fromkeys(ball.kind for ball in balls))}
    size = len(cue_order)
    counts = np.zeros((len(baskets), size, size, max(len(kinds), 1), 4))
    for ball in balls:
        grades = grades_of([ball.grades.get(cue) for cue in cue_order])
        here = counts[baskets[ball.day, ball.basket], :, :, kinds[ball.kind]]
        for j, first in enumerate(grades):
            for k, second in enumerate(grades):
                if j != k and first is not None and second is not None:
                    side = 0 if first == MADE else 2
                    here[j, k, side] += second == MADE
                    here[j, k, side + 1] += 1
    return counts, [day for day, _ in baskets]


def _scores(counts: NDArray[np.float64]) -> NDArray[np.float64]:
    """Score of each cue (draw, cue), NaN where none of the others can be compared."""
    x1, n1, x2, n2 = np.moveaxis(counts, -1, 0)
    total = n1 + n2
    part = np.where((n1 > 0) & (n2 > 0), 1.0 / np.where(total > 0, total, 1.0), 0.0)
    weight = (n1 * n2 * part).sum(axis=-1)
    risen = ((n2 * x1 - n1 * x2) * part).sum(axis=-1)
    known = weight > 0
    difference = np.where(known, risen / np.where(known, weight, 1.0), 0.0)
    others = known.sum(axis=-1)
    mean = difference.sum(axis=-1) / np.where(others > 0, others, 1)
    scores: NDArray[np.float64] = np.where(others > 0, mean, np.nan)
    return scores


def _resampled(day_of: Sequence[Hashable], seed: int, resamples: int) -> NDArray[np.float64]:
    """How often each basket was drawn (draw, basket), with replacement within its day."""
    draw = np.random.default_rng(seed)
    times = np.zeros((resamples, len(day_of)))
    for day in dict.fromkeys(day_of):
        here = [place for place, other in enumerate(day_of) if other == day]
        even = [1 / len(here)] * len(here)
        times[:, here] = draw.multinomial(len(here), even, size=resamples)
    return times


def _percentiles(
    drawn: NDArray[np.float64],
) -> tuple[list[float | None], list[float | None]]:
    low: list[float | None] = []
    high: list[float | None] = []
    for column in drawn.T:
        known = column[~np.isnan(column)]
        low.append(float(np.percentile(known, 5)) if len(known) else None)
        high.append(float(np.percentile(known, 95)) if len(known) else None)
    return low, high
