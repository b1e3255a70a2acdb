"""One ball and the purpose of a round: the values that everything else counts."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from courtlog.coaching.game.counts import Counts
from courtlog.coaching.game.grades import DIGITS, LOOKS, Grade


class Purpose(StrEnum):
    """Why a round is played; only practice is coached."""

    CHOOSING = "choosing"
    YARDSTICK = "yardstick"
    PRACTICE = "practice"
    HOLD = "hold"
    TRANSFER = "transfer"

    @property
    def coached(self) -> bool:
        """Whether the coach speaks."""
        return self is Purpose.PRACTICE

    @property
    def measured(self) -> bool:
        """Whether the round is to be compared: the screen gives no phrase and no running share."""
        return self in (Purpose.YARDSTICK, Purpose.HOLD, Purpose.TRANSFER)

    @property
    def plans_tough(self) -> bool:
        """Whether tough balls are planned; what is held against the yardstick has usual ones."""
        return self in (Purpose.PRACTICE, Purpose.TRANSFER)

    @property
    def leaves_tough_out(self) -> bool:
        """Whether a mark of a tough ball says nothing: set afterwards, it must not pick balls."""
        return self.measured and not self.plans_tough

    @property
    def meaning(self) -> str:
        """What the round is for, in the coach's words."""
        return _PURPOSES[self]


_PURPOSES = {
    Purpose.CHOOSING: "pick the cues",
    Purpose.YARDSTICK: "day one and last day",
    Purpose.PRACTICE: "the coach speaks",
    Purpose.HOLD: "what stays overnight",
    Purpose.TRANSFER: "one rung up, or live",
}

_TOKEN = re.compile(r"(?P<grades>\.|[-012]+)(?P<tough>!?)")


@dataclass(frozen=True, slots=True)
class Ball:
    """One hit: a grade (or None, not seen) for each cue of its round, in cue order.

    `clip` is the moment of a clip mark, in milliseconds UTC since 1970.
    """

    grades: tuple[Grade | None, ...]
    tough: bool = False
    clip: int | None = None

    @classmethod
    def unseen(cls, cues: int, tough: bool = False) -> Ball:
        """A ball on which nothing has been seen yet."""
        return cls((None,) * cues, tough)

    @property
    def complete(self) -> bool:
        """Whether every cue has a grade."""
        return all(grade is not None for grade in self.grades)

    def with_grade(self, row: int, grade: Grade | None) -> Ball:
        """The same ball with this grade on the cue of that row (0-based)."""
        grades = (*self.grades[:row], grade, *self.grades[row + 1 :])
        return replace(self, grades=grades)

    def with_rest(self, grade: Grade) -> Ball:
        """The same ball with this grade on every cue that has none."""
        return replace(self, grades=tuple(grade if g is None else g for g in self.grades))

    def with_fault(self, row: int) -> Ball:
        """The same ball, the cue of that row (0-based) missed unless it has a grade."""
        return self if self.grades[row] is not None else self.with_grade(row, Grade.MISSED)

    def token(self) -> str:
        """The ball as a sheet writes it: `222`, `2-0!`, or `.` when no cue was seen."""
        seen = any(grade is not None for grade in self.grades)
        digits = "".join(LOOKS[grade].digit for grade in self.grades) if seen else "."
        return digits + "!" * self.tough

    @classmethod
    def from_token(cls, token: str, cues: int) -> Ball:
        """The ball of a sheet's token. Raises ValueError with one sentence."""
        match = _TOKEN.fullmatch(token)
        if match is None:
            raise ValueError(
                f"{token!r} is no ball: digits 0 1 2, - for not seen, . for a ball not seen,"
                " ! for tough"
            )
        digits = match["grades"]
        if digits == ".":
            digits = "-" * cues
        if len(digits) != cues:
            held = f"{len(digits)} grade{'' if len(digits) == 1 else 's'}"
            raise ValueError(f"{token!r} has {held}, but the round has {cues} cues")
        return cls(tuple(DIGITS[digit] for digit in digits), bool(match["tough"]))


def cue_counts(balls: Sequence[Ball], row: int) -> Counts:
    """Counts of one cue (0-based row) over these balls."""
    return Counts.of([ball.grades[row] for ball in balls])
