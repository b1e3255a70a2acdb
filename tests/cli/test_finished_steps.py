"""What was done is never told as refused: trouble after it says so too."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.program import PROGRAM, WEEKEND, Home, home_with

pytestmark = pytest.mark.skipif(not Path("/dev/full").exists(), reason="no full device here")

NOWHERE = ["sh", "-c", 'exec "$@" >/dev/full', "sh", *PROGRAM]
NOBODY = ["sh", "-c", 'exec "$@" >/dev/full 2>&1', "sh", *PROGRAM]


@pytest.fixture
def own(home: Home) -> Home:
    return home_with(home.folder, WEEKEND)


def test_a_change_that_cannot_be_told_is_told_as_made(own: Home) -> None:
    said = own.run("roster", "add", "Ada", program=NOWHERE)
    assert said.code == 1
    assert said.err == (
        "courtlog: The page could not be written (No space left on device)."
        " This is done: what was asked for is in the book.\n"
    )
    assert any("Ada" in line for line in own.run("roster", "list").lines)


@pytest.mark.parametrize(
    ("command", "done"),
    [
        ("backup copy.db", "copy.db is written"),
        ("export folder", "folder is written"),
        ("settings basket 80", "basket is set"),
    ],
)
def test_a_file_that_cannot_be_told_is_told_as_written(own: Home, command: str, done: str) -> None:
    said = own.run(*command.split(), program=NOWHERE)
    assert (said.code, f"This is done: {done}." in said.err) == (1, True), said.err


def test_what_only_reads_has_done_nothing(own: Home) -> None:
    said = own.run("day", program=NOWHERE)
    assert (said.code, "This is done" in said.err) == (1, False)


@pytest.mark.parametrize(
    "command", ["day", "roster add Ada", "day --player Nobody", "--bad-option"]
)
def test_where_nobody_can_be_told_the_exit_code_says_it(own: Home, command: str) -> None:
    assert own.run(*command.split(), program=NOBODY).code in (1, 2)
