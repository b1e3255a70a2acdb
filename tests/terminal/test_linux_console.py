"""The console of Linux without a desktop gets signs that its font has, unless told otherwise."""

from __future__ import annotations

from pathlib import Path

import pytest

from courtlog.plain_text import is_seen
from tests.systems.test_plain_consoles import CP437
from tests.terminal import books
from tests.terminal.console import Console, command, court, environment

pytestmark = pytest.mark.terminal


@pytest.mark.parametrize(("marks", "replaced"), [("auto", True), ("shapes", False)])
def test_the_console_of_linux_shows_pages_and_court_in_its_own_signs(
    tmp_path: Path, marks: str, replaced: bool
) -> None:
    env = environment(tmp_path, TERM="linux")
    (tmp_path / "settings.json").write_text(f'{{"look": "close", "marks": "{marks}"}}')
    books.prepare(tmp_path / "book.db")
    books.rate(tmp_path / "book.db", "222 210 012")
    with Console(command("day"), env, 80, 60) as console:
        assert console.read_to_end() == 0
        page = console.sent.decode()
    with Console(court(tmp_path / "book.db"), env, 80, 24) as console:
        console.wait_for("next feed")
        screen = console.text
    assert (not set(filter(is_seen, page + screen)) - CP437) == replaced
