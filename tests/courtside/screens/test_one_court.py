"""The other courts by keys; a clinic on one court has none, and says so."""

from __future__ import annotations

from pathlib import Path

from courtlog.courtside.screens.courts.trade_session import TradeSession
from tests.court import desk_in
from tests.courtside.screen import flat, on_court
from tests.logbook.exchange.courts.court_books import dealt_courts


def test_the_other_courts_of_one_court_are_a_sentence(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    seen = flat(on_court(desk, ("escape", "enter", "b", "u")))
    assert "on one court" in flat(on_court(desk, ("escape", "enter", "b")))
    assert "Maren" in seen


def test_a_pick_by_key_says_what_it_read(tmp_path: Path) -> None:
    """The stick is read once that is on the screen; the next key waits for it."""
    courts = dealt_courts(tmp_path, c1="Maren Tove", c2="Ruben Aino")
    courts.desks["1"].clock.pass_seconds(60)  # type: ignore[attr-defined]
    TradeSession(courts.desks["1"]).hand_over(courts.player("Maren"), "2")
    desk = courts.desks["2"]
    seen = flat(on_court(desk, ("escape", "enter", "b", "r", "p")))
    assert "Maren is on this court now. Known of court 1 as of 08:31" in seen
    assert courts.player("Maren") in desk.view.rotation.court.roster
