"""Every key of every pad, pressed on a real terminal: the book has it and the screen says it.

The pads are written down here once more, as the coach reads them: cue by cue, missed near made.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from courtlog import settings
from courtlog.coaching.game.grades import LOOKS, Grade
from courtlog.coaching.game.rounds import Ball
from courtlog.logbook.file.book import Book
from courtlog.settings import Settings
from tests.court import written
from tests.terminal import books, sights
from tests.terminal.conftest import Opener
from tests.terminal.console import Console
from tests.terminal.mixed import BACKSPACE, moment, press_and_see
from tests.terminal.sights import CueSight

pytestmark = pytest.mark.terminal

PADS = {
    "numbers": ("789", "456", "123", "/*-"),
    "right": ("uio", "jkl", "m,.", "789"),
    "left": ("wer", "sdf", "xcv", "234"),
    "taught": (("pageup", "pagedown", "insert"), "éöü", "!&;", "56'"),
}

CODES = {"pageup": b"\x1b[5~", "pagedown": b"\x1b[6~", "insert": b"\x1b[2~", "f6": b"\x1b[17~"}

KEYPAD = dict(zip("0123456789./*-", range(57399, 57413), strict=True))
"""Code points under which newer terminals report the keys of a number pad."""

NUMLOCK, SHIFT = 128, 1

Coding = Callable[[str], bytes]


def as_characters(name: str) -> bytes:
    """A key as every terminal sends it."""
    return CODES.get(name) or name.encode()


def as_reports(name: str) -> bytes:
    """A key as newer terminals report it, here with NumLock on."""
    if name in ("\r", "\x7f"):
        return f"\x1b[{ord(name)};{1 + NUMLOCK}u".encode()
    code = KEYPAD.get(name, ord(name.lower()))
    return f"\x1b[{code};{1 + NUMLOCK + SHIFT * name.isupper()};{ord(name)}u".encode()


@pytest.mark.parametrize(
    ("pad", "coded"),
    [
        ("numbers", as_characters),
        ("numbers", as_reports),
        ("right", as_characters),
        ("left", as_characters),
        ("taught", as_characters),
    ],
)
def test_every_key_of_a_pad(tmp_path: Path, open_court: Opener, pad: str, coded: Coding) -> None:
    rows = PADS[pad]
    taught = tuple(name for row in rows for name in row) if pad == "taught" else ()
    chosen = settings.changed(Settings(look="close"), pad=pad, taught=taught)
    settings.write(tmp_path / "settings.json", chosen)
    path = tmp_path / "book.db"
    books.prepare(path, books.FOUR_CUES)
    console = open_court(path)
    with books.reading(path) as book:
        console.wait_until_none(lambda: sights.differences(console.lines, book))
        each_grade_alone(console, book, [[coded(name) for name in row] for row in rows])
        keys = {f"{row}{grade}": coded(rows[row][grade]) for row in range(4) for grade in Grade}
        keys |= {"0": coded("0")} if pad == "numbers" else {}
        whole_balls(console, book, keys | {name: coded(name) for name in " \r\x7ft="})


def each_grade_alone(console: Console, book: Book, rows: list[list[bytes]]) -> None:
    """Each key on a fresh ball, and taken back again."""
    for row, cue in enumerate(moment(book)[1].cues):
        for grade, key in zip(Grade, rows[row], strict=True):
            press_and_see(console, book, key)
            look = LOOKS[grade]
            assert sights.cue(console.lines, cue.name) == CueSight(look.mark, look.word, "")
            open_ball = Ball.unseen(len(rows)).with_grade(row, grade)
            assert moment(book)[1].feeding.open == open_ball
            press_and_see(console, book, BACKSPACE)
            assert sights.cue(console.lines, cue.name) == CueSight("", "", "")
            assert written(moment(book)[1].feeding) == ""


WHOLE_BALLS = (
    ("02 12 22 32", "2222"),
    ("00 01", "2222|1---"),  # another column of the same row changes the grade
    ("11", "2222|11--"),
    (" ", "2222 1122"),
    ("20 t", "2222 1122|--0-!"),
    ("t", "2222 1122|--0-"),
    ("\r", "2222 1122 --0-"),
    ("=", "2222 1122 --0-!"),
    ("=", "2222 1122 --0-"),
    (" ", "2222 1122 --0- 2222"),
    ("\x7f", "2222 1122 --0-"),
    ("\x7f \x7f \x7f", "2222 1122|--0-"),
    ("\x7f \x7f \x7f \x7f", "2222|11--"),
)
"""Keys (row and grade, or a key's own sign) and the round after them, as a sheet writes it."""


def whole_balls(console: Console, book: Book, keys: dict[str, bytes]) -> None:
    """Balls taken in every way there is, and taken back."""
    for names, expected in WHOLE_BALLS:
        for name in names.split(" ") if names != " " else [" "]:
            press_and_see(console, book, keys[name])
        assert written(moment(book)[1].feeding) == expected
    if "0" in keys:
        press_and_see(console, book, keys["0"])
        assert written(moment(book)[1].feeding) == "2222 1122"


def test_a_pad_taught_at_the_court(tmp_path: Path, open_court: Opener) -> None:
    path = tmp_path / "book.db"
    books.prepare(path)
    console = open_court(path)
    rows = [["pagedown", "ü", "w"], ["1", "2", "3"], ["-", "]", "é"]]
    with books.reading(path) as book:
        console.wait_until_none(lambda: sights.differences(console.lines, book))
        console.press(CODES["f6"])
        console.wait_for("Pad: 1-")
        console.press(b"teach")
        console.wait_for("nine keys")
        console.press(b"\r")
        console.wait_for("Teach a pad")
        console.press(b"".join(as_characters(name) for row in rows for name in row))
        console.wait_for("taught")
        console.wait_until_none(lambda: sights.differences(console.lines, book))
        console.press(b"k7")  # keys of the pad before, and of a cue that is not in view
        each_grade_alone(console, book, [[as_characters(name) for name in row] for row in rows])
    assert settings.read(tmp_path / "settings.json").pad == "taught"
