"""Two sets of balls compared on the kinds they share, with what the counts can bear."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from courtlog.coaching.answers.ball_history import BallKind, Doubt, History
from courtlog.measures.common.enough import (
    CONFIDENCE,
    LOOK_CONFIDENCE,
    MINIMUMS,
    Level,
    Question,
    Verdict,
    Words,
    level,
    verdict,
)
from courtlog.measures.shares.neighbours import Neighbours, widened
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
    on: date | None = None
    """The date; None where both sides are of the same days."""

    @property
    def share(self) -> float:
        """Made of seen; 0 without a ball."""
        return self.made / self.seen if self.seen else 0.0

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
    question: Question
    """What was asked of the balls."""
    strata: tuple[Stratum, ...]
    """The counts of each kind of ball, later and earlier."""
    planned: bool = False
    """Whether this comparison was chosen beforehand, and so may be clear."""
    tie: Neighbours | None = None
    """There when neighbouring balls of the cue go alike."""
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

    @property
    def needed(self) -> int:
        """Balls that had to be seen each time where they are too few for the yardstick; else 0."""
        few = min(self.late.seen, self.early.seen) < YARDSTICK_SEEN
        return YARDSTICK_SEEN if few and self.question is Question.YARDSTICK else 0

    @property
    def counts_mislead(self) -> bool:
        """Whether the bare counts go another way than the kinds of ball do one by one."""
        crude = self.late.share - self.early.share
        return crude * self.verdict.direction < 0

    def leaves_zero_at(self, confidence: float) -> bool:
        """Whether the interval of this confidence lies on one side of no change."""
        result = like_for_like(self.strata, widened(confidence, self.tie))
        return result is not None and (result.low > 0 or result.high < 0)


def compare(
    late: Kinds,
    early: Kinds,
    labels: tuple[str, str],
    question: Question | None = None,
    tie: Neighbours | None = None,
    confidence: float = LOOK_CONFIDENCE,
) -> Comparison:
    """Later against earlier, at most worth a look; only `judged` calls a difference clear.

    Without a question, balls of mostly one kind are asked as two rounds, others as like for like.
    Where neighbouring balls go alike (`tie`) the interval is wider.
    """
    strata = tuple(
        Stratum(*late.get(kind, (0, 0)), *early.get(kind, (0, 0)))
        for kind in dict.fromkeys([*early, *late])
    )
    both = [s for s in strata if s.seen_late and s.seen_early]
    sides = (
        Side(labels[0], sum(s.made_late for s in both), sum(s.seen_late for s in both)),
        Side(labels[1], sum(s.made_early for s in both), sum(s.seen_early for s in both)),
    )
    result = like_for_like(strata, widened(confidence, tie))
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
        verdict=verdict(result, bears, planned=False),
        question=question,
        unequal_by=_unequal_by(late, early, strata),
        strata=strata,
        tie=tie,
    )


def compare_cue(late: History, early: History, cue: str, labels: tuple[str, str]) -> Comparison:
    """One cue over the kinds of two cuts of a history, each of one day."""
    days = late.days[-1], early.days[-1]
    return compare_kinds(late, cue, (late.by_kind(cue), early.by_kind(cue)), labels, days)


def compare_kinds(
    history: History,
    cue: str,
    kinds: tuple[Kinds, Kinds],
    labels: tuple[str, str],
    days: tuple[date, date] | None = None,
    question: Question | None = None,
    confidence: float = LOOK_CONFIDENCE,
) -> Comparison:
    """A cue's later and earlier kinds, with what the history knows of it: ties and doubt.

    `days` are the dates of both sides; None where they are the same.
    """
    comparison = compare(*kinds, labels, question, history.ties.get(cue), confidence)
    late, early = days or (None, None)
    return replace(
        comparison,
        late=replace(comparison.late, on=late),
        early=replace(comparison.early, on=early),
        doubt=history.doubts.get(cue),
    )


def judged(comparisons: Mapping[str, Comparison], main: str | None) -> dict[str, Comparison]:
    """The comparisons, by cue, that were chosen beforehand: which of them are clear.

    A main cue is judged first and alone, the others only after it is clear, by Holm's rule. Without
    one, or where too few of its balls were seen, all are judged by Holm's rule. All together err
    no more often than one (Holm S 1979, Scand J Stat 6:65-70).
    """
    left = [cue for cue, one in comparisons.items() if one.level is not Level.REFUSE]
    clear: set[str] = set()
    if main in left:
        left.remove(main)
        if comparisons[main].leaves_zero_at(CONFIDENCE):
            clear.add(main)
        else:
            left = []
    while left:
        sure = 1 - (1 - CONFIDENCE) / len(left)
        more = {cue for cue in left if comparisons[cue].leaves_zero_at(sure)}
        if not more:
            break
        clear |= more
        left = [cue for cue in left if cue not in more]
    return {
        cue: replace(
            one, planned=True, verdict=verdict(one.result, one.level, planned=cue in clear)
        )
        for cue, one in comparisons.items()
    }


def tough_against_usual(history: History, cue: str) -> Comparison:
    """Tough balls against usual ones of the same drills, in rounds where a tough mark counts."""
    history = history.where(lambda ball: not ball.purpose.leaves_tough_out)
    tough, usual = (tough_ignored(history.tough(which).by_kind(cue)) for which in (True, False))
    labels = "on tough balls", "on usual ones"
    return replace(compare_kinds(history, cue, (tough, usual), labels), over_time=False)


def tough_ignored(kinds: Kinds) -> Kinds:
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
