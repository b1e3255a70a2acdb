"""What to hold against the paper once more before a typed sheet is kept."""

from __future__ import annotations

from dataclasses import dataclass

from courtlog.coaching.game.counts import Counts
from courtlog.coaching.paper.filled_sheet import FilledSheet


@dataclass(frozen=True, slots=True, kw_only=True)
class LookThrough:
    """Counts of a typed sheet, and what looks as if something was passed over."""

    balls: int
    planned: int
    """0 where nobody planned it."""
    counts: tuple[Counts, ...]
    """By cue, in the order of the boxes."""
    left_out: tuple[int, ...]
    """Numbers of the empty rows before the last ball."""
    nothing_seen: tuple[int, ...]
    """Numbers of the rows with a ball of which no cue was seen."""
    without_mark: tuple[str, ...]
    """Keys of the cues that have no mark on any ball."""


def look_through(sheet: FilledSheet) -> LookThrough:
    """What the sheet says in all, row by row where a row is odd."""
    rows = list(enumerate(sheet.rows.rows[: sheet.rows.last], 1))
    counts = sheet.counts()
    return LookThrough(
        balls=len(sheet.rows.balls),
        planned=sheet.task.balls,
        counts=counts,
        left_out=tuple(number for number, row in rows if not row.is_ball),
        nothing_seen=tuple(
            number
            for number, row in rows
            if row.is_ball and all(grade is None for grade in row.ball.grades)
        ),
        without_mark=tuple(
            cue
            for cue, count in zip(sheet.task.cues, counts, strict=True)
            if sheet.rows.balls and not count.seen
        ),
    )
