"""What could be lost unseen: a second window, a key of another pad, a name typed twice."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.pilot import Pilot

from courtlog.coaching.game.grades import Grade
from courtlog.coaching.on_court.feeding import Rate
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.sound.loudspeaker import Request
from courtlog.courtside.sound.sounds import Sound
from courtlog.errors import ChangedElsewhereError
from tests.court import LIBRARY, Clock, again, close_look, desk_in, feed, open_book, written
from tests.courtside.screen import on_court


def test_a_second_window_never_overwrites_the_first(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "_2")
    other = again(desk)
    feed(desk, "-1")
    with pytest.raises(ChangedElsewhereError):
        other.balls.press(Rate(0, Grade.MISSED))
    live = again(desk).view.live
    assert live is not None
    assert live.feeding == (desk.view.live and desk.view.live.feeding)


def test_the_window_that_was_behind_shows_what_the_book_holds(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "2")

    async def behind(pilot: Pilot[None], app: CourtlogApp) -> None:
        feed(desk, "_")
        await pilot.press("u")

    text = on_court(again(desk), then=behind)
    assert "Another window has changed this round" in text
    assert "1 of 1" in text
    live = again(desk).view.live
    assert live is not None
    assert written(live.feeding) == "222"


def test_a_key_of_another_pad_is_heard(tmp_path: Path, heard: list[Request]) -> None:
    desk = desk_in(tmp_path, settings=close_look(pad="numbers", review=False))
    text = on_court(desk, ["x"])
    assert "x is not on this pad (number pad): Esc 6 changes it" in text
    assert heard == [Request(Sound.REFUSED)]
    assert "not on this pad" not in on_court(again(desk), ["x", "7"])


def test_a_player_can_join_at_the_court(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    assert "Cleo is on the roster." in on_court(desk, ["f9", "a", *"Cleo", "enter", "escape"])
    assert [player.name for player in again(desk).view.roster][-1] == "Cleo"


def test_a_name_typed_twice_at_the_beginning_is_asked_about(tmp_path: Path) -> None:
    desk = Desk(open_book(tmp_path), lambda: LIBRARY, close_look(), Clock())
    keys = [*"Bay", "enter", *"Ana, Bo, Ana", *["enter"] * 6]
    assert "Ana stands twice" in on_court(desk, keys)
    assert not desk.clinic.has_day()


def test_names_are_found_without_their_accents(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, names=("Maren", "Zoë"))
    on_court(desk, ["y", *"zoe", "enter"])
    live = again(desk).view.live
    assert live is not None
    assert live.player.name == "Zoë"
    assert "nothing fits" in on_court(again(desk), ["y", *"qq"])
