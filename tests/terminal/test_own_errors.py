"""An error that nobody expected: the court comes back from the book, and says so once."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from tests.terminal import books, sights
from tests.terminal.console import Console, environment
from tests.terminal.mixed import press_and_see

pytestmark = pytest.mark.terminal

PROGRAM = """
import sys
from courtlog.cli import start
{fault}
sys.argv[1:] = ["--book", {book!r}]
start.main()
"""

FAULTS = {
    "a key": """
from courtlog.courtside.desk.ball_desk import BallDesk
def toggle_pause(desk): raise RuntimeError("Maren must not be told of")
BallDesk.toggle_pause = toggle_pause
""",
    "a dialog": """
from courtlog.courtside.dialogs.questions import PickList
def compose(dialog): raise RuntimeError("Maren must not be told of")
PickList.compose = compose
""",
    "a line of text": """
from courtlog.courtside.dialogs.own_screen import TextLine
async def on_key(line, event): raise RuntimeError("Maren must not be told of")
TextLine.on_key = on_key
""",
    "the application": """
from courtlog.courtside.app.court_app import CourtlogApp
def action_blank(app): raise RuntimeError("Maren must not be told of")
CourtlogApp.action_blank = action_blank
""",
    "the clock's second": """
from courtlog.courtside.app.court import CourtScreen
from courtlog.courtside.desk.rotation_desk import RotationDesk
def tick(desk):
    if desk._state.view.paused: raise RuntimeError("Maren must not be told of")
RotationDesk.tick = tick
""",
    "a look-up": """
import sqlite3
from courtlog.courtside.screens.board import BoardScreen
def compose(board): raise sqlite3.OperationalError("Maren must not be told of")
BoardScreen.compose = compose
""",
}
KEYS = {
    "a key": b"p",
    "a dialog": b"y",
    "a line of text": b"nx",
    "the application": b"\x0c",
    "the clock's second": b"p",
    "a look-up": b"\x1b[24~",
}


@pytest.mark.parametrize("what", [what for what in FAULTS if what != "a look-up"])
def test_the_court_comes_back_from_the_book(tmp_path: Path, what: str) -> None:
    path = tmp_path / "book.db"
    books.prepare(path)
    program = PROGRAM.format(fault=FAULTS[what], book=str(path))
    with Console([sys.executable, "-c", program], environment(tmp_path)) as console:
        with books.reading(path) as book:
            console.wait_until_none(lambda: sights.differences(console.lines, book))
            for _ in range(2):  # and once more: it is not the last one
                press_and_see(console, book, b"u")
                console.press(KEYS[what])
                console.wait_for("an error of its own")
                if what == "the clock's second":
                    console.press(b"p")
                console.wait_until_none(lambda: sights.differences(console.lines, book))
                press_and_see(console, book, b"i")
                assert "Traceback" not in console.sent.decode(errors="replace")
        assert console.quit() == 0
    kept = (tmp_path / "errors.txt").read_text(encoding="utf-8")
    assert kept.count("courtlog 0") == 2
    assert "Maren" not in kept
    assert str(tmp_path) not in kept
    assert "Error" in kept


def test_a_read_that_fails_on_another_screen_is_told_on_the_court(tmp_path: Path) -> None:
    path = tmp_path / "book.db"
    books.prepare(path)
    program = PROGRAM.format(fault=FAULTS["a look-up"], book=str(path))
    with Console([sys.executable, "-c", program], environment(tmp_path)) as console:
        console.wait_for("next up")
        console.press(KEYS["a look-up"])
        console.wait_for("could not be used")
        assert console.quit() == 0
    assert not (tmp_path / "errors.txt").exists()


def test_a_court_that_cannot_be_shown_ends_with_a_sentence_and_a_code(tmp_path: Path) -> None:
    path = tmp_path / "book.db"
    books.prepare(path)
    fault = """
from courtlog.courtside.app.court import CourtScreen
def compose(court): raise RuntimeError("Maren must not be told of")
CourtScreen.compose = compose
"""
    program = PROGRAM.format(fault=fault, book=str(path))
    with Console([sys.executable, "-c", program], environment(tmp_path)) as console:
        assert console.read_to_end() == 1
        assert "an error of its own" in console.text
        assert "Traceback" not in console.text
