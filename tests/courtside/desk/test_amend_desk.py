"""Putting right: what is said of the court afterwards is what the court shows."""

from __future__ import annotations

from pathlib import Path

import pytest

from courtlog.courtside.desk.desk import Desk
from tests.court import again, desk_in, feed, player, written
from tests.courtside.screen import on_court


def round_shown(desk: Desk) -> str:
    live = again(desk).view.live
    assert live is not None
    return f"{live.player.name} {written(live.feeding)}"


@pytest.mark.parametrize("count", [1, 3], ids=["one", "all"])
@pytest.mark.parametrize("ended", [False, True], ids=["open", "ended"])
def test_the_court_shows_the_player_that_the_sentence_names(
    tmp_path: Path, count: int, ended: bool
) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "222 000 111")
    if ended:
        desk.rounds.end_round()
    desk.amendments().give_last(player(desk, "Tove"), count)
    moved = ["222", "000", "111"][-count:]
    assert round_shown(desk) == f"Tove {' '.join(moved)}"
    assert desk.view.ended == ended
    said = desk.view.message
    assert ("on court now" in said) == (not ended), said
    assert ("round is over" in said) == ended, said


def test_after_an_ended_round_moved_the_next_keys_do_something(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    text = on_court(desk, [*["space"] * 3, "z", "f4", *"tov", "enter", "enter"])
    assert "3 balls moved to Tove, whose round is over" in text
    on_court(again(desk), ["backspace"])
    assert round_shown(desk) == "Tove 222 222 222"
    assert not again(desk).view.ended, "Backspace goes back into the round that is shown"


def test_what_was_moved_after_the_end_comes_back_with_its_round(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "222 000 111")
    desk.rounds.end_round()
    before = again(desk).view.live
    desk.amendments().give_last(player(desk, "Tove"), 3)
    desk.amendments().take_back(desk.amendments().amendments()[0])
    assert again(desk).view.live == before
