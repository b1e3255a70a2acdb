"""On a terminal the full name is typed back before anybody is removed."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.terminal import books
from tests.terminal.console import Console, command, environment

pytestmark = pytest.mark.terminal


@pytest.mark.parametrize(
    ("typed", "said", "left"),
    [
        ("", "nothing was removed", 2),
        ("mar", "nothing was removed", 2),
        ("Maren", "Maren is gone: 1 round, 3 balls", 1),
    ],
    ids=["enter", "part", "full"],
)
def test_the_full_name_is_asked_for(tmp_path: Path, typed: str, said: str, left: int) -> None:
    path = tmp_path / "book.db"
    books.prepare(path, players=("Maren", "Tove"))
    books.rate(path, "222 210 012")
    with Console(command("erase", "Mar"), environment(tmp_path), 100, 40) as console:
        console.wait_for("Type the full name")
        assert "for good: 1 round, 3 balls" in console.text
        console.press(typed.encode() + b"\r")
        console.wait_for(said)
    with books.reading(path) as book:
        assert book.db.execute("SELECT count(*) FROM player").fetchone() == (left,)
