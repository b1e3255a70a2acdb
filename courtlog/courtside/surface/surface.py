"""Draws the court screen as one widget made of parts, and repaints only the cells that changed.

One widget, because what a repaint costs grows with the widgets the compositor has to visit, and the
coach waits for it after every key. Textual's own update would send whole lines of that widget; ours
sends the terminal the cells that changed and no others.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import ClassVar

from rich.cells import set_cell_size
from rich.segment import Segment
from rich.style import Style
from textual.content import Content
from textual.geometry import Region
from textual.strip import Strip
from textual.widget import Widget

from courtlog.courtside.desk.view import CourtView
from courtlog.courtside.surface.lettering import cells, narrow

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

    def rows(self, view: CourtView) -> Sequence[Row]:
        """The text in rows of exactly the box's width, and exactly as many as it has."""
        return rows_of(self.text(view, self.width), self.width, self.height)


@dataclass(slots=True)
class _DrawnPart:
    part: Part
    box: Region
    subject: object = None
    rows: Sequence[Row] = ()


Layout = Callable[[int, int, CourtView], Sequence[tuple[Part, Region]]]
"""Width, height and view in; every part with its box out. Parts do not overlap."""


class Surface(Widget):
    """Shows a view; the layout is asked again when the size or the parts that are needed change."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {
        *("surface--quiet", "surface--band"),
        *("surface--made", "surface--near", "surface--missed"),
    }
    DEFAULT_CSS = """
    Surface { width: 1fr; height: 1fr; }
    Surface > .surface--quiet { color: $quiet; }
    Surface > .surface--band { background: $band; }
    Surface > .surface--made { color: $made; }
    Surface > .surface--near { color: $near; }
    Surface > .surface--missed { color: $missed; }
    """

    def __init__(self, layout: Layout) -> None:
        super().__init__()
        self._layout_of = layout
        self._boxes: Sequence[tuple[Part, Region]] = []
        self._drawn: list[_DrawnPart] = []
        self._on_line: dict[int, list[_DrawnPart]] = {}
        self._strips: dict[int, Strip] = {}
        self._styles: dict[str, Style] = {}
        self._shown: CourtView | None = None
        self._width = 0

    def show(self, view: CourtView) -> None:
        """Show this view."""
        self._shown = view
        width, height = self.size
        if not width:
            return
        self._width = width
        boxes = self._layout_of(width, height, view)
        if boxes != self._boxes:
            self._boxes = boxes
            left_first = sorted(boxes, key=lambda placed: placed[1].x)
            self._drawn = [_DrawnPart(part, box) for part, box in left_first]
            self._on_line = {y: [] for y in range(height)}
            for drawn in self._drawn:
                drawn.part.width, drawn.part.height = drawn.box.size
                self._draw(drawn, view)
                for y in range(drawn.box.y, drawn.box.bottom):
                    self._on_line[y].append(drawn)
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
        strips = [self._strips.get(y) or self._line(y) for y in crop.line_range]
        if (crop.x, crop.right) == (0, self._width):
            return strips
        return [strip.crop(crop.x, crop.right) for strip in strips]

    def _draw(self, drawn: _DrawnPart, view: CourtView) -> list[Region]:
        """Bring a part up to date; returns where its cells changed, on the surface."""
        subject = drawn.part.subject(view)
        if drawn.rows and subject == drawn.subject:
            return []
        drawn.subject = subject
        box = drawn.box
        rows = drawn.part.rows(view)
        before, drawn.rows = drawn.rows, rows
        changed = []
        for row, (old, new) in enumerate(zip(before, rows, strict=False)):
            if old is not new and old != new:
                start, end = changed_cells(old, new)
                changed.append(Region(box.x + start, box.y + row, end - start, 1))
        return changed

    def _line(self, y: int) -> Strip:
        """A line made of the parts that stand on it; it is kept until one of them changes there."""
        segments: list[Segment] = []
        filled = 0
        ground, width, styles = self._style(""), self._width, self._styles
        for drawn in self._on_line.get(y, ()):
            box = drawn.box
            if box.x > filled:
                segments.append(Segment(" " * (box.x - filled), ground))
            for text, words in drawn.rows[y - box.y]:
                segments.append(Segment(text, styles.get(words) or self._style(words)))
            filled = box.right
        if filled < width:
            segments.append(Segment(" " * (width - filled), ground))
        strip = self._strips[y] = Strip(segments, width)
        return strip

    def _style(self, words: str) -> Style:
        """The style of these words in the theme, as the terminal can show it; worked out once."""
        if words not in self._styles:
            style = self.rich_style
            for word in words.split():
                if word.startswith("$"):
                    style += self.get_component_rich_style(f"surface--{word[1:]}", partial=True)
                else:
                    style += Style.parse(word)
            segments = [Segment("", style)]
            for line_filter in self.get_line_filters():
                segments = line_filter.apply(segments, self.background_colors[1])
            self._styles[words] = segments[0].style or style
        return self._styles[words]


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
    if len(old) == len(new) == 1 and old[0][1] == new[0][1]:
        (before, _), (after, _) = old[0], new[0]
        if narrow(before) and narrow(after):
            head, width = _common(before, after), len(after)
            return min(head, width - 1), max(width - _common(before[::-1], after[::-1]), head + 1)
    head = _same(old, new)
    tail = _same(old[::-1], new[::-1], from_end=True)
    width = sum(cells(text) for text, _ in new)
    return min(head, width - 1), max(width - tail, head + 1)


def row_of(runs: Iterable[Run], width: int) -> Row:
    """Runs as a row of exactly `width` cells."""
    row: list[Run] = []
    left = width
    for run in runs:
        text, style = run
        wide = cells(text)
        if wide > left:
            text, wide = set_cell_size(text, left), left
            run = text, style
        if text and row and row[-1][1] == run[1]:
            row[-1] = row[-1][0] + text, run[1]
        elif text:
            row.append(run)
        left -= wide
    if left > 0 and row and not row[-1][1]:
        row[-1] = row[-1][0] + " " * left, ""
    elif left > 0:
        row.append((" " * left, ""))
    return tuple(row)


def _row(text: Content, start: int, end: int, width: int) -> Row:
    spans = [span for span in text.spans if span.start < end and span.end > start]
    cuts = {start, end}
    for span in spans:
        cuts |= {max(start, span.start), min(end, span.end)}
    runs = []
    for low, high in pairwise(sorted(cuts)):
        style = " ".join(str(span.style) for span in spans if span.start <= low < span.end)
        runs.append((text.plain[low:high], style))
    return row_of(runs, width)


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
    if narrow(a) and narrow(b):
        return _common(a, b)
    same = last = 0
    for left, right in zip(a, b, strict=False):
        if left != right:
            return same if cells(left) and cells(right) else same - last
        last = cells(left) or last
        same += cells(left)
    return same


def _common(a: str, b: str) -> int:
    """How many characters two texts begin with alike, found by halving."""
    low, high = 0, min(len(a), len(b)) + 1
    while high - low > 1:
        middle = (low + high) // 2
        if a[low:middle] == b[low:middle]:
            low = middle
        else:
            high = middle
    return low
