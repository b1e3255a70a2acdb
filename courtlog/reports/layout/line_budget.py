"""How many lines of print a text needs, and how the lines of one page are shared by its texts.

A page that is promised as one cannot wait for a browser to measure it. Each text gets its lines
here, and a style of that many lines (`lines_style`) cuts what is longer with an ellipsis.
"""

from __future__ import annotations

from collections.abc import Sequence

from rich.cells import cell_len

MOST = 60
"""Lines of the tallest style."""

_WIDTHS = {
    **dict.fromkeys("ijlI'|", 0.30),
    **dict.fromkeys("f.,:;! ", 0.35),
    **dict.fromkeys("rt()[]-", 0.41),
    **dict.fromkeys("cksvxyz“”‘’", 0.58),
    **dict.fromkeys("mwMWGOQ@%&…", 0.99),
}
"""Widths in ems of letters of DejaVu Sans, rounded up: among usual faces it is a broad one."""

_BLANK = 0.32


def lines_needed(text: str, ems: float) -> int:
    """Lines of the text where a line has room for so many ems, broken between words; at least 1.

    The widths are those of a broad sans-serif face, so that a usual one needs fewer.
    """
    lines, used = 1, 0.0
    for word in text.split(" "):
        wide = sum(map(_ems, word))
        blank = _BLANK if used else 0.0
        if used + blank + wide <= ems:
            used += blank + wide
            continue
        if used:
            lines += 1
        more = max(int(-(-wide // ems)) - 1, 0)
        lines += more
        used = wide - more * ems
    return lines


def _ems(character: str) -> float:
    if character in _WIDTHS:
        return _WIDTHS[character]
    return (0.0, 0.72 if character.isupper() else 0.63, 1.25)[cell_len(character)]


def shared(needs: Sequence[int], room: int) -> list[int]:
    """Lines for each text: what it needs where there is room, else the longest ones get less.

    Each gets one at least, even where the room is smaller than that.
    """
    level = max(needs, default=1)
    while level > 1 and sum(min(need, level) for need in needs) > room:
        level -= 1
    lines = [min(need, level) for need in needs]
    for place, need in enumerate(needs):
        if need > lines[place] and sum(lines) < room:
            lines[place] += 1
    return lines


def lines_key(lines: int) -> str:
    """The class of a text of at most so many lines, such as `l3`."""
    return f"l{max(1, min(lines, MOST))}"


def lines_style() -> str:
    """The style of these classes."""
    every = "".join(
        f".l{lines} {{ -webkit-line-clamp: {lines}; line-clamp: {lines}; }}\n"
        for lines in range(1, MOST + 1)
    )
    return (
        f".cut {{ display: -webkit-box; -webkit-box-orient: vertical; overflow: hidden; }}\n{every}"
    )
