"""What the terminal is sent of a repaint: the changed cells, and what changes of a style."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from rich.color import ColorSystem
from rich.console import Console
from rich.style import Style
from textual._compositor import ChopsUpdate
from textual.strip import Strip

from courtlog.courtside.surface.lettering import cells, narrow

INK, GROUND = "38", "48"
"""What begins the numbers of a colour that has several (ECMA-48, select graphic rendition)."""

INKS = {*map(str, range(30, 40)), *map(str, range(90, 98))}
GROUNDS = {*map(str, range(40, 50)), *map(str, range(100, 108))}


class ExactUpdate(ChopsUpdate):
    """An update whose changed spans are cut on both sides."""

    @classmethod
    def of(cls, update: ChopsUpdate) -> ExactUpdate:
        """The update, to be cut to the cells that changed."""
        return cls(update.chops, update.spans, update.chop_ends)

    def render_segments(self, console: Console) -> str:
        """The changed spans as characters and escapes; a style is told where it changes."""
        system = console._color_system or ColorSystem.TRUECOLOR
        written: list[str] = []
        worn = ""
        for y, start, end in self.spans:
            for (x, strip), right in zip(self.chops[y].items(), self.chop_ends[y], strict=False):
                if strip is None or x >= end or right <= start:
                    continue
                left = max(x, start)
                written.append(f"\x1b[{y + 1};{left + 1}H")
                for text, style in _cut(strip, left - x, min(right, end) - x):
                    codes = "" if style is None else _codes(style, system)
                    if codes != worn:
                        written.append(_change(worn, codes))
                        worn = codes
                    written.append(text)
        if worn:
            written.append("\x1b[m")
        return "".join(written)


def _cut(strip: Strip, start: int, end: int) -> Iterator[tuple[str, Style | None]]:
    """The runs of a strip between two cells, as `Strip.crop` cuts them, without its copies."""
    at = 0
    for segment in strip:
        text, style, _ = segment
        low, high = start - at, end - at
        if high <= 0:
            return
        size = cells(text)
        at += size
        if low >= size:
            continue
        if low > 0 or high < size:
            if narrow(text):
                text = text[max(low, 0) : high]
            else:
                segment, _ = segment.split_cells(high) if high < size else (segment, None)
                text = (segment.split_cells(low)[1] if low > 0 else segment).text
        yield text, style


def _codes(style: Style, system: ColorSystem) -> str:
    """The numbers that tell a terminal of this style; Textual works them out once."""
    return Strip.render_ansi(style, system) if style._ansi is None else style._ansi


@lru_cache(256)
def _change(worn: str, codes: str) -> str:
    """The escape from one style to the next; it begins anew where something has to come off."""
    before, after = _parts(worn), _parts(codes)
    if not before.keys() <= after.keys():
        return f"\x1b[0;{codes}m" if codes else "\x1b[m"
    other = (numbers for what, numbers in after.items() if before.get(what) != numbers)
    return f"\x1b[{';'.join(other)}m"


def _parts(codes: str) -> dict[str, str]:
    """The numbers of the ink, of the ground, and of each other thing, by what they set."""
    numbers = codes.split(";") if codes else []
    parts: dict[str, str] = {}
    while numbers:
        first = numbers[0]
        several = {"2": 5, "5": 3}.get(numbers[1], 1) if first in (INK, GROUND) else 1
        what = INK if first in INKS else GROUND if first in GROUNDS else first
        parts[what] = ";".join(numbers[:several])
        del numbers[:several]
    return parts
