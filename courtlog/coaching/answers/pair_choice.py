"""Which ball of the first yardstick and which of the last are shown side by side.

The rule is fixed and looks at no picture, so that it neither flatters nor darkens. Each day's seen
balls are sorted by grade, then by time. The one in the middle (of two the lower) says which grade
is shown. If it is not on film, or not of the kind shown of both days, its nearest of that grade is.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from courtlog.coaching.game.grades import Grade


class FedKind(NamedTuple):
    """What two balls of a pair have in common; in the order of drills and spots."""

    rung: int
    drill: str
    spot: int
    spot_words: str
    tough: bool


@dataclass(frozen=True, slots=True)
class Candidate:
    """A ball on which the cue was seen, of the balls that the verdict counts."""

    ball_id: int
    kind: FedKind
    grade: Grade
    on_film: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PairSide:
    """The ball of one day, and how it was chosen."""

    ball: Candidate
    of: int
    """How many balls of that day the cue was seen on."""
    is_middle: bool
    """Whether it is the day's middle ball; else it is the nearest of its grade."""
    by_hand: bool = False
    """Whether somebody chose it."""


@dataclass(frozen=True, slots=True)
class PairChoice:
    """Two balls of one kind."""

    then: PairSide
    now: PairSide


def choose_pair(
    then: Sequence[Candidate],
    now: Sequence[Candidate],
    then_id: int | None = None,
    now_id: int | None = None,
) -> PairChoice | None:
    """The pair among each day's balls, given in their order of time; None where there is none.

    Of several kinds it is the one with most balls on the day that has fewer of it. Ties go to the
    most on both days, then to the first in the order of drills. With ids that somebody chose, the
    kind is that of those balls; None too where the other day has no ball to go with it.
    """
    counts = [Counter(ball.kind for ball in side) for side in (then, now)]
    shared = sorted(
        counts[0].keys() & counts[1].keys(),
        key=lambda kind: (
            -min(count[kind] for count in counts),
            -sum(count[kind] for count in counts),
            kind,
        ),
    )
    for kind in shared:
        sides = [_side(balls, kind, chosen) for balls, chosen in ((then, then_id), (now, now_id))]
        if sides[0] is not None and sides[1] is not None:
            return PairChoice(sides[0], sides[1])
    return None


def in_grade_order(balls: Iterable[Candidate]) -> list[Candidate]:
    """The balls from missed to made; of one grade they stay in their order of time."""
    return sorted(balls, key=lambda ball: ball.grade)


def _side(balls: Sequence[Candidate], kind: FedKind, chosen: int | None) -> PairSide | None:
    order = in_grade_order(balls)
    middle = (len(order) - 1) // 2
    usable = {place: ball for place, ball in enumerate(order) if ball.on_film and ball.kind == kind}
    if chosen is not None:
        named = next((ball for ball in usable.values() if ball.ball_id == chosen), None)
        if named is None:
            return None
        return PairSide(ball=named, of=len(order), is_middle=False, by_hand=True)
    of_grade = [place for place, ball in usable.items() if ball.grade is order[middle].grade]
    if not of_grade:
        return None
    nearest = min(of_grade, key=lambda place: (abs(place - middle), place))
    return PairSide(ball=order[nearest], of=len(order), is_middle=nearest == middle)
