"""Where each part of the court screen stands, for every size of terminal.

At 80x24 every row is used. Larger terminals get air, smaller ones lose the foot first, and a wide
one gets the rotation as a column of its own.
"""

from __future__ import annotations

from collections.abc import Sequence

from textual.geometry import Region

from courtlog.courtside.desk.view import CourtView
from courtlog.courtside.surface.distance import (
    ColumnsOfMarks,
    CueMarks,
    FarMessage,
    FewKeys,
    NextFeed,
    WhatToDo,
    WhoHits,
)
from courtlog.courtside.surface.key_lines import Hint, KeyLines
from courtlog.courtside.surface.large_letters import FIVE, TEN, THREE
from courtlog.courtside.surface.parts import (
    BallCount,
    BasketCount,
    CueRow,
    CueWords,
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
"""Rows from which the cue rows get air between them."""

LEAST_CUE, MOST_CUE = 2, 8
"""Rows of a cue: its line and phrases; with what each of three grades looks like on two lines."""

WIDE = 112
"""Columns from which the rotation stands in a column of its own at the right."""

FAR_WIDTH, FIVE_WIDTH = 80, 120
"""Columns from which there is a look for two metres, and from which its letters have five rows."""

HUGE_WIDTH, HUGE_HEIGHT = 180, 56
"""Columns and rows from which they have ten."""

FAR_HINTS = (Hint("'", "'", "close look"), Hint("?", "?", "help"))

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
        self._cues = [(CueRow(row), CueWords(row)) for row in range(4)]
        self._keys = KeyLines(hints, behind_escape)
        self._far_words = (WhoHits(), NextFeed(), WhatToDo())
        self._far_marks = [CueMarks(row) for row in range(4)]
        self._far_columns, self._far_keys = ColumnsOfMarks(), FewKeys(FAR_HINTS, behind_escape)
        self._far_message = FarMessage(self._far_keys)
        self._asked = (0, 0, 0, False)
        self._boxes: list[tuple[Part, Region]] = []

    def __call__(self, width: int, height: int, view: CourtView) -> list[tuple[Part, Region]]:
        far = view.far and width >= FAR_WIDTH and height >= FULL
        cues = len(view.live.cue_keys) if view.live else 0
        if (width, height, cues, far) != self._asked:
            self._asked = width, height, cues, far
            self._boxes = (self._far_boxes if far else self._boxes_for)(width, height, cues)
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
        if cues:
            boxes.append((self._far_columns, Region(1, y - 1, inner, 1)))
        marks = mark_rows(width, (height - y - 2) // cues) if cues else 0
        for part in self._far_marks[:cues]:
            boxes.append((part, Region(1, y, inner, marks)))
            y += marks + 1
        said = min(max(y, height - 3), height - 1)
        boxes.append((self._far_message, Region(1, said, inner, min(2, height - said))))
        boxes.append((self._far_keys, Region(1, said + 2, inner, 1)))
        return [(part, box) for part, box in boxes if box.bottom <= height]

    def _boxes_for(self, width: int, height: int, cues: int) -> list[tuple[Part, Region]]:
        roomy, small, wide = height >= ROOMY, height < FULL, width >= WIDE
        gap = 1 if roomy else 0
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
        boxes.append((self._titles, Region(1, y, inner, 1)))
        y += 1
        below = 2 + (0 if wide else 2) + FOOT + gap
        tall = 2 if small else _cue_height(height - y - below, cues)
        for row, words in self._cues[:cues]:
            boxes += [
                (row, Region(1, y, inner, 1)),
                (words, Region(1, y + 1, inner, tall - 1)),
            ]
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
        return [(part, box) for part, box in boxes if box.width > 0 and box.bottom <= height]


def _cue_height(rows: int, cues: int) -> int:
    """Rows of one cue where all of them share so many."""
    return min(max(rows // cues, LEAST_CUE), MOST_CUE) if cues else LEAST_CUE


def mark_rows(width: int, room: int) -> int:
    """Rows of a mark where so many are there for it and a blank one; narrow cells need more."""
    return max(2, min(room - 1, 3 if width <= FIVE_WIDTH else FIVE))
