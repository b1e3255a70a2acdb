"""Letters three or five rows high for words that are read from two metres, drawn of half blocks.

A cell holds two pixels, one over the other. Nothing here knows what the words mean.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Sequence
from functools import cache
from itertools import islice

from courtlog.courtside.surface.lettering import cells

TEN, FIVE, THREE, ONE = 10, 5, 3, 1
"""Rows of a line of words: one size made of the next, two drawn, and the terminal's own letters."""

_GAP, _BLANK = 1, 2
"""Pixels between two letters, and what a blank adds to them."""

_SIX_HIGH = """
A   B   C   D   E   F   G    H   I J   K   L   M     N    O    P   Q    R   S   T   U   V
.#. ##. .## ##. ### ### .### #.# # ..# #.# #.. #...# #..# .##. ##. .##. ##. .## ### #.# #.#
#.# #.# #.. #.# #.. #.. #... #.# # ..# #.# #.. ##.## ##.# #..# #.# #..# #.# #.. .#. #.# #.#
#.# ##. #.. #.# ##. ##. #... ### # ..# ##. #.. #.#.# ##.# #..# #.# #..# #.# .#. .#. #.# #.#
### #.# #.. #.# #.. #.. #.## #.# # ..# #.# #.. #.#.# #.## #..# ##. #..# ##. ..# .#. #.# #.#
#.# #.# #.. #.# #.. #.. #..# #.# # #.# #.# #.. #...# #.## #..# #.. #.#. #.# ..# .#. #.# #.#
#.# ##. .## ##. ### #.. .### #.# # .#. #.# ### #...# #..# .##. #.. .#.# #.# ##. .#. ### .#.

W     X   Y   Z   0   1  2   3   4   5   6   7   8   9   . ,  : ' ! ?   -   +   /   &    (  )
#...# #.# #.# ### ### .# ### ### #.# ### ### ### ### ### . .. . # # ##. ... ... ..# .#.. .# #.
#...# #.# #.# ..# #.# ## ..# ..# #.# #.. #.. ..# #.# #.# . .. # # # ..# ... .#. ..# #.#. #. .#
#.#.# .#. .#. .#. #.# .# ..# .## #.# ### ### ..# ### #.# . .. . . # .#. ### ### .#. .#.. #. .#
#.#.# .#. .#. .#. #.# .# ### ..# ### ..# #.# .#. #.# ### . .. . . # .#. ... .#. .#. #.## #. .#
##.## #.# .#. #.. #.# .# #.. ..# ..# ..# #.# .#. #.# ..# . .# # . . ... ... ... #.. #.#. #. .#
#...# #.# .#. ### ### .# ### ### ..# ### ### .#. ### ### # #. . . # .#. ... ... #.. .#.# .# #."""

_TEN_HIGH = """
A     B     C     D     E     F     G     H     I J     K     L     M       N      O     P
.###. ####. .###. ####. ##### ##### .###. #...# # ....# #...# #.... #.....# #....# .###. ####.
#...# #...# #...# #...# #.... #.... #...# #...# # ....# #...# #.... ##...## ##...# #...# #...#
#...# #...# #.... #...# #.... #.... #.... #...# # ....# #..#. #.... ##...## ##...# #...# #...#
#...# #...# #.... #...# #.... #.... #.... #...# # ....# #.#.. #.... #.#.#.# #.#..# #...# #...#
#...# ####. #.... #...# ####. ####. #.... ##### # ....# ##... #.... #.#.#.# #.#..# #...# #...#
##### #...# #.... #...# #.... #.... #.### #...# # ....# ##... #.... #..#..# #..#.# #...# ####.
#...# #...# #.... #...# #.... #.... #...# #...# # ....# #.#.. #.... #..#..# #..#.# #...# #....
#...# #...# #.... #...# #.... #.... #...# #...# # #...# #..#. #.... #.....# #...## #...# #....
#...# #...# #...# #...# #.... #.... #...# #...# # #...# #...# #.... #.....# #...## #...# #....
#...# ####. .###. ####. ##### #.... .###. #...# # .###. #...# ##### #.....# #....# .###. #....

Q     R     S     T     U     V     W       X     Y     Z     0     1   2     3     4     5
.###. ####. .###. ##### #...# #...# #.....# #...# #...# ##### ##### ..# .###. .###. ...#. #####
#...# #...# #...# ..#.. #...# #...# #.....# #...# #...# ....# #...# .## #...# #...# ..##. #....
#...# #...# #.... ..#.. #...# #...# #.....# .#.#. #...# ....# #...# #.# ....# ....# ..##. #....
#...# #...# #.... ..#.. #...# #...# #..#..# .#.#. .#.#. ...#. #...# ..# ....# ....# .#.#. #....
#...# ####. .###. ..#.. #...# #...# #..#..# ..#.. .#.#. ..#.. #...# ..# ...#. ..##. .#.#. ####.
#...# #.#.. ....# ..#.. #...# .#.#. #.#.#.# ..#.. ..#.. ..#.. #...# ..# ..#.. ....# #..#. ....#
#...# #..#. ....# ..#.. #...# .#.#. #.#.#.# .#.#. ..#.. .#... #...# ..# .#... ....# #..#. ....#
#.#.# #..#. ....# ..#.. #...# .#.#. ##...## .#.#. ..#.. #.... #...# ..# #.... ....# ##### ....#
#..#. #...# #...# ..#.. #...# ..#.. ##...## #...# ..#.. #.... #...# ..# #.... #...# ...#. #...#
.##.# #...# .###. ..#.. .###. ..#.. #.....# #...# ..#.. ##### ##### ..# ##### .###. ...#. .###.

6     7     8     9     . ,  : ' ! ?     -     +     /     &     (   )
.###. ##### .###. .###. . .. . # # .###. ..... ..... ....# .##.. ..# #..
#...# ....# #...# #...# . .. . # # #...# ..... ..... ....# #..#. .#. .#.
#.... ....# #...# #...# . .. # # # ....# ..... ..#.. ...#. #..#. #.. ..#
#.... ...#. #...# #...# . .. . . # ....# ..... ..#.. ...#. .##.. #.. ..#
####. ...#. .###. #...# . .. . . # ...#. ##### ##### ..#.. .##.. #.. ..#
#...# ...#. #...# .#### . .. . . # ..#.. ..... ..#.. ..#.. #..#. #.. ..#
#...# ..#.. #...# ....# . .. . . # ..#.. ..... ..#.. .#... #...# #.. ..#
#...# ..#.. #...# ....# . .# . . . ..... ..... ..... .#... #..#. #.. ..#
#...# ..#.. #...# #...# . .# # . . ..... ..... ..... #.... #.##. .#. .#.
.###. ..#.. .###. .###. # #. . . # ..#.. ..... ..... #.... .#..# ..# #.."""

_DRAWINGS = {THREE: _SIX_HIGH, FIVE: _TEN_HIGH}

_SPELT = str.maketrans(
    {"Æ": "AE", "Œ": "OE", "Ø": "O", "Ł": "L", "Đ": "D", "Ð": "D", "Þ": "TH", "Ħ": "H", "ı": "I"}
    | dict.fromkeys("\u2018\u2019\u02bc", "'")
    | dict.fromkeys("\u2010\u2011\u2012\u2013\u2014", "-")
)
"""Letters that Unicode does not take apart, in the plain ones nearest to them."""

_HALVES = {(True, True): "█", (True, False): "▀", (False, True): "▄", (False, False): " "}

Letter = tuple[str, ...]
"""Rows from the top: of pixels, where `#` is ink and `.` is none, or of cells."""


def largest(texts: Sequence[str], width: int, rows: int) -> tuple[str, ...]:
    """The words in the largest letters that fit, on so many rows at most.

    `texts` say the same, the longest first: words get shorter before letters get smaller. Where
    none can be drawn, the longest that fits stands in the terminal's own letters.
    """
    for size in (TEN, FIVE, THREE):
        for text in texts if size <= rows else ():
            rows_drawn = drawn(text, size)
            if rows_drawn is not None and len(rows_drawn[0]) <= width:
                return rows_drawn
    return (next((text for text in texts if cells(text) <= width), texts[-1]),)


def drawn(text: str, rows: int) -> tuple[str, ...] | None:
    """The text in capitals of three, five or ten rows; None where a character has no drawing."""
    if rows == TEN:
        five = drawn(text, FIVE)
        return None if five is None else doubled(five)
    letters = _letters(rows)
    words = []
    for word in plain_capitals(text).split():
        if any(character not in letters for character in word):
            return None
        words.append(_side_by_side([letters[character] for character in word], _GAP))
    if not words:
        return None
    return _side_by_side(words, _GAP + _BLANK + _GAP)


def plain_capitals(text: str) -> str:
    """The text in capitals without accents: `Zoë` is `ZOE`."""
    apart = unicodedata.normalize("NFKD", text.upper().translate(_SPELT))
    return "".join(character for character in apart if not unicodedata.combining(character))


def _side_by_side(parts: Sequence[Letter], gap: int) -> Letter:
    return tuple((" " * gap).join(rows) for rows in zip(*parts, strict=True))


def in_cells(pixels: Letter) -> tuple[str, ...]:
    """Two rows of pixels as one of half blocks."""
    return tuple(
        "".join(_HALVES[a == "#", b == "#"] for a, b in zip(upper, lower, strict=True))
        for upper, lower in zip(pixels[::2], pixels[1::2], strict=True)
    )


def doubled(rows: tuple[str, ...]) -> tuple[str, ...]:
    """Twice as wide and twice as high: each half of a cell becomes two cells."""
    upper, lower = str.maketrans("▀▄", "█ "), str.maketrans("▀▄", " █")
    halves = (row.translate(half) for row in rows for half in (upper, lower))
    return tuple("".join(2 * cell for cell in row) for row in halves)


@cache
def _letters(rows: int) -> dict[str, Letter]:
    """Every letter of that size in cells, by its character."""
    return {character: in_cells(pixels) for character, pixels in _read(_DRAWINGS[rows], 2 * rows)}


def _read(drawings: str, height: int) -> Iterator[tuple[str, Letter]]:
    """The letters of a table: strips of a line of characters and, below each, its pixels."""
    lines = iter(line for line in drawings.splitlines() if line)
    for characters in lines:
        pixels = [row.split(" ") for row in islice(lines, height)]
        yield from zip(characters.split(), zip(*pixels, strict=True), strict=True)
