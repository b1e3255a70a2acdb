"""What a key means while a sheet is typed in: the coach's own pad, or the digits on the paper."""

from __future__ import annotations

from dataclasses import dataclass, replace

from courtlog.coaching.game.grades import DIGITS, Grade
from courtlog.coaching.on_court.feeding import MarkClip, ToughLast
from courtlog.coaching.paper.ball_rows import MOST_ROWS, MarkNext, Move, RowKey, TakeBack, ToEnd
from courtlog.courtside.desk.keymap import FEEDING, Pad, meaning_of

NOT_SEEN = "-"
"""The dash of a sheet: this box, or the whole row, was not seen."""

_MOVES: dict[str, RowKey] = {
    "backspace": TakeBack(),
    "up": Move(rows=-1),
    "down": Move(rows=1),
    "left": Move(boxes=-1),
    "right": Move(boxes=1),
    "pageup": Move(rows=-10),
    "pagedown": Move(rows=10),
    "home": Move(rows=-MOST_ROWS),
    "end": ToEnd(),
}


@dataclass(frozen=True, slots=True)
class TypingKeys:
    """The pad in use for a sheet of so many cues, and whether digits mean what is on the paper."""

    pad: Pad
    cues: int
    by_digits: bool = False

    @property
    def digits_are_free(self) -> bool:
        """Whether the digits mean the same beside the pad, since none of them is a key of it."""
        return not any(str(int(grade)) in self._taken for grade in Grade)

    @property
    def reads_digits(self) -> bool:
        """Whether a digit is written into the box in hand."""
        return self.by_digits or self.digits_are_free

    def switched(self) -> TypingKeys:
        """The other way to type."""
        return replace(self, by_digits=not self.by_digits)

    def meaning(self, name: str) -> RowKey | None:
        """What a key does to the rows; None for nothing."""
        if name in _MOVES:
            return _MOVES[name]
        if self.by_digits:
            if name in DIGITS:
                return MarkNext(DIGITS[name])
            of_court = FEEDING.get(name)
        else:
            of_court = meaning_of(self.pad, self.cues, name)
            if of_court is None and name in DIGITS and (name == NOT_SEEN or self.reads_digits):
                return MarkNext(DIGITS[name])
        return None if isinstance(of_court, MarkClip | ToughLast) else of_court

    def keys_of(self, row: int) -> str:
        """The three keys of a cue as they stand over its boxes, missed to made."""
        if self.by_digits:
            return " ".join(str(int(grade)) for grade in Grade)
        return " ".join(self.pad.key_of(row, grade) for grade in Grade)

    @property
    def _taken(self) -> frozenset[str]:
        rating = {key for row in self.pad.rows[: self.cues] for key in row}
        return frozenset({*rating, *self.pad.clean, *self.pad.tough, *self.pad.clicker})
