"""Leaving the court says what was kept, and how the evening goes on."""

from __future__ import annotations

from pathlib import Path

from tests.terminal.books import prepare
from tests.terminal.conftest import Opener
from tests.terminal.console import CTRL_Q, Console, command, environment


def test_leaving_says_what_was_kept_and_the_two_commands_for_the_evening(
    tmp_path: Path, open_court: Opener
) -> None:
    book = tmp_path / "book.db"
    prepare(book)
    console = open_court(book, 200, 30)
    console.wait_for("next up")
    console.press(b"  ")
    console.wait_for("Ball 2 taken")
    console.press(CTRL_Q)
    assert console.read_to_end() == 0
    kept = f"Kept of day 1 · Tue 12 May: 2 balls of 1 player, in {book}."
    assert kept in console.text
    assert f"courtlog --book {book} evening FOLDER" in console.text
    assert f"courtlog --book {book} day " in console.text


def test_a_new_book_that_is_left_at_once_says_nothing(tmp_path: Path) -> None:
    with Console(command(), environment(tmp_path)) as console:
        console.wait_for("A new book.")
        console.press(b"\x1b")
        assert console.read_to_end() == 0
        assert "Kept" not in console.text
