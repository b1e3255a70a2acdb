"""The rung call: Wald's sequential test on each cue, and the watch for slipping after it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from courtlog.coaching.answers.ball_history import Doubt, History
from courtlog.coaching.game.grades import Grade
from courtlog.measures.common.enough import Level, Question, level
from courtlog.measures.learning.mastery import Decision, MasteryTest
from courtlog.measures.learning.slip import SlipWatch

TEST = MasteryTest()

UPS_IN_A_ROW = 2
"""Times in a row the test must say "up" on a rung before a player moves up."""

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


def rung_call(history: History, drill: str, cues: Sequence[str]) -> RungCall | None:
    """The call after these balls, for the drill on court; a new rung starts a new test."""
    stay = on_this_rung(history, drill)
    calls = [
        replace(call, doubt=history.doubts.get(cue))
        for cue in cues
        if (call := cue_call(stay, cue)) is not None
    ]
    if not calls:
        return None
    decision = min((call.decision for call in calls), key=_WEAKEST_FIRST.index)
    return RungCall(decision, tuple(calls))


def on_this_rung(history: History, drill: str) -> History:
    """The balls since the player last came to this drill from another one of the stroke."""
    start = len(history.balls)
    while start and history.balls[start - 1].kind.drill == drill:
        start -= 1
    return replace(history, balls=history.balls[start:])


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
                    slipping=_slipping(balls[end:], fresh),
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


def _slipping(since: Sequence[bool], fresh: int) -> bool:
    """Whether the alarm rings in the last round; `fresh` are its balls. Earlier ones were told."""
    watch = SlipWatch()
    for left, ball in zip(range(len(since), 0, -1), since, strict=True):
        watch = watch.after(ball)
        if watch.alarm and left > fresh:
            watch = watch.acknowledged()
    return watch.alarm and level(Question.SLIP, len(since)) is not Level.REFUSE


def _made_or_not(history: History, cue: str) -> list[bool]:
    """Seen balls of a cue in order: made, or not (a near is not)."""
    grades = (ball.grades.get(cue) for ball in history.balls)
    return [grade is Grade.MADE for grade in grades if grade is not None]
