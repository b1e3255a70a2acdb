"""Sends the terminal the cells that changed and no others.

Textual's own update sends a line from the start of the widget in which a cell changed; with the
court screen drawn as one widget that would be the whole line.
"""

from __future__ import annotations

from rich.console import Console
from rich.control import Control
from textual._compositor import ChopsUpdate


class ExactUpdate(ChopsUpdate):
    """The same changed spans, cut on both sides."""

    @classmethod
    def of(cls, update: ChopsUpdate) -> ExactUpdate:
        """That update, cut."""
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
