"""The live feeding state: a key's meaning goes in, a new state and its step come out.

The state is a value that never changes. A step says what one key changed on one ball; taking it
back gives the state before it. The book stores steps; the screen shows states. A key is one step,
or two where every second ball is rated: the ball fed in between is taken with the rated one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Ball
from courtlog.coaching.on_court.feed_order import EVERY_BALL, Feeds


@dataclass(frozen=True, slots=True)
class Rate:
    """Give a cue (0-based row) a grade on the open ball."""

    row: int
    grade: Grade


@dataclass(frozen=True, slots=True)
class CleanBall:
    """Give all cues still open a made, and take the ball."""


@dataclass(frozen=True, slots=True)
class Fault:
    """Give the cue of that row (0-based) a missed, and take the ball; no other cue was seen.

    A grade given before stays, that of the row too.
    """

    row: int


@dataclass(frozen=True, slots=True)
class TakeBall:
    """Take the ball as it is; cues without a grade were not seen."""


@dataclass(frozen=True, slots=True)
class ToughOpen:
    """Mark the open ball as tough, or take the mark away."""


@dataclass(frozen=True, slots=True)
class ToughLast:
    """Mark the last taken ball as tough, or take the mark away."""


@dataclass(frozen=True, slots=True)
class MarkClip:
    """Put the time of day (milliseconds UTC) on the ball in hand."""

    at_ms: int


Meaning = Rate | CleanBall | Fault | TakeBall | ToughOpen | ToughLast | MarkClip


@dataclass(frozen=True, slots=True)
class Step:
    """What one key did to the ball of that number (1-based): before and after, open or taken."""

    number: int
    before: Ball
    after: Ball
    was_open: bool
    is_open: bool

    @property
    def took(self) -> bool:
        """Whether the key took the ball."""
        return self.was_open and not self.is_open

    def reversed(self) -> Step:
        """The step that leads back."""
        return Step(self.number, self.after, self.before, self.is_open, self.was_open)


@dataclass(frozen=True, slots=True)
class Feeding:
    """A round while it is fed: balls taken, the open ball, the steps that led here, the feeds."""

    cues: int
    taken: tuple[Ball, ...]
    open: Ball
    steps: tuple[Step, ...] = ()
    feeds: Feeds = EVERY_BALL

    @classmethod
    def fresh(cls, cues: int, feeds: Feeds = EVERY_BALL) -> Feeding:
        """A round before its first ball."""
        return cls(cues, (), Ball.unseen(cues, feeds.is_tough(1)), (), feeds)

    @property
    def number(self) -> int:
        """The open ball's number in the round (1-based)."""
        return len(self.taken) + 1

    @property
    def touched(self) -> bool:
        """Whether a key has changed the open ball from what was planned for it."""
        return self.open != self._as_planned(self.number)

    @property
    def last(self) -> int:
        """The number of the last taken ball that is rated; 0 before the first."""
        return next((n for n in range(len(self.taken), 0, -1) if self.feeds.is_rated(n)), 0)

    @property
    def rated(self) -> tuple[Ball, ...]:
        """The taken balls that are rated, those fed in between left out."""
        return self.taken[:: self.feeds.every]

    @property
    def in_hand(self) -> tuple[int, Ball]:
        """The ball a note or clip mark belongs to: the open one once touched, else the last."""
        if self.touched or not self.last:
            return self.number, self.open
        return self.last, self.taken[self.last - 1]

    def ball(self, number: int) -> Ball:
        """The ball of that number, the open one included."""
        return self.open if number == self.number else self.taken[number - 1]

    def _as_planned(self, number: int) -> Ball:
        return Ball.unseen(self.cues, self.feeds.is_tough(number))


def press_key(state: Feeding, meaning: Meaning) -> tuple[Feeding, tuple[Step, ...]]:
    """The state after a key, and its steps: the ball fed in between is taken as not seen."""
    state, step = press(state, meaning)
    if step is None:
        return state, ()
    if not step.took or state.feeds.is_rated(state.number):
        return state, (step,)
    state, between = press(state, TakeBall())
    assert between is not None
    return state, (step, between)


def take_back_key(state: Feeding) -> tuple[Feeding, tuple[Step, ...]]:
    """The state before the last key, and its steps, the last one first."""
    state, step = take_back(state)
    if step is None:
        return state, ()
    if not step.took or state.feeds.is_rated(step.number):
        return state, (step,)
    state, rated = take_back(state)
    assert rated is not None
    return state, (step, rated)


def press(state: Feeding, meaning: Meaning) -> tuple[Feeding, Step | None]:
    """The state after a key, and its step; no step when the key changes nothing.

    Raises ValueError for a row that the round does not have.
    """
    step = _step(state, meaning)
    if step is None or (step.before == step.after and not step.took):
        return state, None
    after = _apply(state, step)
    return replace(after, steps=(*state.steps, step)), step


def with_steps(state: Feeding, steps: Sequence[Step]) -> Feeding:
    """The state with the steps that can be taken back from it one after the other, latest last.

    Balls that were moved or put right since may leave earlier steps that cannot be taken back.
    """
    before, kept = state, len(steps)
    while kept and _led_to(before, steps[kept - 1]):
        kept -= 1
        before = _apply(before, steps[kept].reversed())
    return replace(state, steps=tuple(steps[kept:]))


def take_back(state: Feeding) -> tuple[Feeding, Step | None]:
    """The state before the last step, and that step; no step when none is left."""
    if not state.steps:
        return state, None
    step = state.steps[-1]
    before = _apply(state, step.reversed())
    return replace(before, steps=state.steps[:-1]), step


def _step(state: Feeding, meaning: Meaning) -> Step | None:
    match meaning:
        case Rate(row, grade):
            ball = state.open.with_grade(_row_of(state, row), grade)
            return _on_open(state, ball, taken=ball.complete)
        case CleanBall():
            return _on_open(state, state.open.with_rest(Grade.MADE), taken=True)
        case Fault(row):
            return _on_open(state, state.open.with_fault(_row_of(state, row)), taken=True)
        case TakeBall():
            return _on_open(state, state.open, taken=True)
        case ToughOpen():
            return _on_open(state, replace(state.open, tough=not state.open.tough))
        case ToughLast():
            if not state.last:
                return None
            last = state.taken[state.last - 1]
            return Step(state.last, last, replace(last, tough=not last.tough), False, False)
        case MarkClip(at):
            number, ball = state.in_hand
            is_open = number == state.number
            return Step(number, ball, replace(ball, clip=at), is_open, is_open)


def _row_of(state: Feeding, row: int) -> int:
    """The row. Raises ValueError where the round has no such row."""
    if not 0 <= row < state.cues:
        raise ValueError(f"this round has {state.cues} cues, not {row + 1}")
    return row


def _led_to(state: Feeding, step: Step) -> bool:
    """Whether the step can have been the last one before this state."""
    if step.is_open:
        return step.number == state.number and step.after == state.open
    if not 1 <= step.number <= len(state.taken) or step.after != state.taken[step.number - 1]:
        return False
    seen = state.open.clip is not None or any(grade is not None for grade in state.open.grades)
    return not step.took or (step.number == len(state.taken) and not seen)


def _on_open(state: Feeding, ball: Ball, taken: bool = False) -> Step:
    return Step(state.number, state.open, ball, True, not taken)


def _apply(state: Feeding, step: Step) -> Feeding:
    """Put the step's ball where it belongs: open, taken, or back from taken to open."""
    if step.is_open:
        return replace(state, taken=state.taken[: step.number - 1], open=step.after)
    taken = (*state.taken[: step.number - 1], step.after, *state.taken[step.number :])
    after = replace(state, taken=taken)
    return replace(after, open=after._as_planned(after.number)) if step.was_open else after
