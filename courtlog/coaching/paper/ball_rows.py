"""The numbered rows of a sheet while they are typed in: state and key in, new state out.

A row with any mark is a ball. A row without one was left out: it is no ball, and keeps its number.
No key changes more than the row in hand, but for the two that put a row in or take one out.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Ball
from courtlog.coaching.on_court.feeding import CleanBall, Fault, Rate, TakeBall, ToughOpen

MOST_ROWS = 300
"""Rows of a sheet at most: several times a basket."""

_OPEN, _OPEN_DASH = "?", "?-"
"""Behind a row that was not gone on from; with a dash where one stands in it."""


@dataclass(frozen=True, slots=True)
class MarkNext:
    """Write this into the box in hand and go to the next one; None is a dash, not seen."""

    grade: Grade | None


@dataclass(frozen=True, slots=True)
class Move:
    """Go so many rows down and so many boxes to the right."""

    rows: int = 0
    boxes: int = 0


@dataclass(frozen=True, slots=True)
class ToEnd:
    """Go to the row behind the last ball, where typing goes on: not behind the empty rows."""


@dataclass(frozen=True, slots=True)
class PutRowIn:
    """Put an empty row in before the row in hand: one was passed over."""


@dataclass(frozen=True, slots=True)
class TakeRowOut:
    """Take the row in hand out: it was typed twice, or is none of the sheet's."""


@dataclass(frozen=True, slots=True)
class TakeBack:
    """Go back to where things were before the last key; again, before the one before it."""


_Mark = Rate | CleanBall | Fault | ToughOpen | MarkNext
_RowChange = _Mark | TakeBall | Move | ToEnd | PutRowIn | TakeRowOut
RowKey = _RowChange | TakeBack
"""What a key means here; most are meanings of the court."""


@dataclass(frozen=True, slots=True)
class SheetRow:
    """One numbered row: its ball, whether a dash stands in it, and whether it was gone on from."""

    ball: Ball
    dash: bool = False
    done: bool = False

    @property
    def is_ball(self) -> bool:
        """Whether anything stands in the row."""
        return self.dash or self.ball.tough or any(grade is not None for grade in self.ball.grades)


@dataclass(frozen=True, slots=True)
class BallRows:
    """The rows of a sheet, the row and the box in hand (from 0), and the state before the last key.

    Behind the last row nothing is in hand; a mark there writes one row more.
    """

    cues: int
    rows: tuple[SheetRow, ...]
    row: int = 0
    box: int = 0
    before: BallRows | None = field(default=None, repr=False, compare=False)

    @classmethod
    def empty(cls, cues: int, rows: int) -> BallRows:
        """As many empty rows as the sheet has."""
        return cls(cues, (SheetRow(Ball.unseen(cues)),) * min(rows, MOST_ROWS))

    @classmethod
    def of_tokens(cls, cues: int, tokens: Sequence[str], rows: int) -> BallRows:
        """The rows of `tokens`, gone on to the first one behind them. Raises ValueError."""
        typed = [_row_of_token(token, cues) for token in tokens[:MOST_ROWS]]
        empty = cls.empty(cues, rows).rows[len(typed) :]
        return cls(cues, (*typed, *empty), len(typed))

    def in_hand_at(self, row: int, box: int) -> BallRows:
        """The same rows with this row and box in hand, as far as the sheet has them."""
        row, box = min(max(row, 0), len(self.rows)), min(max(box, 0), self.cues - 1)
        return replace(self, row=row, box=box)

    @property
    def tokens(self) -> tuple[str, ...]:
        """Each row up to the last ball as a sheet writes it; nothing of a row left out.

        Behind a row that is not gone on from stands a mark.
        """
        return tuple(map(_token, self.rows[: self.last]))

    @property
    def last(self) -> int:
        """The number of the last row with a ball, from 1; 0 where there is none."""
        return max((number for number, row in enumerate(self.rows, 1) if row.is_ball), default=0)

    @property
    def balls(self) -> tuple[Ball, ...]:
        """The balls in their order; rows left out are none."""
        return tuple(row.ball for row in self.rows if row.is_ball)

    @property
    def is_behind_all(self) -> bool:
        """Whether the row in hand is empty and so are all after it: Enter there ends the typing."""
        return self.row >= self.last and not self._is_open_ball

    @property
    def _is_open_ball(self) -> bool:
        return self.row < len(self.rows) and self.rows[self.row].is_ball


def press(sheet: BallRows, key: RowKey) -> BallRows:
    """The rows after a key. Raises ValueError for a box that the sheet does not have."""
    if isinstance(key, TakeBack):
        return sheet.before or sheet
    after = _changed(sheet, key)
    return sheet if after == sheet else replace(after, before=sheet)


def _changed(sheet: BallRows, key: _RowChange) -> BallRows:
    match key:
        case Move(down, right):
            place = min(max(sheet.row + down, 0), len(sheet.rows))
            box = min(max(sheet.box + right, 0), sheet.cues - 1)
            return replace(sheet, row=place, box=0 if down else box)
        case ToEnd():
            return replace(sheet, row=sheet.last, box=0)
        case PutRowIn():
            return _with_row_in(sheet)
        case TakeRowOut():
            return _with_row_out(sheet)
        case TakeBall():
            # An empty row is passed over, and stays no ball.
            return _gone_on(sheet) if sheet.row < len(sheet.rows) else sheet
        case _:
            return sheet if sheet.row == MOST_ROWS else _with_mark(sheet, key)


def _with_mark(sheet: BallRows, key: _Mark) -> BallRows:
    sheet = _with_row_in_hand(sheet)
    row = sheet.rows[sheet.row]
    match key:
        case Rate(box, grade):
            return _marked(sheet, _box_of(sheet, box), grade, ends=False)
        case MarkNext(grade):
            return _marked(sheet, sheet.box, grade, ends=sheet.box == sheet.cues - 1)
        case CleanBall():
            return _gone_on(_with(sheet, replace(row, ball=row.ball.with_rest(Grade.MADE))))
        case Fault(box):
            ball = row.ball.with_fault(_box_of(sheet, box))
            return _gone_on(_with(sheet, replace(row, ball=ball)))
        case ToughOpen():
            return _with(sheet, replace(row, ball=replace(row.ball, tough=not row.ball.tough)))


def _marked(sheet: BallRows, box: int, grade: Grade | None, ends: bool) -> BallRows:
    """Write into a box, and go on where that fills the row; a row mended stays in hand."""
    row = sheet.rows[sheet.row]
    row = replace(row, ball=row.ball.with_grade(box, grade), dash=row.dash or grade is None)
    sheet = _with(sheet, row)
    if not row.done and (ends or row.ball.complete):
        return _gone_on(sheet)
    return replace(sheet, box=min(box + 1, sheet.cues - 1))


def _box_of(sheet: BallRows, box: int) -> int:
    if not 0 <= box < sheet.cues:
        raise ValueError(f"this sheet has {sheet.cues} cues, not {box + 1}")
    return box


def _with(sheet: BallRows, row: SheetRow) -> BallRows:
    return replace(sheet, rows=(*sheet.rows[: sheet.row], row, *sheet.rows[sheet.row + 1 :]))


def _with_row_in_hand(sheet: BallRows) -> BallRows:
    """The rows, with one more where the hand is behind the last."""
    if sheet.row < len(sheet.rows):
        return sheet
    return replace(sheet, rows=(*sheet.rows, SheetRow(Ball.unseen(sheet.cues))))


def _gone_on(sheet: BallRows) -> BallRows:
    row = sheet.rows[sheet.row]
    dash = row.is_ball and None in row.ball.grades
    sheet = _with(sheet, replace(row, done=row.is_ball, dash=dash))
    return replace(sheet, row=sheet.row + 1, box=0)


def _with_row_in(sheet: BallRows) -> BallRows:
    """An empty row at the hand; one empty row less at the end, as the paper has no more rows."""
    if len(sheet.rows) == MOST_ROWS and sheet.rows[-1].is_ball:
        return sheet
    rows = (*sheet.rows[: sheet.row], SheetRow(Ball.unseen(sheet.cues)), *sheet.rows[sheet.row :])
    if not rows[-1].is_ball and sheet.row < len(sheet.rows):
        rows = rows[:-1]
    return replace(sheet, rows=rows, box=0)


def _with_row_out(sheet: BallRows) -> BallRows:
    """The rows without the one in hand; an empty one more at the end."""
    if sheet.row >= len(sheet.rows):
        return sheet
    rest = (*sheet.rows[: sheet.row], *sheet.rows[sheet.row + 1 :])
    return replace(sheet, rows=(*rest, SheetRow(Ball.unseen(sheet.cues))), box=0)


def _token(row: SheetRow) -> str:
    if not row.is_ball:
        return ""
    return row.ball.token() + ("" if row.done else _OPEN_DASH if row.dash else _OPEN)


def _row_of_token(token: str, cues: int) -> SheetRow:
    if not token:
        return SheetRow(Ball.unseen(cues))
    for end in (_OPEN_DASH, _OPEN):
        if token.endswith(end):
            ball = Ball.from_token(token.removesuffix(end), cues)
            return SheetRow(ball, dash=end is _OPEN_DASH)
    ball = Ball.from_token(token, cues)
    return SheetRow(ball, dash=None in ball.grades, done=True)
