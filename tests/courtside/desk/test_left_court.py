"""Whoever leaves while at the feed: their balls are kept, and the court says who is next."""

from __future__ import annotations

from pathlib import Path

import pytest

from courtlog.coaching.plans.rotation import FEED, Presence
from courtlog.courtside.desk.desk import Desk
from tests.court import again, desk_in, feed, player, written
from tests.courtside.screen import on_court

FOUR = ("Maren", "Tove", "Ruben", "Anouk")


def balls_of(desk: Desk) -> str:
    live = desk.view.live
    assert live is not None
    return f"{live.player.name} {written(live.feeding)}"


@pytest.mark.parametrize("presence", [Presence.LEFT, Presence.LATE])
def test_the_round_of_whoever_goes_is_over_and_its_balls_are_kept(
    tmp_path: Path, presence: Presence
) -> None:
    desk = desk_in(tmp_path, FOUR)
    feed(desk, "222 000 21")
    desk.rotation.attend(player(desk, "Maren"), presence)
    for seen in (desk, again(desk)):
        assert balls_of(seen) == "Maren 222 000 21-"
        assert seen.view.ended
        assert seen.view.rotation.court.at_feed is None
        assert FEED not in seen.view.rotation.court.stand().values()
    assert "3 balls kept. Tove next: Tab." in desk.view.message


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
def test_the_screen_names_who_is_next_and_nobody_as_on_court(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    desk = desk_in(tmp_path, FOUR)
    feed(desk, "222")
    text = on_court(desk, ["f12", "x", "escape"], size)
    assert "Tove next" in text
    assert "► Maren" not in text
    assert "next feed" not in text
    on_court(again(desk), ["enter"], size)
    assert again(desk).view.ended, "whoever has left is not put on again by Enter"
    on_court(again(desk), ["tab"], size)
    assert balls_of(again(desk)) == "Tove "


def test_without_a_ball_and_with_nobody_else_the_court_says_so(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, ("Maren",))
    desk.rotation.attend(player(desk, "Maren"), Presence.LEFT)
    assert desk.view.ended
    assert "Maren has left for today. Nobody else is waiting." in desk.view.message


def test_backspace_brings_back_who_left_by_mistake(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, FOUR)
    feed(desk, "222 000")
    desk.rotation.attend(player(desk, "Maren"), Presence.LEFT)
    desk.balls.take_back()
    assert balls_of(desk) == "Maren 222 000"
    assert not desk.view.ended
    assert desk.view.rotation.court.away == {}
    assert desk.view.rotation.court.at_feed == player(desk, "Maren").id


def test_whoever_waits_leaves_without_a_change_on_court(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, FOUR)
    feed(desk, "222")
    before = desk.view.live
    desk.rotation.attend(player(desk, "Ruben"), Presence.LEFT)
    assert desk.view.live == before
    assert desk.view.message == "Ruben has left for today."
