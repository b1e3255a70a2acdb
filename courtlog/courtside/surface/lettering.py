"""Text in cells: cut to a width, large digits, pages of lines, and the keys at their foot."""

from __future__ import annotations

from collections.abc import Sequence

from rich.cells import cell_len, set_cell_size
from textual.content import Content
from textual.widget import Widget

Line = tuple[str, str]
"""A line and its style."""

LEAST_ROOM = 3
"""Lines of a list from which it says how many are left out."""

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


def big_digits(number: str) -> tuple[str, str, str]:
    """A number in digits three rows high; anything else stands small in the middle row."""
    if not number or any(digit not in _DIGITS for digit in number):
        return "", number, ""
    top, middle, low = ("".join(_DIGITS[digit][row] for digit in number) for row in range(3))
    return top, middle, low


_NARROW = "▀▄█▁▂▃▅▆▇░▬●◐○·►…┏━┓┃┗┛╺┻╸┫┣╻╹" + "".join(map(chr, range(0x20, 0x7F)))

narrow = frozenset(_NARROW).issuperset
"""Whether a text is of nothing but characters that are known to take one cell each."""


def cells(text: str) -> int:
    """How many cells a text takes; a plain one is not worth the cache that Rich keeps."""
    return len(text) if narrow(text) else cell_len(text)


def fit(text: str, width: int) -> str:
    """The text in exactly this many cells."""
    if narrow(text):
        return text[: max(width, 0)].ljust(width)
    return set_cell_size(text, max(width, 0))


def fit_short(text: str, width: int) -> str:
    """The text in at most this many cells, with … where it was cut."""
    if cells(text) <= width:
        return text
    return set_cell_size(text, max(width - 1, 0)).rstrip() + "…" * (width > 0)


def first_that_fits(ways: Sequence[str], width: int) -> str:
    """The first of these ways to say something that fits; else the last, cut."""
    return next((words for words in ways if cells(words) <= width), fit_short(ways[-1], width))


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


def around(lines: Sequence[Line], chosen: int, height: int) -> list[Line]:
    """At most so many of the lines, the chosen one (by index) among them.

    Where some are left out the first or the last line shown says how many, not counting blank ones.
    """
    start = min(max(0, chosen - height // 2), max(0, len(lines) - height))
    shown = list(lines[start : start + height])
    if height < LEAST_ROOM:
        return shown
    above, below = start + 1, start + height - 1
    if start:
        shown[0] = (f"    ↑ {_written(lines[:above])} more", "$quiet")
    if start + height < len(lines):
        shown[-1] = (f"    ↓ {_written(lines[below:])} more", "$quiet")
    return shown


def _written(lines: Sequence[Line]) -> int:
    return sum(1 for text, _ in lines if text)


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
