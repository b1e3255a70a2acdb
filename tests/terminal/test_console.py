"""The harness itself: what it waits for, and when it gives up."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.terminal.console import Console, environment

pytestmark = pytest.mark.terminal

SILENT, GONE = ["sleep", "1000"], ["true"]
"""A program that never writes, and one that has ended."""


def test_what_no_screen_tells_is_seen(tmp_path: Path) -> None:
    looks = iter([False, False, True])
    with Console(SILENT, environment(tmp_path)) as console:
        console.wait_for(lambda: next(looks))
    assert list(looks) == []


def test_a_program_that_has_ended_is_looked_at_once_more(tmp_path: Path) -> None:
    with Console(GONE, environment(tmp_path)) as console:
        console.read_to_end()
        looks = iter([False, True])
        console.wait_for(lambda: next(looks))
        with pytest.raises(AssertionError, match="the awaited sight never came"):
            console.wait_for(lambda: False)
