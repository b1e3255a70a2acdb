"""Rows of a terminal as one small SVG, which asks for no font and nothing else from outside."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator
from html import escape
from itertools import groupby
from typing import NamedTuple

from rich.cells import cell_len
from rich.segment import Segment

from tests.pictures.cell_shapes import HIGH, WIDE, block_path, mark_shapes

MARGIN = 14
FONTS = "ui-monospace, Menlo, Consolas, 'DejaVu Sans Mono', 'Liberation Mono', monospace"
_LETTERS = 16
"""The height of the letters; each word is set to the width of its cells, whatever the font."""

_BASE = 15
_WORDS = re.compile(r"[!-~]+(?: [!-~]+)*|[^ ]")
"""Words of plain letters together; any other sign alone, so that it stands in its own cell."""


class Run(NamedTuple):
    """Signs of one look, from a column on."""

    column: int
    text: str
    ink: str
    paper: str
    bold: bool


def drawn(rows: Iterable[Iterable[Segment]], ink: str, paper: str) -> str:
    """The picture. A sign without colours of its own has this ink on this paper."""
    lines = [list(_runs(row, ink, paper)) for row in rows]
    columns = max(run.column + len(run.text) for line in lines for run in line)
    wide, high = columns * WIDE + 2 * MARGIN, len(lines) * HIGH + 2 * MARGIN
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide} {high}"'
        f' width="{wide}" height="{high}">',
        f'<rect x="1" y="1" width="{wide - 2}" height="{high - 2}" rx="8" fill="{paper}"'
        ' stroke="#808080"/>',
        f'<g font-family="{FONTS}" font-size="{_LETTERS}">',
    ]
    for row, line in enumerate(lines):
        parts += _row(line, MARGIN + row * HIGH, paper)
    return "\n".join([*parts, "</g>", "</svg>", ""])


def _row(line: list[Run], y: float, paper: str) -> Iterator[str]:
    """What is drawn of one row: grounds, then shapes, then words."""
    blocks: dict[str, str] = defaultdict(str)
    words = []
    for run in line:
        if run.paper != paper:
            wide = cell_len(run.text) * WIDE
            left = MARGIN + run.column * WIDE
            yield f'<path d="M{left} {y:g}h{wide}v{HIGH}h-{wide}z" fill="{run.paper}"/>'
        for match in _WORDS.finditer(run.text):
            x = MARGIN + (run.column + match.start()) * WIDE
            if (path := block_path(match[0][0], x, y)) is not None:
                blocks[run.ink] += path
            else:
                words.append(mark_shapes(match[0], x, y, run.ink) or _word(match[0], x, y, run))
    for ink, path in blocks.items():
        yield f'<path shape-rendering="crispEdges" d="{path}" fill="{ink}"/>'
    yield from words


def _word(text: str, x: float, y: float, run: Run) -> str:
    weight = ' font-weight="bold"' if run.bold else ""
    return (
        f'<text x="{x:g}" y="{y + _BASE:g}" textLength="{cell_len(text) * WIDE}"'
        f' lengthAdjust="spacingAndGlyphs" fill="{run.ink}"{weight}>{escape(text, False)}</text>'
    )


def _runs(row: Iterable[Segment], ink: str, paper: str) -> Iterator[Run]:
    """The row's signs, those of one look together."""
    looks = [(sign, *_look(segment, ink, paper)) for segment in row for sign in segment.text]
    column = 0
    for look, signs in groupby(looks, key=lambda one: one[1:]):
        text = "".join(sign for sign, *_ in signs)
        yield Run(column, text, *look)
        column += len(text)


def _look(segment: Segment, ink: str, paper: str) -> tuple[str, str, bool]:
    style = segment.style
    if style is None:
        return ink, paper, False
    colours = [
        given if colour is None or colour.is_default else colour.get_truecolor().hex
        for colour, given in ((style.color, ink), (style.bgcolor, paper))
    ]
    front, back = reversed(colours) if style.reverse else colours
    return front, back, bool(style.bold)
