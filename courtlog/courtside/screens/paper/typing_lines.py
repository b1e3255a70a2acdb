"""What the screen of a sheet shows: the rows side by side as on the paper, and what they add up to.

The block with the row in hand is shown, so that it is always seen.
"""

from __future__ import annotations

from collections.abc import Sequence

from courtlog.coaching.game.grades import LOOKS
from courtlog.coaching.paper.ball_rows import BallRows, SheetRow
from courtlog.coaching.paper.filled_sheet import FilledSheet
from courtlog.courtside.screens.paper.typing_keys import TypingKeys
from courtlog.courtside.surface.lettering import Line, fit, fit_short
from courtlog.plain_text import many

EACH = 10
"""Rows below each other, as on the paper."""

WIDE = 76
"""Cells from which two runs of rows stand side by side."""

NUMBER, TOUGH = 5, 6
MOST_BOX = 12
TOUGH_WORD = "tough"
IN_HAND = "►"

FOOT = (
    "Enter next row, done at the end   arrows mend   - not seen   Space rest made",
    "t tough   Backspace take back   Tab digits   Esc pain, note, a row more, leave",
)


def row_lines(rows: BallRows, cues: Sequence[str], width: int, height: int) -> list[Line]:
    """The block of rows with the row in hand, in so many lines at most, each with its style."""
    runs = 2 if width >= WIDE else 1
    each = min(max(height, 1), EACH)
    block = runs * each
    shown = min(rows.row, max(len(rows.rows) - 1, 0))
    first = shown // block * block
    run = width // runs
    lines = []
    for line in range(each):
        numbers = [first + line + each * side for side in range(runs)]
        text = "".join(fit(_row(rows, number, len(cues), run), run) for number in numbers)
        lines.append((text.rstrip(), "bold" if rows.row in numbers else ""))
    return lines


def head_line(cues: Sequence[str], width: int) -> str:
    """The names of the cues over their boxes, once for each run of rows."""
    runs = 2 if width >= WIDE else 1
    run = width // runs
    box = _box_width(len(cues), run)
    names = "".join(fit(fit_short(name, box - 1), box) for name in cues)
    return (fit(" " * NUMBER + names + TOUGH_WORD, run) * runs).rstrip()


def keys_line(keys: TypingKeys, width: int) -> str:
    """The keys of each cue, under its name."""
    runs = 2 if width >= WIDE else 1
    run = width // runs
    box = _box_width(keys.cues, run)
    each = "".join(fit(keys.keys_of(row), box) for row in range(keys.cues))
    return (fit(" " * NUMBER + each + "t", run) * runs).rstrip()


def count_line(sheet: FilledSheet, cues: Sequence[str], width: int) -> str:
    """The running count to hold against the paper: `7 balls   spacing 5 made   finish 4 made`."""
    parts = [many(len(sheet.rows.balls), "ball")]
    room = max((width - 12) // len(cues) - 10, 4)
    for name, counts in zip(cues, sheet.counts(), strict=True):
        parts.append(f"{fit_short(name, room)} {counts.made} {LOOKS[2].word}")  # type: ignore[index]
    return fit_short("   ".join(parts), width)


def rows_word(rows: BallRows, width: int, height: int) -> str:
    """`rows 21-40 of 40`, where not all of them are seen at once."""
    block = min(max(height, 1), EACH) * (2 if width >= WIDE else 1)
    if len(rows.rows) <= block:
        return ""
    first = min(rows.row, max(len(rows.rows) - 1, 0)) // block * block
    return f"rows {first + 1}-{min(first + block, len(rows.rows))} of {len(rows.rows)}"


def _row(rows: BallRows, index: int, cues: int, run: int) -> str:
    """`► 7 [2]  1   -   tough`: the box in hand in brackets."""
    if index >= len(rows.rows):
        return ""
    row, in_hand = rows.rows[index], index == rows.row
    box = _box_width(cues, run)
    boxes = "".join(
        fit(_box(row, place, in_hand and place == rows.box), box) for place in range(cues)
    )
    mark = IN_HAND if in_hand else " "
    return f"{mark}{index + 1:>3} {boxes}{TOUGH_WORD if row.ball.tough else ''}"


def _box(row: SheetRow, place: int, in_hand: bool) -> str:
    grade = row.ball.grades[place]
    written = LOOKS[grade].digit if row.is_ball else " "
    if grade is None and row.is_ball and not row.done and not row.dash:
        written = " "  # still to come
    return f"[{written}]" if in_hand else f" {written}"


def _box_width(cues: int, run: int) -> int:
    return max(min((run - NUMBER - TOUGH) // cues, MOST_BOX), 3)
