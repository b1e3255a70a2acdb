"""Blank on a real terminal: keys that come in one read with Ctrl+L are neither shown nor taken."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.terminal import books, sights
from tests.terminal.conftest import Opener

pytestmark = pytest.mark.terminal

LINE = "Ctrl+L or Escape brings the screen back."


def test_keys_typed_in_the_same_breath_are_not_taken(tmp_path: Path, open_court: Opener) -> None:
    path = tmp_path / "book.db"
    books.prepare(path, players=("Maren", "Tove"))
    console = open_court(path)
    with books.reading(path) as book:
        console.wait_for("next up: Tove")
        console.press(b"\x0cuio j\r\t")
        console.wait_for(lambda: console.text.strip() == LINE)
        console.press(b"\x0co")
        console.wait_for("[o ●]")
        console.wait_until_none(lambda: sights.differences(console.lines, book))
        assert book.db.execute("SELECT count(*) FROM journal").fetchone() == (1,)
    assert console.quit() == 0
