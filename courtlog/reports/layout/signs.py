"""Signs of a page: sparklines, and letters in place of signs where they are lacking."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable

from courtlog.coaching.game.counts import Counts
from courtlog.coaching.game.grades import LOOKS

BARS = "▁▂▃▄▅▆▇█"
NOTHING = "·"
OTHER_DRILLS = "~"
"""After a day, or a row of days, of other drills than the first."""


def bar(share: float | None) -> str:
    """The bar of a share 0 to 1; `·` for none. Zero is the lowest bar, one the full one."""
    if share is None:
        return NOTHING
    return BARS[min(int(share * len(BARS)), len(BARS) - 1)]


def spark(days: Iterable[Counts]) -> str:
    """The sparkline of a cue over days."""
    return "".join(bar(counts.share) for counts in days)


_SIGNS = str.maketrans(
    {look.mark: look.letter_mark for look in LOOKS.values()}
    | dict(zip(BARS, "12345678", strict=True))
    | dict.fromkeys("┌┐└┘┬┤├┴┼┏┓┗┛┣┫┻", "+")
    | dict.fromkeys("│┃╹╻", "|")
    | dict.fromkeys("─━╸╺–", "-")
    | dict(zip("←→↑↓⇄", "<>^v=", strict=True))
    | {"“": '"', "”": '"', "…": "~", "►": ">", "░": ":", "▲": "!", "■": "#", "▀": '"'}
    | {"▬": "=", "↔": "=", "•": "*"}
)
_ONLY_WHERE_LACKING = {"‹": "<", "›": ">", "°": " ", "’": "'", "‘": "'"}
"""Signs that names and notes may hold as well; they stay where they can be shown."""


def in_letters(text: str) -> str:
    """The page without courtlog's own signs.

    Bars become 1 (least) to 8 (all made), lines + - |, a day without a ball a dot. The foot of a
    yardstick in a strip becomes ", the line under today =, a column of few balls :.
    """
    return text.translate(_SIGNS)


def nearest_letters(text: str) -> str:
    """The text in ASCII, cell for cell: its signs as letters, accents left out, else `?`."""
    return "".join(map(_nearest, in_letters(text)))


def _nearest(character: str) -> str:
    if character.isascii():
        return character
    if character in _ONLY_WHERE_LACKING:
        return _ONLY_WHERE_LACKING[character]
    if unicodedata.category(character) in {"Mn", "Me", "Cf"}:
        return ""
    base = unicodedata.normalize("NFKD", character)[0]
    letter = base if base.isascii() and base.isprintable() else "?"
    return letter * (2 if unicodedata.east_asian_width(character) in "WF" else 1)
