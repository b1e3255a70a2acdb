"""The cue that two others go with, beyond what an easy ball or a kind eye for all three gives.

An easy ball makes every cue and a kind eye grades every cue up, so that all pairs go together. Of
balls with equally many cues made, both leave open which cues those were. None of this tells which
cue leads: only stroke order, or an experiment, can.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import reduce
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from courtlog.measures.common.arguments import grades_of
from courtlog.measures.common.enough import DOUBT, Level, Question, level

Counts = NDArray[np.int64]

MADE = 2
COMPARED = 3
"""Cues looked at together: with two, an easy ball cannot be told from a cue that leads."""


@dataclass(frozen=True, slots=True)
class CueBall:
    """Grades of one ball by cue (0, 1, 2, None), and its kind: drill, day and all that it shares.

    Within a kind each cue is taken to be as hard on every ball, but for what all cues share.
    """

    grades: Mapping[str, int | None]
    kind: Hashable = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Keystone:
    """A cue, two others, and how seldom it was the odd one out: made alone, or missed alone."""

    cue: str
    """The cue that the others may go with."""
    others: tuple[str, ...]
    """The two others."""
    balls: int
    """Balls with all three seen."""
    one_odd: int
    """Balls on which one of the three was the odd one out."""
    odd: int
    """Balls on which this cue was."""
    odd_by_ease: float
    """On how many it would be if only a ball's ease tied them, the same for all three."""
    p: float
    """Chance of as few by luck then, times the number of cues it was picked from; at most 1."""

    @property
    def clear(self) -> bool:
        """Whether the others go with it more than with each other, and luck hardly gives that."""
        return level(Question.TOGETHER, self.one_odd) is not Level.REFUSE and self.p < DOUBT


def keystone(balls: Sequence[CueBall], cues: Sequence[str]) -> Keystone | None:
    """The cue of any three that is the odd one out most clearly too seldom; None below three cues.

    Within a kind of ball, cues made and balls by number of cues made are held as they are. Every
    way to share out the rest is then equally likely if ease alone ties the cues, whatever it is.
    Sources: Rasch G 1960, Probabilistic Models for Some Intelligence and Attainment Tests; Tjur T
    1982, Scand J Stat 9:23-30. Picked from several cues, so p is Bonferroni's.
    """
    if len(set(cues)) != len(cues):
        raise ValueError("Each cue may be named once in the order of the stroke.")
    candidates = [
        each for three in combinations(cues, COMPARED) for each in _of_three(balls, three)
    ]
    if not candidates:
        return None
    best = min(candidates, key=lambda each: each.p)
    return replace(best, p=min(best.p * len(candidates), 1.0))


def _of_three(balls: Sequence[CueBall], three: Sequence[str]) -> Iterator[Keystone]:
    """Each of three cues beside the two others."""
    seen, kinds = _odd_balls(balls, three)
    one_odd = sum(int(kind.sum()) for kind in kinds)
    if not one_odd:
        return
    chances = [_chances(*kind) for kind in kinds]
    for row, cue in enumerate(three):
        made_alone, missed_alone = (sum(int(kind[side, row]) for kind in kinds) for side in (0, 1))
        balls_made_alone = reduce(np.convolve, [of_kind[row] for of_kind in chances])
        mean = float(balls_made_alone @ np.arange(len(balls_made_alone)))
        yield Keystone(
            cue=cue,
            others=tuple(other for other in three if other != cue),
            balls=seen,
            one_odd=one_odd,
            odd=made_alone + missed_alone,
            odd_by_ease=2 * mean - (made_alone - missed_alone),
            p=float(balls_made_alone[: made_alone + 1].sum()),
        )


def _odd_balls(balls: Sequence[CueBall], three: Sequence[str]) -> tuple[int, list[Counts]]:
    """Balls with all three seen; by kind (made alone or missed alone, cue) on how many it was."""
    seen = 0
    kinds: dict[Hashable, Counts] = {}
    for ball in balls:
        grades = grades_of([ball.grades.get(cue) for cue in three])
        if None in grades:
            continue
        seen += 1
        made = [grade == MADE for grade in grades]
        if 0 < sum(made) < COMPARED:
            alone = sum(made) == 1
            counts = kinds.setdefault(ball.kind, np.zeros((2, COMPARED), dtype=np.int64))
            counts[0 if alone else 1, made.index(alone)] += 1
    return seen, list(kinds.values())


def _chances(made_alone: Counts, missed_alone: Counts) -> NDArray[np.float64]:
    """(cue, number): the chance that a cue was made alone on that many balls of one kind.

    What a cue was made alone more often than missed alone stays as it is, as do the balls.
    """
    balls = int(made_alone.sum())
    numbers = np.arange(balls + 1)
    first, second = np.meshgrid(numbers, numbers, indexing="ij")
    alone = np.stack([first, second, balls - first - second])
    missed = alone - (made_alone - missed_alone)[:, None, None]
    possible = (alone >= 0).all(axis=0) & (missed >= 0).all(axis=0)
    alone, missed = alone[:, possible], missed[:, possible]
    most = max(int(alone.max()), int(missed.max()))
    log_factorial = np.concatenate([[0.0], np.cumsum(np.log(np.arange(1, most + 1)))])
    log_ways = -(log_factorial[alone] + log_factorial[missed]).sum(axis=0)
    ways = np.exp(log_ways - log_ways.max())
    ways /= ways.sum()
    return np.stack([np.bincount(of_cue, ways, balls + 1) for of_cue in alone])
