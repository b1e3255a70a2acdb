"""The rung call: Wald's sequential test on each cue, and the watch for slipping after it.

It rests on practice balls of the drill in the whole clinic; uncoached balls are told beside it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from courtlog.coaching.answers.ball_history import Doubt, History
from courtlog.coaching.game.counts import Counts
from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Purpose
from courtlog.measures.common.enough import Level, Question, level
from courtlog.measures.learning.mastery import UPS_IN_A_ROW, Decision, MasteryTest
from courtlog.measures.learning.slip import SlipWatch
from courtlog.measures.shares.neighbours import Neighbours, widened
from courtlog.measures.shares.proportions import newcombe

TEST = MasteryTest()

CONTRADICTS = 10
"""Uncoached balls of a cue, seen on one day, that may stand beside the call."""

SLIP_CONFIDENCE = 0.995
"""How sure the fall must be: the watch looks after every ball, and would find one by luck."""

NONE_SEEN = Counts()

_WEAKEST_FIRST: tuple[Decision, ...] = ("not yet", "undecided", "keep feeding", "up")


@dataclass(frozen=True, slots=True, kw_only=True)
class CueCall:
    """Where one cue stands on this rung, by the running test or the one just decided."""

    cue: str
    """The cue's key."""
    decision: Decision
    """What the test says."""
    made: int
    """Balls made in the test."""
    seen: int
    """Balls seen in the test."""
    makes_to_up: int | None
    """Makes in a row that would end it; None once it has ended."""
    misses_to_not_yet: int | None
    """Misses in a row that would end it; None once it has ended."""
    slipping: bool
    """Whether the alarm after mastery rings."""
    ups: int = 0
    """How often the test has just said "up" in a row, too seldom so far."""
    doubt: Doubt | None = None
    """There when the cue is not seen the same way twice."""
    uncoached: Counts = NONE_SEEN
    """The latest uncoached balls on the drill, which the test leaves out."""

    @property
    def contradicted(self) -> bool:
        """Whether the uncoached balls say the opposite of the decision."""
        share = self.uncoached.share
        if share is None or self.uncoached.seen < CONTRADICTS:
            return False
        if self.decision == "up":
            return share <= TEST.low
        return self.decision == "not yet" and share >= TEST.high


@dataclass(frozen=True, slots=True)
class RungCall:
    """The call for the rung, which is that of its weakest cue."""

    decision: Decision
    cues: tuple[CueCall, ...]

    @property
    def weakest(self) -> CueCall:
        """The cue that decides; of several alike, the one made least."""
        return min(
            self.cues,
            key=lambda call: (
                not call.slipping,
                _WEAKEST_FIRST.index(call.decision),
                call.ups,
                call.made / call.seen if call.seen else 1.0,
            ),
        )

    @property
    def ready(self) -> bool:
        """Whether every cue says up and none is slipping."""
        return self.decision == "up" and not self.slipping

    @property
    def slipping(self) -> tuple[CueCall, ...]:
        """Cues that were mastered and are now missed more."""
        return tuple(call for call in self.cues if call.slipping)

    @property
    def contradicted(self) -> CueCall | None:
        """The cue whose uncoached balls say the opposite of the call, the most opposed one."""
        cues = [self.weakest] if self.decision == "not yet" else self.cues
        against = [call for call in cues if call.contradicted]
        return min(against, key=lambda call: call.uncoached.share or 0.0, default=None)


def rung_call(history: History, drill: str, cues: Sequence[str]) -> RungCall | None:
    """The call after these balls, for the drill on court; None where no cue was practised on it."""
    balls = practice_on(history, drill, cues)
    calls = [
        replace(call, doubt=history.doubts.get(cue), uncoached=_uncoached(history, drill, cue))
        for cue in cues
        if (call := cue_call(balls, cue)) is not None
    ]
    return _call_of(calls) if calls else None


def practice_on(history: History, drill: str, cues: Sequence[str]) -> History:
    """The practice balls on this drill; whoever was ready, went up and came back begins anew."""
    practice = history.of(Purpose.PRACTICE)
    rounds: list[History] = []
    for played in practice.rounds:
        kind = played.balls[0].kind
        if kind.drill == drill:
            rounds.append(played)
        elif rounds and kind.rung > rounds[-1].balls[0].kind.rung and _ready(rounds, cues):
            rounds = []
    return _joined(practice, rounds)


def _joined(history: History, rounds: Sequence[History]) -> History:
    return replace(history, balls=tuple(ball for played in rounds for ball in played.balls))


def _ready(rounds: Sequence[History], cues: Sequence[str]) -> bool:
    played = _joined(rounds[-1], rounds)
    calls = [call for cue in cues if (call := cue_call(played, cue)) is not None]
    return bool(calls) and _call_of(calls).ready


def _call_of(calls: Sequence[CueCall]) -> RungCall:
    decision = min((call.decision for call in calls), key=_WEAKEST_FIRST.index)
    return RungCall(decision, tuple(calls))


def _uncoached(history: History, drill: str, cue: str) -> Counts:
    """The cue's counts on the latest day with uncoached balls of the drill."""
    balls = history.where(
        lambda b: b.purpose.measured and b.kind.drill == drill and cue in b.grades
    )
    return balls.on(balls.days[-1]).counts(cue) if balls.balls else NONE_SEEN


def cue_call(history: History, cue: str) -> CueCall | None:
    """One cue's test over these balls, begun again after each decision.

    Only "up" twice in a row moves up: begun again and again, one "up" comes by luck too often.
    """
    balls = _made_or_not(history, cue)
    if not balls:
        return None
    ups = ups_began = end = 0
    decision: Decision = "keep feeding"
    while end < len(balls):
        began = end
        decision, length = TEST.follow(balls[began:])
        end = began + length
        if decision == "up":
            ups_began = ups_began if ups else began
            ups += 1
            if ups == UPS_IN_A_ROW:
                fresh = len(_made_or_not(history.rounds[-1], cue))
                return CueCall(
                    cue=cue,
                    decision="up",
                    made=sum(balls[ups_began:end]),
                    seen=end - ups_began,
                    makes_to_up=None,
                    misses_to_not_yet=None,
                    slipping=_slipping(balls, end, fresh, history.ties.get(cue)),
                )
            began = end
        elif decision != "keep feeding":
            ups = 0
    if decision == "up":
        decision = "keep feeding"  # the next test has begun, with no ball yet
    made, seen = sum(balls[began:]), len(balls) - began
    going = decision == "keep feeding"
    return CueCall(
        cue=cue,
        decision=decision,
        made=made,
        seen=seen,
        makes_to_up=_in_a_row(made, seen, 1) if going else None,
        misses_to_not_yet=_in_a_row(made, seen, 0) if going else None,
        slipping=False,
        ups=ups,
    )


def _in_a_row(made: int, seen: int, each: int) -> int:
    """The makes (1) or misses (0) in a row that would end the test."""
    row = 0
    while TEST.decide(made, seen) == "keep feeding":
        made, seen, row = made + each, seen + 1, row + 1
    return row


def _slipping(balls: Sequence[bool], mastered: int, fresh: int, tie: Neighbours | None) -> bool:
    """Whether the alarm rings in the last round; `fresh` are its balls. Earlier ones were told.

    Misses alone would ring in the end, as a player can be ready by luck. So the balls since the
    watch last stood at zero must also be made less often than all before.
    """
    watch, since = SlipWatch(), mastered
    for place, made in enumerate(balls[mastered:], mastered):
        watch = watch.after(made)
        if watch.alarm and len(balls) - place > fresh:
            watch = watch.acknowledged()
        if not watch.total:
            since = place + 1
    if not watch.alarm or level(Question.SLIP, len(balls) - mastered) is Level.REFUSE:
        return False
    late, before = balls[since:], balls[:since]
    sure = widened(SLIP_CONFIDENCE, tie)
    fall = newcombe(sum(late), len(late), sum(before), len(before), sure)
    return fall is not None and fall.high < 0


def _made_or_not(history: History, cue: str) -> list[bool]:
    """Seen balls of a cue in order: made, or not (a near is not)."""
    grades = (ball.grades.get(cue) for ball in history.balls)
    return [grade is Grade.MADE for grade in grades if grade is not None]
