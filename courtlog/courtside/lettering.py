"""Text in cells: cut to a width, large digits, and where one text differs from another."""

from __future__ import annotations

from itertools import zip_longest

from rich.cells import cell_len, set_cell_size
from textual.content import Content
from textual.geometry import Region

_DIGITS = {
    "0": ("┏━┓", "┃ ┃", "┗━┛"),
    "1": ("╺┓ ", " ┃ ", "╺┻╸"),
    "2": ("╺━┓", "┏━┛", "┗━╸"),
    "3": ("╺━┓", " ━┫", "╺━┛"),
    "4": ("╻ ╻", "┗━┫", "  ╹"),
    "5": ("┏━╸", "┗━┓", "╺━┛"),
    "6": ("┏━╸", "┣━┓", "┗━┛"),
    "7": ("╺━┓", "  ┃", "  ╹"),
    "8": ("┏━┓", "┣━┫", "┗━┛"),
    "9": ("┏━┓", "┗━┫", "╺━┛"),
}


def big(number: str) -> tuple[str, str, str]:
    """A number in digits three rows high; anything else stands small in the middle row."""
    if not number or any(digit not in _DIGITS for digit in number):
        return "", number, ""
    top, middle, low = ("".join(_DIGITS[digit][row] for digit in number) for row in range(3))
    return top, middle, low


def fit(text: str, width: int) -> str:
    """The text in exactly this many cells."""
    return set_cell_size(text, max(width, 0))


def fit_short(text: str, width: int) -> str:
    """The text in at most this many cells, with … where it was cut."""
    if cell_len(text) <= width:
        return text
    return set_cell_size(text, max(width - 1, 0)).rstrip() + "…" * (width > 0)


def changed_regions(old: Content, new: Content) -> list[Region]:
    """Where two texts differ, a region a line; nothing when they look the same."""
    regions = []
    for row, (before, after) in enumerate(zip_longest(_lines(old), _lines(new), fillvalue=())):
        if before != after:
            start, end = _span(before, after)
            regions.append(Region(start, row, end - start, 1))
    return regions


Cell = tuple[str, str]
"""A character and its style."""


def _lines(text: Content) -> list[tuple[Cell, ...]]:
    styles = [""] * len(text.plain)
    for span in text.spans:
        for at in range(span.start, min(span.end, len(styles))):
            styles[at] += f"{span.style};"
    lines: list[tuple[Cell, ...]] = []
    start = 0
    for line in text.plain.split("\n"):
        end = start + len(line)
        lines.append(tuple(zip(line, styles[start:end], strict=True)))
        start = end + 1
    return lines


def _span(before: tuple[Cell, ...], after: tuple[Cell, ...]) -> tuple[int, int]:
    """First and last cell of a line that differ; widths count, as some characters take two."""
    first = 0
    while first < min(len(before), len(after)) and before[first] == after[first]:
        first += 1
    kept = 0
    most = min(len(before), len(after)) - first
    while kept < most and before[-1 - kept] == after[-1 - kept]:
        kept += 1
    widths = [sum(cell_len(c) for c, _ in line[: len(line) - kept]) for line in (before, after)]
    if widths[0] != widths[1]:  # what follows has moved
        widths = [sum(cell_len(c) for c, _ in line) for line in (before, after)]
    start = sum(cell_len(character) for character, _ in before[:first])
    return start, max(widths)
