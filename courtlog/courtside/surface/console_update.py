"""An update for a terminal that lacks some signs: each is painted as the one that stands for it."""

from __future__ import annotations

from rich.console import Console
from textual._compositor import CompositorUpdate

from courtlog.systems.plain_consoles import Signs


class ConsoleUpdate(CompositorUpdate):
    """Another update, in the signs that the terminal has; each takes one cell."""

    def __init__(self, update: CompositorUpdate, lacking: Signs) -> None:
        self._update = update
        self._lacking = lacking

    def render_segments(self, console: Console) -> str:
        """The other's characters and escapes; an escape is ASCII, which nothing lacks."""
        return self._update.render_segments(console).translate(self._lacking)
