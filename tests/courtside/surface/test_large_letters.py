"""Letters for two metres: solid, whole, of the promised height, and of any name that is drawn."""

from __future__ import annotations

import random
import string
import unicodedata

import pytest

from courtlog.courtside.surface.large_letters import FIVE, THREE, drawn, largest, plain_capitals
from courtlog.courtside.surface.lettering import cells

SIZES = (THREE, FIVE)
DRAWN = string.ascii_uppercase + string.digits + ".,:'!?-+/&()"
LETTERS = string.ascii_uppercase + string.digits
HALVES = {"█": "##", "▀": "#.", "▄": ".#", " ": ".."}


def pixels(rows: tuple[str, ...]) -> list[str]:
    """The pixels of rows of half blocks, two rows of them to each."""
    return ["".join(HALVES[cell][half] for cell in row) for row in rows for half in range(2)]


@pytest.mark.parametrize("size", SIZES)
def test_every_letter_is_drawn_once_and_each_in_its_own_way(size: int) -> None:
    drawings = {character: drawn(character, size) for character in DRAWN}
    assert None not in drawings.values()
    assert len(set(drawings.values())) == len(DRAWN)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("character", LETTERS)
def test_a_letter_fills_its_rows_with_solid_strokes(size: int, character: str) -> None:
    """Strokes are a tenth to a third of the height: one or two pixels of six, or of ten."""
    rows = drawn(character, size)
    assert rows is not None
    assert len(rows) == size
    assert len({len(row) for row in rows}) == 1
    grid = pixels(rows)
    assert len(grid) == 2 * size
    assert "#" in grid[0], "no blank pixels above"
    assert "#" in grid[-1], "nor below"
    for column in zip(*grid, strict=True):
        assert "#" in column, "nor beside"


@pytest.mark.parametrize("size", SIZES)
def test_every_letter_is_in_one_piece(size: int) -> None:
    for character in LETTERS:
        grid = pixels(drawn(character, size) or ())
        ink = {(x, y) for y, row in enumerate(grid) for x, pixel in enumerate(row) if pixel == "#"}
        reached: set[tuple[int, int]] = set()
        ahead = [min(ink)]
        while ahead:
            x, y = ahead.pop()
            if (x, y) in ink - reached:
                reached.add((x, y))
                ahead += [(x + dx, y + dy) for dx in (-1, 0, 1) for dy in (-1, 0, 1)]
        assert reached == ink, character


@pytest.mark.parametrize(("size", "width"), [(THREE, 77), (FIVE, 117)])
def test_about_twenty_characters_fit_a_row(size: int, width: int) -> None:
    for words in ("GOOD TURN 58 OF 84", "WORK FINISH 16 OF 78", "NEXT TOVE YARDSTICK"):
        rows = drawn(words, size)
        assert rows is not None
        assert len(rows[0]) <= width, words


def test_words_get_shorter_before_letters_get_smaller() -> None:
    words = ("GOOD SHOULDER TURN 58 OF 84", "GOOD TURN 58 OF 84", "TURN 58 OF 84")
    assert largest(words, 160, FIVE) == drawn(words[0], FIVE)
    assert largest(words, 117, FIVE) == drawn(words[1], FIVE)
    assert largest(words, 77, FIVE) == drawn(words[2], FIVE)
    assert largest(words, 77, THREE) == drawn(words[1], THREE)
    assert largest(words, 60, FIVE) == drawn(words[2], THREE)
    assert largest(words, 20, FIVE) == (words[1],)
    assert largest(words, 5, FIVE) == (words[2],)
    assert largest(words, 160, 1) == (words[0],)


@pytest.mark.parametrize(
    ("name", "capitals"),
    [
        ("Zoë", "ZOE"),
        ("Åse-Märta", "ASE-MARTA"),
        ("Łukasz", "LUKASZ"),
        ("Søren", "SOREN"),
        ("Weiß", "WEISS"),
        ("Þóra", "THORA"),
        ("Chloé O’Hara", "CHLOE O'HARA"),
        ("İrem Işık", "IREM ISIK"),
    ],
)
def test_accents_are_left_out(name: str, capitals: str) -> None:
    assert plain_capitals(name) == capitals
    assert drawn(name, THREE) == drawn(capitals, THREE)


def test_any_name_is_drawn_whole_or_stands_in_the_terminals_own_letters() -> None:
    """Names of any printable characters, of every script: no letter becomes a block or is lost."""
    dice = random.Random(16)
    printable = [chr(code) for code in range(0x20, 0x30000) if chr(code).isprintable()]
    for _ in range(4000):
        name = "".join(dice.choices(printable, k=dice.randint(1, 6)))
        if dice.random() < 0.5:
            name = "".join(dice.choices(DRAWN, k=4)) + dice.choice(printable)
        rows = largest((f"NEXT {name}",), 200, THREE)
        if len(rows) == 1:
            assert rows == (f"NEXT {name}",)
        else:
            assert len(rows) == THREE
            assert set("".join(rows)) <= set(HALVES)
            assert all(cells(row) == len(rows[0]) for row in rows)
            left = [c for c in plain_capitals(name) if not c.isspace()]
            assert set(left) <= set(DRAWN), name


def test_all_latin_letters_with_accents_are_drawn() -> None:
    """Those that Unicode takes apart into a letter of the alphabet and its marks."""
    for code in range(0xC0, 0x250):
        base, *marks = list(unicodedata.normalize("NFKD", chr(code)))
        if base.isascii() and base.isalpha() and all(map(unicodedata.combining, marks)):
            assert drawn(chr(code), FIVE) == drawn(base, FIVE)
