"""A name full of markup and escapes is shown, never obeyed; and colour is never needed."""

from __future__ import annotations

import re
from functools import partial
from pathlib import Path

import pytest

from courtlog.coaching.game.grades import LOOKS, Grade
from tests.terminal import books, sights
from tests.terminal.conftest import Opener
from tests.terminal.console import Console, command, environment
from tests.terminal.mixed import press_and_see
from tests.terminal.sights import CueSight

pytestmark = pytest.mark.terminal

NAME = "[bold]x[/] \x1b[31m =1+1"
SHOWN = "[bold]x[/] ␛[31m =1+1"
ON_A_SHEET = '"[bold]x[/] \\u001b[31m =1+1"'
"""A sheet is read in again, so it spells the character out instead of drawing it."""

COLOURS = frozenset((*range(30, 39), *range(40, 49), *range(90, 108)))
"""Parameters of the escape sequence that sets a colour of text or ground."""


def colours(sent: bytes) -> set[int]:
    """Every colour that was asked for."""
    parameters = re.findall(rb"\x1b\[([\d;:]*)m", sent)
    return {int(one) for many in parameters for one in re.findall(rb"\d+", many)} & COLOURS


def covered_by(console: Console, title: str) -> bool:
    """Whether something with these words lies over the court."""
    return title in console.text and "next up" not in console.text


def printed(home: Path, *words: str, **more: str) -> Console:
    """What a command prints on a terminal, to its end."""
    with Console(command(*words), environment(home, **more), 100, 60) as console:
        assert console.read_to_end() == 0
        return console


def test_a_name_is_shown_as_it_is_written(tmp_path: Path, open_court: Opener) -> None:
    path = tmp_path / "book.db"
    books.prepare(path, players=(NAME, "Tove"))
    console = open_court(path)
    with books.reading(path) as book:
        console.wait_for(SHOWN)
        console.press(b"   ")
        console.wait_for("Ball 3 taken")
        console.press(b"z")  # the review of the round
        console.wait_for(partial(covered_by, console, SHOWN))
        console.press(b"z")
        console.wait_for("ROUND OVER")
        console.press(b"\t")
        console.wait_for(f"next up: {SHOWN}")
        console.press(b"y")
        console.wait_for(partial(covered_by, console, SHOWN))
        console.press(b"\x1b")
        console.wait_until_none(lambda: sights.differences(console.lines, book))
    assert b"\x1b[31m" not in console.sent


@pytest.mark.parametrize(
    ("words", "shown"),
    [(("day", "--full"), SHOWN), (("trend", "[bold]x"), SHOWN), (("sheet", "out"), ON_A_SHEET)],
    ids=["day", "trend", "sheet"],
)
def test_a_name_is_printed_as_it_is_written(
    tmp_path: Path, words: tuple[str, ...], shown: str
) -> None:
    books.prepare(tmp_path / "book.db", players=(NAME, "Tove"))
    books.rate(tmp_path / "book.db", "222 210 012")
    console = printed(tmp_path, *words)
    assert shown in console.text
    assert b"\x1b[31m" not in console.sent


def test_no_colour_is_sent_and_the_grades_are_told_apart(
    tmp_path: Path, open_court: Opener
) -> None:
    path = tmp_path / "book.db"
    books.prepare(path)
    console = open_court(path, NO_COLOR="1")
    seen = set()
    with books.reading(path) as book:
        console.wait_until_none(lambda: sights.differences(console.lines, book))
        for grade, key in zip(Grade, (b"u", b"i", b"o"), strict=True):
            press_and_see(console, book, key)
            sight = sights.cue(console.lines, "turn")
            assert sight == CueSight(LOOKS[grade].mark, LOOKS[grade].word, "")
            seen.add(sight)
        for key in (b" ", b"t", b"u", b"\r", b"\x7f"):
            press_and_see(console, book, key)
        for key, title in ((b"?", "Space"), (b"g", "Drill"), (b"n", "Note")):
            console.press(key)
            console.wait_for(partial(covered_by, console, title))
            console.press(b"\x1b")
            console.wait_until_none(lambda: sights.differences(console.lines, book))
    assert len(seen) == len(Grade)
    assert console.quit() == 0
    assert colours(bytes(console.sent)) == set()


@pytest.mark.parametrize("words", [("day",), ("trend", "Maren")], ids=lambda words: words[0])
def test_no_colour_is_printed(tmp_path: Path, words: tuple[str, ...]) -> None:
    books.prepare(tmp_path / "book.db")
    books.rate(tmp_path / "book.db", "222 210 012")
    assert colours(bytes(printed(tmp_path, *words, NO_COLOR="1").sent)) == set()
