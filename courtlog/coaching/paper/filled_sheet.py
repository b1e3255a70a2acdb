"""A sheet as it is typed in: its code, its round, the rows of balls, and the lines around them.

It is kept as a draft after each key, so all of it can be written as text and read again.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from datetime import date, datetime, time
from typing import Annotated
from zoneinfo import ZoneInfo

from courtlog import times
from courtlog.coaching.game.clinic_record import BallRecord, CheckIn, RoundRecord
from courtlog.coaching.game.counts import Counts
from courtlog.coaching.game.rounds import Purpose, cue_counts
from courtlog.coaching.paper.ball_rows import MOST_ROWS, BallRows
from courtlog.values import NOTHING_ELSE, LengthRule, NumberRule, TextRule, json_of, take_json

HIGHEST = 10
"""The highest number of pain and effort."""

MOST_CUES = 4
LONGEST = 500


_Line = Annotated[str, TextRule(LONGEST, empty=True)]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetTask:
    """What was played: the drill's full name, why, the cues in stroke order, balls planned."""

    __pydantic_config__ = NOTHING_ELSE

    drill: Annotated[str, TextRule(200)]
    purpose: Purpose
    cues: Annotated[tuple[str, ...], LengthRule(1, MOST_CUES)]
    balls: Annotated[int, NumberRule(0, MOST_ROWS)] = 0
    """0 where nobody planned it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetLines:
    """What stands on the lines around the boxes, as it was written; empty where nothing stands."""

    __pydantic_config__ = NOTHING_ELSE

    court: _Line = ""
    who: _Line = ""
    """Who rated or watched."""
    began: _Line = ""
    """The time of day at which it began; at home nothing."""
    date: _Line = ""
    """The date written on it, like 2026-05-12; on a court sheet nothing."""
    pain: _Line = ""
    place: _Line = ""
    effort: _Line = ""
    note: _Line = ""

    @property
    def says_something(self) -> bool:
        """Whether anything of the player stands there; who, where and when are only known."""
        return any((self.began, self.pain, self.place, self.effort, self.note))


@dataclass(frozen=True, slots=True, kw_only=True)
class FilledSheet:
    """One sheet of paper while it is typed in."""

    code: str
    task: SheetTask
    rows: BallRows
    lines: SheetLines = field(default_factory=SheetLines)

    @classmethod
    def fresh(cls, code: str, task: SheetTask, rows: int) -> FilledSheet:
        """A sheet of which nothing was typed yet."""
        return cls(code=code, task=task, rows=BallRows.empty(len(task.cues), rows))

    @property
    def is_begun(self) -> bool:
        """Whether anything was typed."""
        return self.rows.last > 0 or self.lines.says_something

    def counts(self) -> tuple[Counts, ...]:
        """Made, near, missed and not seen of each cue so far."""
        return tuple(cue_counts(self.rows.balls, row) for row in range(len(self.task.cues)))

    def with_task(self, task: SheetTask) -> FilledSheet:
        """The same rows as another round. Raises ValueError where the number of cues differs."""
        if len(task.cues) != len(self.task.cues):
            raise ValueError("the boxes typed so far are of another number of cues")
        return replace(self, task=task)

    def mistakes(self) -> Iterator[tuple[str, str]]:
        """Each line that cannot be kept as it stands, and why."""
        for key in ("pain", "effort"):
            if not _is_number(getattr(self.lines, key)):
                yield key, f"The {key} is a whole number from 0 to {HIGHEST}, or nothing."
        if self.lines.began and _clock(self.lines.began) is None:
            yield "began", "The time it began is written like 9:40."
        if self.lines.place and not self.lines.pain:
            yield "pain", "How much did it hurt there, 0 to 10? Write it in the line of pain."

    def round_record(self, player: str, on: date, place: ZoneInfo) -> RoundRecord:
        """The round as a clinic's record has it. Raises ValueError for a line with a mistake."""
        for _, sentence in self.mistakes():
            raise ValueError(sentence)
        lines, began = self.lines, _clock(self.lines.began)
        said = CheckIn(
            player=player,
            pain=int(lines.pain) if lines.pain else None,
            place=lines.place,
            effort=int(lines.effort) if lines.effort else None,
        )
        asked = said.pain is not None or said.effort is not None
        return RoundRecord(
            player=player,
            drill=self.task.drill,
            purpose=self.task.purpose,
            cues=self.task.cues,
            balls=tuple(BallRecord(ball) for ball in self.rows.balls),
            started=None if began is None else times.moment(on, began, place),
            notes=(lines.note,) if lines.note else (),
            check_ins=(said,) if asked else (),
        )


def _is_number(text: str) -> bool:
    return not text or (text.isascii() and text.isdigit() and int(text) <= HIGHEST)


def _clock(text: str) -> time | None:
    """A time of day as people write it; None where it is none."""
    for pattern in ("%H:%M", "%H.%M", "%H:%M:%S"):
        try:
            return datetime.strptime(text, pattern).time()  # noqa: DTZ007 - a wall clock
        except ValueError:
            continue
    return None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Draft:
    """A sheet as its draft has it."""

    __pydantic_config__ = NOTHING_ELSE

    code: Annotated[str, TextRule(20)]
    task: SheetTask
    lines: SheetLines
    rows: Annotated[tuple[str, ...], LengthRule(0, MOST_ROWS)]
    of: Annotated[int, NumberRule(0, MOST_ROWS)]
    """Rows of the sheet, with those that nothing was typed in."""
    row: Annotated[int, NumberRule(0, MOST_ROWS)] | None = None
    """The row in hand, from 0; None in a draft of an earlier version."""
    box: Annotated[int, NumberRule(0, MOST_CUES)] = 0


def draft_text(sheet: FilledSheet) -> str:
    """The sheet as text, to go on with later."""
    return json_of(
        _Draft(
            code=sheet.code,
            task=sheet.task,
            lines=sheet.lines,
            rows=sheet.rows.tokens,
            of=len(sheet.rows.rows),
            row=sheet.rows.row,
            box=sheet.rows.box,
        )
    )


def draft_of(text: str | bytes) -> FilledSheet:
    """The sheet of a draft. Raises ValueError where the text is none."""
    draft = take_json(_Draft, text)
    rows = BallRows.of_tokens(len(draft.task.cues), draft.rows, draft.of)
    if draft.row is not None:
        rows = rows.in_hand_at(draft.row, draft.box)
    return FilledSheet(code=draft.code, task=draft.task, rows=rows, lines=draft.lines)
