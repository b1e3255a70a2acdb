"""A clinic on one court has no other courts to show, and says so where they are asked for."""

from __future__ import annotations

from pathlib import Path

from tests.court import desk_in
from tests.courtside.screen import flat, on_court


def test_the_other_courts_of_one_court_are_a_sentence(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    seen = flat(on_court(desk, ("escape", "enter", "b", "u")))
    assert "on one court" in flat(on_court(desk, ("escape", "enter", "b")))
    assert "Maren" in seen
