"""A key pressed before the last one has shown belongs to what the last one opened or closed."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.court import written
from tests.terminal import books, sights
from tests.terminal.conftest import Opener
from tests.terminal.mixed import moment, press_and_see

pytestmark = pytest.mark.terminal


def test_tab_and_tab_again_put_the_next_player_on_court(tmp_path: Path, open_court: Opener) -> None:
    path = tmp_path / "book.db"
    books.prepare(path)
    console = open_court(path)
    with books.reading(path) as book:
        console.wait_until_none(lambda: sights.differences(console.lines, book))
        press_and_see(console, book, b" ")
        console.press(b"\t")  # ends the round, and shows its review
        console.wait_for(lambda: "next up" not in console.text)
        console.press(b"\t")
        console.wait_until_none(lambda: sights.differences(console.lines, book))
        assert moment(book)[1].player.name == "Tove"


def test_a_note_has_the_words_typed_with_its_key(tmp_path: Path, open_court: Opener) -> None:
    path = tmp_path / "book.db"
    books.prepare(path)
    console = open_court(path)
    with books.reading(path) as book:
        console.wait_until_none(lambda: sights.differences(console.lines, book))
        console.press(b" nfeet first")
        console.wait_for("Note on")
        console.press(b"\r")
        console.wait_until_none(lambda: sights.differences(console.lines, book))
        assert [*book.db.execute("SELECT text FROM note")] == [("feet first",)]
        assert written(moment(book)[1].feeding) == "222"


def test_a_grade_typed_with_the_end_of_a_note_is_a_grade(
    tmp_path: Path, open_court: Opener
) -> None:
    path = tmp_path / "book.db"
    books.prepare(path)
    console = open_court(path)
    with books.reading(path) as book:
        console.wait_until_none(lambda: sights.differences(console.lines, book))
        console.press(b" n")
        console.wait_for("Note on")
        console.press(b"feet first\ru")
        console.press(b"l")  # behind all that was typed before
        console.wait_for(lambda: written(moment(book)[1].feeding) == "222|02-")
        assert [*book.db.execute("SELECT text FROM note")] == [("feet first",)]


def test_a_player_chosen_by_typing_at_once_is_that_player(
    tmp_path: Path, open_court: Opener
) -> None:
    path = tmp_path / "book.db"
    books.prepare(path)
    console = open_court(path)
    with books.reading(path) as book:
        console.wait_until_none(lambda: sights.differences(console.lines, book))
        console.press(b"yru")
        console.wait_for("Player")
        console.press(b"\r")
        console.wait_until_none(lambda: sights.differences(console.lines, book))
        assert moment(book)[1].player.name == "Ruben"
        assert books.journal(path) == []


ESCAPE_AND_KEYS = {
    "cues": (b" \x1bc", "Cues:"),
    "wrong player": (b" \x1bw", "another player's"),
    "the second page": (b" \x1b\r7", "Theme: shade."),
    "closed again": (b" \x1b\x1b\x1b4\x1b\x1b\r4", "Sounds o"),
}


@pytest.mark.parametrize(("sent", "sight"), ESCAPE_AND_KEYS.values(), ids=ESCAPE_AND_KEYS)
def test_escape_and_its_keys_in_one_read_are_no_grades(
    tmp_path: Path, open_court: Opener, sent: bytes, sight: str
) -> None:
    """On the left hand's pad, where c and w grade: Alt and a key come as the same bytes."""
    path = tmp_path / "book.db"
    books.prepare(path)
    (tmp_path / "settings.json").write_text('{"look": "close", "pad": "left"}')
    console = open_court(path)
    with books.reading(path) as book:
        console.wait_until_none(lambda: sights.differences(console.lines, book))
        console.press(sent)
        console.wait_for(sight)
        assert written(moment(book)[1].feeding) == "222"


def test_thirty_of_one_key_at_once_are_a_key_held_down(tmp_path: Path, open_court: Opener) -> None:
    """As a keyboard repeats it; other keys that come as fast are each one."""
    path = tmp_path / "book.db"
    books.prepare(path)
    console = open_court(path, COURTLOG_HELD_KEYS="once")
    with books.reading(path) as book:
        console.wait_until_none(lambda: sights.differences(console.lines, book))
        console.press(b" " * 30)
        console.wait_for("Held down: counted once.")
        assert written(moment(book)[1].feeding) == "222"
        console.press(b"uil" + b"\x7f" * 30)
        console.wait_for(lambda: written(moment(book)[1].feeding) == "222|1--")
