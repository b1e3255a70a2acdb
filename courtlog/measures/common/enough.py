"""How many balls an answer needs, and the words it may then be given in.

The only table of minimums and the only place where an interval becomes a verdict. A half-width of
0.33 at 5 balls, 0.26 at 10 and 0.20 at 20 (Wilson interval at one half) is what stands behind it.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum, StrEnum
from typing import Literal, Protocol

from courtlog.measures.common.arguments import finite


class Level(Enum):
    """What the counts can bear: nothing, little, or a statement with its interval."""

    REFUSE = "refuse"
    WEAK = "weak"
    NORMAL = "normal"


class Question(Enum):
    """What is asked of the balls; MINIMUMS says which counts each one needs."""

    RATE = "one rate with its interval"
    YARDSTICK = "balls without help against the first yardstick"
    TWO_ROUNDS = "difference of two rounds"
    LIKE_FOR_LIKE = "difference over the shared kinds of ball"
    TREND = "trend over days"
    SKILL_CURVE = "skill curve"
    ADVICE = "easier or harder"
    SLIP = "slip alarm"
    OVERNIGHT = "overnight hold"
    TOGETHER = "two cues that go with a third"
    RATERS = "agreement of two raters"
    MONOTONY = "monotony of a week"
    NEIGHBOURS = "how far neighbouring balls are tied together"
    PRACTISED = "a drill that goes with a change"


@dataclass(frozen=True, slots=True)
class Minimum:
    """One count a question needs: below `refuse` no answer, below `weak` little of one."""

    of: str
    refuse: float
    weak: float


MINIMUMS: dict[Question, tuple[Minimum, ...]] = {
    Question.RATE: (Minimum("seen balls", 5, 10),),
    Question.YARDSTICK: (
        Minimum("later balls on the yardstick's drill", 16, 16),
        Minimum("balls of the first yardstick", 16, 16),
        Minimum("share of all balls that is shared", 0.5, 0.5),
    ),
    Question.TWO_ROUNDS: (
        Minimum("balls in the later round", 8, 20),
        Minimum("balls in the earlier round", 8, 20),
    ),
    Question.LIKE_FOR_LIKE: (
        Minimum("shared balls on the later day", 10, 30),
        Minimum("shared balls on the earlier day", 10, 30),
        Minimum("share of all balls that is shared", 0.5, 0.5),
    ),
    Question.TREND: (Minimum("days", 3, 3), Minimum("balls of a kind of two days", 30, 60)),
    Question.SKILL_CURVE: (Minimum("seen balls", 20, 20),),
    Question.ADVICE: (Minimum("seen balls", 20, 20),),
    Question.SLIP: (Minimum("balls since mastery", 10, 10),),
    Question.OVERNIGHT: (Minimum("morning balls", 8, 20), Minimum("evening balls", 8, 20)),
    Question.TOGETHER: (Minimum("balls on which one of three cues was the odd one out", 30, 30),),
    Question.RATERS: (Minimum("balls rated twice", 20, 50),),
    Question.MONOTONY: (Minimum("logged days of the seven", 5, 7),),
    Question.NEIGHBOURS: (Minimum("seen balls", 100, 100),),
    Question.PRACTISED: (
        Minimum("players who practised it", 8, 20),
        Minimum("players who did not", 8, 20),
    ),
}
"""The table. Where `refuse` and `weak` are the same, the interval alone decides what is said.

A mastery decision has no row: its own rule decides.
"""


def level(question: Question, *counts: float) -> Level:
    """What these counts bear, in the order of MINIMUMS[question]; the weakest count decides."""
    needed = MINIMUMS[question]
    if len(counts) != len(needed):
        sizes = ", ".join(minimum.of for minimum in needed)
        raise ValueError(f"'{question.value}' needs {len(needed)} counts: {sizes}.")
    pairs = list(zip((_not_negative(c) for c in counts), needed, strict=True))
    if any(count < minimum.refuse for count, minimum in pairs):
        return Level.REFUSE
    if any(count < minimum.weak for count, minimum in pairs):
        return Level.WEAK
    return Level.NORMAL


def _not_negative(count: float) -> float:
    if finite(count, "A count") < 0:
        raise ValueError(f"A count cannot be negative, and this one is {count!r}.")
    return count


class Words(StrEnum):
    """The verdicts, as JSON has them; pages say them in the words of `coaching.voice`."""

    NOTHING_ALIKE = "nothing to compare"
    NOT_LIKE = "evening with coaching, morning without"
    TOO_FEW = "too few balls to tell"
    CLEARLY_UP = "clearly up"
    CLEARLY_DOWN = "clearly down"
    COULD_BE_EITHER = "could be either"
    WORTH_A_LOOK = "worth a look"


@dataclass(frozen=True, slots=True)
class Verdict:
    """What the balls can bear, and the direction (1 up, -1 down) where they show one."""

    words: Words
    direction: Literal[-1, 0, 1] = 0

    def __str__(self) -> str:
        if self.words is not Words.WORTH_A_LOOK:
            return str(self.words)
        return f"{self.words}: {'up' if self.direction > 0 else 'down'}"


class Ranged(Protocol):
    """Any result with an interval whose zero means no change."""

    @property
    def low(self) -> float: ...
    @property
    def high(self) -> float: ...


class Tested(Protocol):
    """Any result with a slope, where only a p-value says how sure it is."""

    @property
    def slope(self) -> float: ...
    @property
    def p(self) -> float: ...
    @property
    def p_exact(self) -> float | None: ...


TOO_WIDE = 0.6
"""An interval wider than this, and still on both sides of zero, says nothing at all.

Twenty balls each time at middling shares give a width of 0.55 to 0.58, which the table calls
enough. Ten against twenty give 0.65 and more.
"""

PLAN_NEXT = 40
"""Balls of a yardstick that find a rise from 35 to 70% 9 times in 10; 20 balls 6 times in 10."""

CONFIDENCE, DOUBT = 0.95, 0.05
"""How sure the one comparison chosen beforehand is: its interval, and the p-value it is below."""

LOOK_CONFIDENCE, LOOK_DOUBT = 0.98, 0.02
"""How sure any other is: a week looks every day, and on one of them luck would do."""


def verdict(result: Ranged | None, level: Level, *, planned: bool = True) -> Verdict:
    """The words for a difference; None is that of balls that have no kind in common.

    `planned` is False for every comparison that was not chosen beforehand; it is at most worth a
    look. Three cues, six players and four days give about four "clear" changes by luck alone.
    """
    if result is None:
        return Verdict(Words.NOTHING_ALIKE)
    if level is Level.REFUSE:
        return Verdict(Words.TOO_FEW)
    direction = _side(result.low, result.high)
    if direction == 0 and result.high - result.low > TOO_WIDE:
        return Verdict(Words.TOO_FEW)
    return _worded(direction, level, planned)


def trend_verdict(result: Tested | None, level: Level, *, planned: bool = True) -> Verdict:
    """The words for a trend over days, by its exact p-value where there is one."""
    if result is None or level is Level.REFUSE:
        return Verdict(Words.TOO_FEW)
    p = result.p if result.p_exact is None else result.p_exact
    return verdict_by_p(result.slope, p, level, planned=planned)


def verdict_by_p(value: float, p: float, level: Level, *, planned: bool = True) -> Verdict:
    """The words where only a p-value says how sure a value is, such as a graded comparison."""
    if level is Level.REFUSE:
        return Verdict(Words.TOO_FEW)
    doubt = DOUBT if planned else LOOK_DOUBT
    return _worded(_side(value, value) if p < doubt else 0, level, planned)


def _side(low: float, high: float) -> Literal[-1, 0, 1]:
    if low > 0:
        return 1
    return -1 if high < 0 else 0


def _worded(direction: Literal[-1, 0, 1], level: Level, planned: bool) -> Verdict:
    if direction == 0:
        return Verdict(Words.COULD_BE_EITHER)
    if not planned or level is Level.WEAK:
        return Verdict(Words.WORTH_A_LOOK, direction)
    return Verdict(Words.CLEARLY_UP if direction > 0 else Words.CLEARLY_DOWN, direction)
