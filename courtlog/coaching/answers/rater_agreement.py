"""Whether the same balls were rated alike a second time: by another coach, or by the same one."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from courtlog.coaching.answers.ball_history import Doubt
from courtlog.measures.common.enough import Level, Question, level
from courtlog.measures.shares.agreement import (
    Agreement,
    Drift,
    bears_verdicts,
    drift,
    gwet_ac,
    kappa,
    raw_agreement,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class TwiceRatedCue:
    """One cue of one ball, rated twice; a grade of None was not seen."""

    ball_id: int
    """The ball's id in the book."""
    stroke: str
    """The stroke's key."""
    cue: str
    """The cue's key."""
    first: str
    """The coach who rated first."""
    second: str
    """The coach who rated again."""
    sitting: int
    """Which go of the second coach it is, from 1."""
    on: date
    """The date of the first ball of that go."""
    grade: int | None
    """The first grade."""
    again: int | None
    """The second grade."""


@dataclass(frozen=True, slots=True)
class Sitting:
    """One go of the second coach: when, and whether it was stricter or looser than the first."""

    number: int
    on: date
    balls: int
    drift: Drift


@dataclass(frozen=True, slots=True, kw_only=True)
class CueAgreement:
    """A stroke's cue between two ratings; of a ball rated more often the last go counts.

    Measures are None with too few balls, or where all grades are one and the same.
    """

    stroke: str
    """The stroke's key."""
    cue: str
    """The cue's key."""
    first: str
    """The coach who rated first."""
    second: str
    """The coach who rated again."""
    balls: int
    """Balls seen both times."""
    level: Level
    """What that many balls can bear."""
    alike: float | None
    """The share of balls rated alike."""
    weighted: Agreement | None
    """Weighted kappa: a near is half a step."""
    ac2: Agreement | None
    """AC2, weighted the same, for a cue that nearly always has one grade."""
    sittings: tuple[Sitting, ...]
    """Each go of the second coach."""

    @property
    def again(self) -> bool:
        """Whether one coach rated twice."""
        return self.first == self.second

    @property
    def doubt(self) -> Doubt | None:
        """The doubt where the cue is seen too differently to bear a verdict: both are low."""
        if self.weighted is None or self.ac2 is None:
            return None
        if bears_verdicts(self.weighted.value, self.ac2.value):
            return None
        return Doubt(self.weighted.value, self.balls)


def agreements(rated: Iterable[TwiceRatedCue]) -> list[CueAgreement]:
    """The agreement of each stroke, cue and pair of coaches, in the order they come."""
    groups: dict[tuple[str, str, str, str], list[TwiceRatedCue]] = {}
    for twice in rated:
        groups.setdefault((twice.stroke, twice.cue, twice.first, twice.second), []).append(twice)
    return [_agreement(*key, group) for key, group in groups.items()]


def doubts_of(cue_agreements: Iterable[CueAgreement]) -> dict[str, Doubt]:
    """The cues in doubt; where several pairs of coaches rated one, the pair that agrees least."""
    worst: dict[str, Doubt] = {}
    for agreement in cue_agreements:
        doubt = agreement.doubt
        if doubt is not None:
            known = worst.get(agreement.cue, doubt)
            worst[agreement.cue] = min(known, doubt, key=lambda d: d.value)
    return worst


def _agreement(
    stroke: str, cue: str, first: str, second: str, group: Sequence[TwiceRatedCue]
) -> CueAgreement:
    last = {twice.ball_id: twice for twice in sorted(group, key=lambda t: t.sitting)}
    grades, repeated = _seen_by_both(list(last.values()))
    bears = level(Question.RATERS, len(grades))
    enough = bears is not Level.REFUSE
    return CueAgreement(
        stroke=stroke,
        cue=cue,
        first=first,
        second=second,
        balls=len(grades),
        level=bears,
        alike=raw_agreement(grades, repeated),
        weighted=kappa(grades, repeated, "linear") if enough else None,
        ac2=gwet_ac(grades, repeated, "linear") if enough else None,
        sittings=tuple(_sittings(group)),
    )


def _sittings(group: Sequence[TwiceRatedCue]) -> Iterable[Sitting]:
    for number in sorted({twice.sitting for twice in group}):
        go = [twice for twice in group if twice.sitting == number]
        grades, repeated = _seen_by_both(go)
        yield Sitting(number, go[0].on, len(grades), drift(grades, repeated))


def _seen_by_both(group: Sequence[TwiceRatedCue]) -> tuple[list[int], list[int]]:
    both = [(t.grade, t.again) for t in group if t.grade is not None and t.again is not None]
    return [grade for grade, _ in both], [again for _, again in both]
