"""Draws the court screen as one widget made of parts, and repaints only the cells that changed.

One widget, because what a repaint costs grows with the widgets the compositor has to visit, and the
coach waits for it after every key. Textual's own update would send whole lines of that widget; ours
sends the terminal the cells that changed and no others.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import ClassVar

from rich.cells import set_cell_size
from rich.console import Console
from rich.control import Control
from rich.segment import Segment
from rich.style import Style
from textual._compositor import ChopsUpdate
from textual.content import Content
from textual.geometry import Region
from textual.strip import Strip
from textual.widget import Widget

from courtlog.courtside.desk.view import CourtView
from courtlog.courtside.surface.lettering import cells

Run = tuple[str, str]
"""Text and the words of its style: `bold`, `bold reverse`, `$quiet`, `$band bold` or nothing."""

Row = tuple[Run, ...]


class Part:
    """A box of the screen; `width` and `height` are its cells, given by the layout."""

    width = 0
    height = 0

    def subject(self, view: CourtView) -> object:
        """The part of the view that the text depends on; while it is the same, nothing is drawn."""
        return view

    def text(self, view: CourtView, width: int) -> Content:
        """What to show of this view at this width."""
        raise NotImplementedError


@dataclass(slots=True)
class _DrawnPart:
    part: Part
    box: Region
    subject: object = None
    rows: list[Row] = field(default_factory=list)


Layout = Callable[[int, int, CourtView], Sequence[tuple[Part, Region]]]
"""Width, height and view in; every part with its box out. Parts do not overlap."""


class Surface(Widget):
    """Shows a view; the layout is asked again when the size or the parts that are needed change."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {"surface--quiet", "surface--band"}
    DEFAULT_CSS = """
    Surface { width: 1fr; height: 1fr; }
    Surface > .surface--quiet { color: $quiet; }
    Surface > .surface--band { background: $band; }
    """

    def __init__(self, layout: Layout) -> None:
        super().__init__()
        self._layout_of = layout
        self._boxes: Sequence[tuple[Part, Region]] = []
        self._drawn: list[_DrawnPart] = []
        self._strips: dict[int, Strip] = {}
        self._styles: dict[str, Style] = {}
        self._shown: CourtView | None = None

    def show(self, view: CourtView) -> None:
        """Show this view."""
        self._shown = view
        if not self.size.width:
            return
        boxes = self._layout_of(self.size.width, self.size.height, view)
        if boxes != self._boxes:
            self._boxes = boxes
            left_first = sorted(boxes, key=lambda placed: placed[1].x)
            self._drawn = [_DrawnPart(part, box) for part, box in left_first]
            for drawn in self._drawn:
                drawn.part.width, drawn.part.height = drawn.box.size
                self._draw(drawn, view)
            self._strips.clear()
            self.refresh()
            return
        changed = [region for drawn in self._drawn for region in self._draw(drawn, view)]
        if changed:
            for region in changed:
                self._strips.pop(region.y, None)
            self.refresh(*changed)

    def on_resize(self) -> None:
        if self._shown is not None:
            self.show(self._shown)

    def notify_style_update(self) -> None:
        """Draw every cell again: the theme is another one."""
        super().notify_style_update()
        self._strips.clear()
        self._styles.clear()

    def render_lines(self, crop: Region) -> list[Strip]:
        """The lines asked for; the surface keeps them itself, and has no border or padding."""
        strips = [self._kept(y) for y in crop.line_range]
        if (crop.x, crop.right) == (0, self.size.width):
            return strips
        return [strip.crop(crop.x, crop.right) for strip in strips]

    def _kept(self, y: int) -> Strip:
        strip = self._strips.get(y)
        if strip is None:
            strip = self._line(y)
            for line_filter in self.get_line_filters():
                strip = strip.apply_filter(line_filter, self.background_colors[1])
            self._strips[y] = strip
        return strip

    def _draw(self, drawn: _DrawnPart, view: CourtView) -> list[Region]:
        """Bring a part up to date; returns where its cells changed, on the surface."""
        subject = drawn.part.subject(view)
        if drawn.rows and subject == drawn.subject:
            return []
        drawn.subject = subject
        box = drawn.box
        rows = rows_of(drawn.part.text(view, box.width), box.width, box.height)
        before, drawn.rows = drawn.rows, rows
        changed = []
        for row, (old, new) in enumerate(zip(before, rows, strict=False)):
            if old != new:
                start, end = changed_cells(old, new)
                changed.append(Region(box.x + start, box.y + row, end - start, 1))
        return changed

    def _line(self, y: int) -> Strip:
        segments: list[Segment] = []
        filled = 0
        ground = self._style("")
        for drawn in self._drawn:
            box = drawn.box
            if not box.y <= y < box.bottom:
                continue
            if box.x > filled:
                segments.append(Segment(" " * (box.x - filled), ground))
            segments += [Segment(text, self._style(words)) for text, words in drawn.rows[y - box.y]]
            filled = box.right
        if filled < self.size.width:
            segments.append(Segment(" " * (self.size.width - filled), ground))
        return Strip(segments, self.size.width)

    def _style(self, words: str) -> Style:
        """The style of these words in the theme; worked out once."""
        if words not in self._styles:
            style = self.rich_style
            for word in words.split():
                if word.startswith("$"):
                    style += self.get_component_rich_style(f"surface--{word[1:]}", partial=True)
                else:
                    style += Style.parse(word)
            self._styles[words] = style
        return self._styles[words]


class ExactUpdate(ChopsUpdate):
    """An update whose changed spans are cut on both sides."""

    @classmethod
    def of(cls, update: ChopsUpdate) -> ExactUpdate:
        """The update, to be cut to the cells that changed."""
        return cls(update.chops, update.spans, update.chop_ends)

    def render_segments(self, console: Console) -> str:
        """The changed spans as characters and escape sequences."""
        written: list[str] = []
        for y, start, end in self.spans:
            for (x, strip), right in zip(self.chops[y].items(), self.chop_ends[y], strict=False):
                if strip is None or x >= end or right <= start:
                    continue
                left = max(x, start)
                written.append(Control.move_to(left, y).segment.text)
                written.append(strip.crop(left - x, min(right, end) - x).render(console))
        return "".join(written)


def rows_of(text: Content, width: int, height: int) -> list[Row]:
    """A text as rows of runs, each row exactly `width` cells, and exactly `height` rows."""
    rows = []
    start = 0
    for line in text.plain.split("\n")[:height]:
        rows.append(_row(text, start, start + len(line), width))
        start += len(line) + 1
    return rows + [((" " * width, ""),)] * (height - len(rows))


def changed_cells(old: Row, new: Row) -> tuple[int, int]:
    """First and last cell (not included) in which two rows of one width differ."""
    head = _same(old, new)
    tail = _same(old[::-1], new[::-1], from_end=True)
    width = sum(cells(text) for text, _ in new)
    return min(head, width - 1), max(width - tail, head + 1)


def _row(text: Content, start: int, end: int, width: int) -> Row:
    spans = [span for span in text.spans if span.start < end and span.end > start]
    cuts = {start, end}
    for span in spans:
        cuts |= {max(start, span.start), min(end, span.end)}
    runs: list[Run] = []
    left = width
    edges = sorted(cuts)
    for low, high in pairwise(edges):
        piece = text.plain[low:high]
        wide = cells(piece)
        if wide > left:
            piece, wide = set_cell_size(piece, left), left
        style = " ".join(str(span.style) for span in spans if span.start <= low < span.end)
        if piece:
            runs.append((piece, style))
        left -= wide
    if left > 0:
        runs.append((" " * left, ""))
    return tuple(runs)


def _same(old: Row, new: Row, from_end: bool = False) -> int:
    """Cells from one end in which two rows are alike."""
    same = 0
    for (a, style_a), (b, style_b) in zip(old, new, strict=False):
        if (a, style_a) == (b, style_b):
            same += cells(a)
            continue
        if style_a == style_b:
            same += _same_text(a[::-1], b[::-1]) if from_end else _same_text(a, b)
        break
    return same


def _same_text(a: str, b: str) -> int:
    """Cells of the common beginning; a mark that is drawn over its letter belongs to it."""
    same = last = 0
    for left, right in zip(a, b, strict=False):
        if left != right:
            return same if cells(left) and cells(right) else same - last
        last = cells(left) or last
        same += cells(left)
    return same
