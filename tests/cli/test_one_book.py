"""The book that was named is the book that is used, wherever on the line it was named."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.program import PROGRAM, Home

SHEET = "clinic Bay  zone UTC\nday 2026-05-11\nplayer Ada  drill forehand/shadow\n222 220\n"


def test_a_book_named_before_the_command_is_used(home: Home) -> None:
    (home.folder / "bay.txt").write_text(SHEET)
    home.run("--book", "other.db", "sheet", "in", "bay.txt")
    assert not home.book.exists()
    assert "Ada   2 balls" in home.run("--book", "other.db", "day").out
    assert "Ada   2 balls" in home.run("day", "--book", "other.db").out


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no full device here")
@pytest.mark.parametrize("command", ["day", "version", "drills list", "--help"])
def test_a_full_disk_behind_a_page_is_one_sentence(home: Home, command: str) -> None:
    (home.folder / "bay.txt").write_text(SHEET)
    home.run("sheet", "in", "bay.txt")
    shell = ["sh", "-c", 'exec "$@" >/dev/full', "sh"]
    done = home.run(*command.split(), program=[*shell, *PROGRAM])
    assert done.code == 1
    assert "Traceback" not in done.err
    assert "could not be written" in done.err
