"""A full page of lines with a style each, and the keys at its foot."""

from __future__ import annotations

from collections.abc import Sequence

from textual.content import Content
from textual.widget import Widget

Line = tuple[str, str]
"""A line and its style."""


class Lines(Widget):
    """Shows the lines it is given."""

    DEFAULT_CLASSES = "lines"

    def __init__(self) -> None:
        super().__init__()
        self._text = Content("")

    def show(self, lines: Sequence[Line]) -> None:
        """Show these lines."""
        self._text = Content("\n").join(Content.styled(line, style) for line, style in lines)
        self.refresh()

    def render(self) -> Content:
        return self._text


def foot(keys: Sequence[tuple[str, str]]) -> Content:
    """Keys and what they do, on one line."""
    return Content("  ").join(Content.assemble((key, "bold"), f" {word}") for key, word in keys)


def foot_lines(keys: Sequence[tuple[str, str]], width: int) -> list[Line]:
    """Keys and their words, on as many lines as they need."""
    lines = [""]
    for key, label in keys:
        piece = f"{key} {label}  "
        if len(lines[-1]) + len(piece.rstrip()) > width:
            lines.append("")
        lines[-1] += piece
    return [(line.rstrip(), "") for line in lines]
