"""Two sets of balls compared on the kinds they share, with what the counts can bear."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from courtlog.coaching.answers.ball_history import BallKind, Doubt, History
from courtlog.coaching.game.rounds import Purpose
from courtlog.measures.common.enough import (
    MINIMUMS,
    Level,
    Question,
    Verdict,
    Words,
    level,
    verdict,
)
from courtlog.measures.shares.strata import (
    LikeForLike,
    Standardised,
    Stratum,
    like_for_like,
    on_the_early_mix,
)
from courtlog.measures.shares.strata_tests import UNEQUAL, same_in_all

MOSTLY_ALIKE = MINIMUMS[Question.LIKE_FOR_LIKE][2].refuse
"""The least share of balls that must be of a kind seen both times."""

YARDSTICK_SEEN = int(MINIMUMS[Question.YARDSTICK][0].refuse)
"""Balls to be seen each time before two yardsticks are compared."""

Kinds = Mapping[BallKind, tuple[int, int]]
"""Made and seen balls by kind of ball."""


@dataclass(frozen=True, slots=True)
class Side:
    """Made and seen balls of the shared kinds on one side, and when that was."""

    label: str
    made: int
    seen: int

    def words(self) -> str:
        """`14 of 20 today`."""
        return f"{self.made} of {self.seen} {self.label}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """Later against earlier on shared kinds, and the verdict the balls can bear."""

    late: Side
    """The later side."""
    early: Side
    """The earlier side."""
    result: LikeForLike | None
    """The difference with its interval; None where no kind is shared."""
    early_mix: Standardised | None
    """Both shares on the earlier side's mix of balls."""
    level: Level
    """What the counts can bear."""
    verdict: Verdict
    """The words for a coach."""
    needed: int
    """Balls that had to be seen each time where they are too few for the yardstick; else 0."""
    over_time: bool = True
    """False where both sides are of the same days (tough balls against usual ones)."""
    unequal_by: str = ""
    """By what the change is not the same: "drill" or "kind of ball"; empty where none shows."""
    doubt: Doubt | None = None
    """There when the cue is not seen the same way twice."""

    @property
    def bears_statement(self) -> bool:
        """Whether the balls bear a statement with its interval."""
        return self.result is not None and self.verdict.words is not Words.TOO_FEW


def compare(
    late: Kinds,
    early: Kinds,
    labels: tuple[str, str],
    planned: bool = False,
    question: Question | None = None,
) -> Comparison:
    """Later against earlier; `planned` only for what was chosen beforehand (the yardstick).

    Without a question, balls of mostly one kind are asked as two rounds, others as like for like.
    """
    strata = [
        Stratum(*late.get(kind, (0, 0)), *early.get(kind, (0, 0)))
        for kind in dict.fromkeys([*early, *late])
    ]
    both = [s for s in strata if s.seen_late and s.seen_early]
    sides = (
        Side(labels[0], sum(s.made_late for s in both), sum(s.seen_late for s in both)),
        Side(labels[1], sum(s.made_early for s in both), sum(s.seen_early for s in both)),
    )
    result = like_for_like(strata)
    if question is None:
        alike = len(both) == 1 and result is not None and result.share_used >= MOSTLY_ALIKE
        question = Question.TWO_ROUNDS if alike else Question.LIKE_FOR_LIKE
    counts: list[float] = [sides[0].seen, sides[1].seen]
    if len(MINIMUMS[question]) == 3:
        counts.append(result.share_used if result else 0.0)
    bears = level(question, *counts)
    return Comparison(
        late=sides[0],
        early=sides[1],
        result=result,
        early_mix=on_the_early_mix(strata),
        level=bears,
        verdict=verdict(result, bears, planned=planned),
        needed=_needed(question, counts),
        unequal_by=_unequal_by(late, early, strata),
    )


def compare_cue(
    late: History, early: History, cue: str, labels: tuple[str, str], planned: bool = False
) -> Comparison:
    """The same for one cue of two histories."""
    comparison = compare(late.by_kind(cue), early.by_kind(cue), labels, planned)
    return replace(comparison, doubt=late.doubts.get(cue))


def against_yardstick(
    late: History, purpose: Purpose, start: History, cue: str, labels: tuple[str, str]
) -> Comparison:
    """Later rounds of an uncoached purpose against the first yardstick.

    Only the yardstick played again was chosen beforehand; rounds of other purposes have no say. A
    yardstick plans no tough ball, so a mark set in one afterwards must not pick its balls.
    """
    again = purpose is Purpose.YARDSTICK
    kinds = late.of(purpose).by_kind(cue)
    comparison = compare(
        _tough_ignored(kinds) if again else kinds,
        _tough_ignored(start.by_kind(cue)),
        labels,
        again,
        Question.YARDSTICK,
    )
    return replace(comparison, doubt=late.doubts.get(cue))


def tough_against_usual(history: History, cue: str) -> Comparison:
    """Tough balls against usual ones of the same drills."""
    comparison = compare(
        _tough_ignored(history.tough(True).by_kind(cue)),
        _tough_ignored(history.tough(False).by_kind(cue)),
        ("on tough balls", "on usual ones"),
    )
    return replace(comparison, over_time=False, doubt=history.doubts.get(cue))


def _tough_ignored(kinds: Kinds) -> Kinds:
    """The counts with every ball a usual one."""
    usual: dict[BallKind, tuple[int, int]] = {}
    for kind, (made, seen) in kinds.items():
        before = usual.get(kind._replace(tough=False), (0, 0))
        usual[kind._replace(tough=False)] = before[0] + made, before[1] + seen
    return usual


def _unequal_by(late: Kinds, early: Kinds, strata: Sequence[Stratum]) -> str:
    """What the change differs by, where the test over kinds says that it does."""
    same = same_in_all(strata)
    if same is None or same.p >= UNEQUAL:
        return ""
    both = late.keys() & early.keys()
    return "drill" if len({kind.drill for kind in both}) == len(both) else "kind of ball"


def _needed(question: Question, counts: list[float]) -> int:
    if question is not Question.YARDSTICK or min(counts[:2]) >= YARDSTICK_SEEN:
        return 0
    return YARDSTICK_SEEN
