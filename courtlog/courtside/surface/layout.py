"""Where each part of the court screen stands, for every size of terminal.

At 80x24 every row is used. Larger terminals get air, smaller ones lose the foot first, and a wide
one gets the rotation as a column of its own.
"""

from __future__ import annotations

from collections.abc import Sequence

from textual.geometry import Region

from courtlog.courtside.desk.view import CourtView
from courtlog.courtside.surface.cue_block import (
    OF,
    PERCENT,
    CueLooks,
    CuePhrases,
    CueShare,
    CueTally,
    CueTrend,
    ShareTitle,
    TrendTitle,
)
from courtlog.courtside.surface.distance import (
    WRITING,
    ColumnsOfMarks,
    CueMarks,
    FarMessage,
    FewKeys,
    NextFeed,
    SlowWriting,
    WhatToDo,
    WhoHits,
    WhoIsNext,
)
from courtlog.courtside.surface.key_lines import Hint, KeyLines
from courtlog.courtside.surface.large_letters import FIVE, TEN, THREE
from courtlog.courtside.surface.parts import (
    CUE_NAME,
    KEYS,
    WORD,
    BallCount,
    BasketCount,
    CueRow,
    MessageLine,
    NowLine,
    Titles,
    TopLine,
)
from courtlog.courtside.surface.strip import Strip
from courtlog.courtside.surface.surface import Part

FULL = 24
"""Rows that hold everything; below them the list of keys goes first."""

ROOMY = 34
"""Rows from which words to be read aloud are larger."""

AIRY = 44
"""Rows from which there is a blank line between the parts; before that the cues have them."""

LEAST_CUE, MOST_CUE = 2, 14
"""Rows of a cue: its line and phrases; and so many that a higher strip would say no more."""

THREE_LINES = 3
"""Rows of a cue from which each phrase has a line, and the share two at their end."""

LEAST_WORDS, WORDS_OF_LOOKS, MOST_WORDS = 57, 83, 110
"""Columns for the words of a cue, for those with what a grade looks like, and at most."""

LEAST_ROW = CUE_NAME + KEYS + 1 + WORD
"""Cells of a cue's own line without its marks."""

NARROW_TREND, LEAST_TREND, MOST_TREND = 8, 16, 60
"""Columns of the strip where each cue has two rows, beside many words, and at most."""

WIDE = 112
"""Columns from which the rotation stands in a column of its own at the right."""

FAR_WIDTH, FIVE_WIDTH = 80, 120
"""Columns from which there is a look for two metres, and from which its letters have five rows."""

HUGE_WIDTH, HUGE_HEIGHT = 180, 56
"""Columns and rows from which they have ten."""

FAR_HINTS = (Hint("'", "'", "close look", "close"), Hint("?", "?", "help"))

SHARE = OF + PERCENT + 1
"""Cells of the share in a cue's own line."""

COLUMN, COUNT, BOARD, FOOT = 34, 14, 6, 3
"""Cells of that column and of a large number; rows of the board and of the foot."""


class CourtLayout:
    """Keeps the parts; called with a size and a view it says where each of them stands.

    That depends on the size and the number of cues, and is worked out when one of them changes.
    """

    def __init__(self, hints: Sequence[Hint], behind_escape: Sequence[Hint]) -> None:
        self._top, self._now, self._ball, self._basket = (
            TopLine(),
            NowLine(),
            BallCount(),
            BasketCount(),
        )
        self._titles, self._message, self._strip = Titles(), MessageLine(), Strip()
        self._cues = [_CueParts(row) for row in range(4)]
        self._share_title, self._trend_title = ShareTitle(), TrendTitle()
        self._keys = KeyLines(hints, behind_escape)
        self._far_words = (WhoHits(), NextFeed(), WhatToDo())
        self._far_marks = [CueMarks(row) for row in range(4)]
        self._far_columns, self._far_writing = ColumnsOfMarks(), SlowWriting()
        self._far_keys = FewKeys(FAR_HINTS, behind_escape)
        self._far_next = WhoIsNext()
        self._far_message = FarMessage(self._far_keys)
        self._asked = (0, 0, 0, False, False)
        self._boxes: list[tuple[Part, Region]] = []

    def __call__(self, width: int, height: int, view: CourtView) -> list[tuple[Part, Region]]:
        live = view.live
        far = view.far and width >= FAR_WIDTH and height >= FULL
        cues, measured = len(live.cue_keys) if live else 0, bool(live and live.purpose.measured)
        if (width, height, cues, far, measured) != self._asked:
            self._asked = width, height, cues, far, measured
            if far:
                self._boxes = self._far_boxes(width, height, cues)
            else:
                self._boxes = self._boxes_for(width, height, cues, measured)
        return self._boxes

    def _far_boxes(self, width: int, height: int, cues: int) -> list[tuple[Part, Region]]:
        """Three rows of large words, the marks of each cue, what was said, a few keys."""
        tall = FIVE if height >= ROOMY and width >= FIVE_WIDTH else THREE
        if height >= HUGE_HEIGHT and width >= HUGE_WIDTH:
            tall = TEN
        inner = width - 2
        boxes: list[tuple[Part, Region]] = [
            (part, Region(1, at * (tall + 1), inner, tall))
            for at, part in enumerate(self._far_words)
        ]
        y = len(boxes) * (tall + 1)
        slow = len(WRITING)
        boxes.append((self._far_writing, Region(1 + inner - slow, y - 1, slow, 1)))
        if cues:
            boxes.append((self._far_columns, Region(1, y - 1, inner - slow, 1)))
        marks = mark_rows(width, (height - y - 2) // cues) if cues else 0
        for part in self._far_marks[:cues]:
            boxes.append((part, Region(1, y, inner, marks)))
            y += marks + 1
        said = min(max(y, height - 3), height - 1)
        low = next((rows for rows in (TEN, FIVE, THREE) if rows <= min(tall, said - y)), 0)
        if low:
            boxes.append((self._far_next, Region(1, y, inner, low)))
        boxes.append((self._far_message, Region(1, said, inner, min(2, height - said))))
        boxes.append((self._far_keys, Region(1, said + 2, inner, 1)))
        return [(part, box) for part, box in boxes if box.bottom <= height]

    def _boxes_for(
        self, width: int, height: int, cues: int, measured: bool
    ) -> list[tuple[Part, Region]]:
        small, wide = height < FULL, width >= WIDE
        gap = 1 if height >= AIRY else 0
        room = height - (1 + BOARD + 1 + 2 + FOOT + 3 * gap) - (0 if wide else 2)
        tall = LEAST_CUE if small else _cue_height(room, cues)
        inner = width - 2 - (COLUMN + 1 if wide else 0)
        boxes: list[tuple[Part, Region]] = [(self._top, Region(0, 0, width, 1))]
        y = 1 + gap
        counts = COUNT + 1
        boxes += [
            (self._now, Region(1, y, inner - 2 * counts, BOARD)),
            (self._ball, Region(1 + inner - 2 * counts + 1, y, COUNT, BOARD - 1)),
            (self._basket, Region(1 + inner - counts + 1, y, COUNT, BOARD - 1)),
        ]
        y += BOARD + gap
        words, trend = _columns(inner, tall)
        strip_at = 1 + inner - trend
        row = words - SHARE if tall < THREE_LINES and words >= LEAST_ROW + SHARE else words
        boxes.append((self._titles, Region(1, y, row, 1)))
        boxes.append((self._share_title, Region(1 + row, y, words - row, 1)))
        boxes.append((self._trend_title, Region(strip_at, y, trend, 1)))
        y += 1
        for parts in self._cues[:cues]:
            if measured:
                boxes += parts.while_measured(y, row, inner, tall)
            else:
                boxes += parts.boxes(y, row, words, tall)
                under = y + 1 if tall < THREE_LINES else y + tall
                boxes.append((parts.trend, Region(strip_at, y, trend, under - y)))
                if tall < THREE_LINES:
                    boxes.append((parts.phrases, Region(1, under, inner, 1)))
            y += tall
        if not small:
            y += gap
            foot = height - FOOT
            boxes.append((self._message, Region(1, y, inner, 2)))
            strip = Region(1, y + 2, inner, 2)
            if wide:
                strip = Region(width - COLUMN, 2, COLUMN - 1, foot - 3)
            boxes.append((self._strip, strip))
            boxes.append((self._keys, Region(1, foot, width - 2, FOOT)))
        return [(part, box) for part, box in boxes if min(box.size) > 0 and box.bottom <= height]


class _CueParts:
    """The parts of one cue."""

    def __init__(self, row: int) -> None:
        self.row, self.phrases, self.looks = CueRow(row), CuePhrases(row), CueLooks(row)
        tally = CueTally(row)
        self.share, self.trend = CueShare(row, tally), CueTrend(row, tally)

    def while_measured(self, y: int, row: int, inner: int, tall: int) -> list[tuple[Part, Region]]:
        """The row, and what each grade looks like: nothing is said and no share is shown."""
        return [(self.row, Region(1, y, row, 1)), (self.looks, Region(1, y + 1, inner, tall - 1))]

    def boxes(self, y: int, row: int, words: int, tall: int) -> list[tuple[Part, Region]]:
        """All but the strip: the row itself, its words under it, the share at their end."""
        boxes: list[tuple[Part, Region]] = [(self.row, Region(1, y, row, 1))]
        if tall < THREE_LINES:
            share = Region(1 + row, y, words - row, 1)
            return [*boxes, (self.share, share)]
        said = THREE_LINES - 1
        return [
            *boxes,
            (self.phrases, Region(1, y + 1, words - OF - 1, said)),
            (self.share, Region(1 + words - OF, y + 1, OF, said)),
            (self.looks, Region(1, y + THREE_LINES, words, tall - THREE_LINES)),
        ]


def _columns(inner: int, tall: int) -> tuple[int, int]:
    """Cells for the words of a cue and for its strip, with a blank between them."""
    if tall < THREE_LINES:
        fits = inner > LEAST_ROW + SHARE + NARROW_TREND
        return (inner - NARROW_TREND - 1, NARROW_TREND) if fits else (inner, 0)
    wanted = LEAST_WORDS if tall == THREE_LINES else WORDS_OF_LOOKS
    trend = max(inner - wanted - 1, min(LEAST_TREND, inner - LEAST_WORDS - 1), 0)
    trend = min(trend, MOST_TREND)
    return min(inner - trend - bool(trend), MOST_WORDS), trend


def _cue_height(rows: int, cues: int) -> int:
    """Rows of one cue where all of them share so many."""
    return min(max(rows // cues, LEAST_CUE), MOST_CUE) if cues else LEAST_CUE


def mark_rows(width: int, room: int) -> int:
    """Rows of a mark where so many are there for it and a blank one; narrow cells need more."""
    return max(2, min(room - 1, 3 if width <= FIVE_WIDTH else FIVE))
