"""Text in cells: cut to a width, and large digits."""

from __future__ import annotations

from rich.cells import cell_len, set_cell_size

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


def cells(text: str) -> int:
    """How many cells a text takes; a plain one is not worth the cache that Rich keeps."""
    return len(text) if text.isascii() and text.isprintable() else cell_len(text)


def fit(text: str, width: int) -> str:
    """The text in exactly this many cells."""
    return set_cell_size(text, max(width, 0))


def fit_short(text: str, width: int) -> str:
    """The text in at most this many cells, with … where it was cut."""
    if cells(text) <= width:
        return text
    return set_cell_size(text, max(width - 1, 0)).rstrip() + "…" * (width > 0)
