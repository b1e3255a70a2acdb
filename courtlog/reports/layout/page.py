"""Laying out a printed page: at most 78 cells wide, no colour, the same in a file."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from io import StringIO

from rich.cells import cell_len, set_cell_size
from rich.console import Console
from rich.text import Text

WIDTH = 78
BETWEEN = " · "
"""Between the parts of a line."""

LABEL = 12
"""Cells of the label before a block, its two blanks included."""

_PAGE = Console(width=WIDTH, file=StringIO())


def lines_of(text: str, indent: str = "", width: int = WIDTH) -> Iterator[str]:
    """The text on as many lines as it needs; a screen is wider than a page, or narrower."""
    for line in Text(text).wrap(_PAGE, max(width - len(indent), 1)):
        yield indent + line.plain.rstrip()


def block(label: str, entries: Sequence[str]) -> Iterator[str]:
    """A blank line, and entries under a label."""
    if entries:
        yield ""
        yield from labelled(label, entries)


def labelled(label: str, entries: Sequence[str]) -> Iterator[str]:
    """Entries under a label, each on lines of its own, wrapped with a hanging indent."""
    for entry in entries:
        for line in Text(entry).wrap(_PAGE, WIDTH - LABEL):
            yield f"  {label:<{LABEL - 2}}{line.plain.rstrip()}".rstrip()
            label = ""


def cell(text: str, width: int) -> str:
    """The text in exactly this many cells, with … and a blank where it was cut."""
    if cell_len(text) < width:
        return set_cell_size(text, width)
    return set_cell_size(text, width - 2) + "… "
