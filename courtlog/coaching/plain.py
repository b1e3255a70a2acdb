"""Text is text: a name or note as it may be shown, with every hidden character made visible.

Escapes, bidirectional overrides and zero-width characters are shown as pictures or code points
and never obeyed by a terminal.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence

_PICTURES = {code: chr(0x2400 + code) for code in range(0x20)} | {0x7F: "␡"}
_JOINERS = {0x200C, 0x200D}
"""Zero-width joiners shape letters in several scripts and emoji; alone they do nothing."""


def plain(text: str) -> str:
    """The text with control and format characters replaced by visible ones."""
    if text.isprintable():
        return text
    return "".join(map(_visible, text))


def many(count: int, word: str) -> str:
    """`1 ball`, `2 balls`."""
    return f"{count} {word}{'' if count == 1 else 's'}"


def listed(parts: Sequence[str]) -> str:
    """`turn, spacing and finish`."""
    return " and ".join(filter(None, (", ".join(parts[:-1]), *parts[-1:])))


def each_of(names: Sequence[str], words: str) -> str:
    """`turn, 9 of 11` of one, `turn and finish, 9 of 11 each` of more that are alike."""
    return f"{listed(names)}, {words}{' each' if len(names) > 1 else ''}"


def _visible(character: str) -> str:
    code = ord(character)
    if code in _PICTURES:
        return _PICTURES[code]
    if code in _JOINERS:
        return character
    if unicodedata.category(character) in {"Cc", "Cf", "Cs", "Co", "Zl", "Zp"}:
        return f"‹{code:04X}›"
    return character
