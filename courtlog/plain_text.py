"""Text is text: a name or note as it may be shown, with every hidden character made visible.

Escapes, bidirectional overrides and zero-width characters are shown as pictures or code points
and never obeyed by a terminal.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence

_PICTURES = {code: chr(0x2400 + code) for code in range(0x20)} | {0x7F: "␡"}
_HIDDEN = {"Cc", "Cf", "Cn", "Co", "Cs", "Zl", "Zp"}
_JOINERS = {0x200C, 0x200D}
"""Zero-width joiners shape letters in several scripts and emoji; alone they do nothing."""
_FILLERS = frozenset("\u115f\u1160\u2800\u3164\uffa0")
"""Letters and a symbol that are drawn as nothing (Hangul fillers, the empty Braille pattern)."""

_MOST = 600
"""Most characters of a sentence; a longer one holds a text that came in by mistake."""


def plain(text: str) -> str:
    """The text with control and format characters replaced by visible ones."""
    if text.isprintable():
        return text
    return "".join(map(_visible, text))


def is_seen(character: str) -> bool:
    """Whether it leaves a mark by itself: no blank, control, joiner, filler or combining mark."""
    if character in _FILLERS or character.isspace():
        return False
    return unicodedata.category(character)[0] not in "CMZ"


def brief(words: str) -> str:
    """The words; very long ones keep their beginning and their end, where the next step stands."""
    if len(words) <= _MOST:
        return words
    return f"{words[: _MOST // 2]} … {words[-_MOST // 2 :]}"


def many(count: int, word: str) -> str:
    """`1 ball`, `2 balls`."""
    return f"{count} {word}{'' if count == 1 else 's'}"


def listed(parts: Sequence[str]) -> str:
    """`turn, spacing and finish`."""
    return " and ".join(filter(None, (", ".join(parts[:-1]), *parts[-1:])))


def capital(words: str) -> str:
    """The words with a capital at their beginning."""
    return words[:1].upper() + words[1:]


def each_of(names: Sequence[str], words: str) -> str:
    """`turn, 9 of 11` of one, `turn and finish, 9 of 11 each` of more that are alike."""
    return f"{listed(names)}, {words}{' each' if len(names) > 1 else ''}"


def _visible(character: str) -> str:
    code = ord(character)
    if code in _PICTURES:
        return _PICTURES[code]
    if code in _JOINERS:
        return character
    if unicodedata.category(character) in _HIDDEN:
        return f"‹{code:04X}›"
    return character
