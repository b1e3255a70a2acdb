"""Midnight, and a laptop that slept: what the court screen asks and says then."""

from __future__ import annotations

import re
from datetime import timedelta
from pathlib import Path

import pytest
from textual.pilot import Pilot

from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.desk.desk import Desk
from tests.court import DAY, Clock, again, desk_in, feed, player
from tests.courtside.screen import on_court

HOUR = 3600
ASKED = "begins a new day"


def test_a_round_over_midnight_stays_and_the_next_one_is_asked_about(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    clock = desk.clock
    assert isinstance(clock, Clock)
    feed(desk, "222")

    async def night(pilot: Pilot[None], app: CourtlogApp) -> None:
        for _ in range(60):  # on and on, never twenty minutes without a key
            clock.pass_seconds(1000)
            await pilot.press("space")
        await pilot.press("z")

    text = on_court(desk, then=night)
    assert desk.state.today() == DAY + timedelta(days=1)
    assert ASKED not in text
    assert desk.view.day.date == DAY
    assert len(desk.view.live.feeding.taken if desk.view.live else ()) == 61


def test_the_next_morning_the_first_key_is_asked_about(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    clock = desk.clock
    assert isinstance(clock, Clock)
    feed(desk, "222")
    desk.rounds.end_round()

    async def morning(pilot: Pilot[None], app: CourtlogApp) -> None:
        clock.pass_seconds(24 * HOUR)
        await pilot.press("tab")

    text = on_court(desk, then=morning)
    assert ASKED in text
    assert desk.view.live is not None
    assert desk.view.live.player.name == "Maren"

    async def answered(pilot: Pilot[None], app: CourtlogApp) -> None:
        clock.pass_seconds(24 * HOUR)
        await pilot.press("enter", "tab")

    other = again(desk)
    on_court(other, then=answered)
    assert other.view.day.date == DAY + timedelta(days=1)


def test_whoever_goes_on_with_the_day_before_is_asked_once(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    clock = desk.clock
    assert isinstance(clock, Clock)
    desk.rounds.end_round()

    async def late(pilot: Pilot[None], app: CourtlogApp) -> None:
        clock.pass_seconds(24 * HOUR)
        await pilot.press("tab", "escape", "tab", "space", "z", "tab")

    text = on_court(desk, then=late)
    assert ASKED not in text
    assert desk.view.day.date == DAY
    assert not desk.view.ended


def after_a_ball(folder: Path) -> tuple[Desk, Clock]:
    """A round whose first ball was just taken."""
    desk = desk_in(folder)
    clock = desk.clock
    assert isinstance(clock, Clock)
    feed(desk, "222")
    return desk, clock


def paused(desk: Desk) -> int:
    """Milliseconds that are no time of the round."""
    ((found,),) = desk.book.db.execute("SELECT paused_ms FROM round")
    return int(found)


def test_hours_without_a_key_are_said_and_are_no_time_of_the_round(tmp_path: Path) -> None:
    desk, clock = after_a_ball(tmp_path)
    clock.pass_seconds(3 * HOUR)
    assert "No key for 3:00:00: counted as a pause." in on_court(desk, ["space"])
    clock.pass_seconds(19 * 60)
    assert "counted as a pause" not in on_court(desk, ["space"])
    clock.pass_seconds(HOUR)
    text = on_court(again(desk), ["u"])
    assert "No key for 1:00:00: counted as a pause." in text
    assert paused(desk) == 4 * HOUR * 1000


def test_a_pause_that_was_asked_for_is_not_counted_twice(tmp_path: Path) -> None:
    desk, clock = after_a_ball(tmp_path)
    desk.balls.toggle_pause()
    clock.pass_seconds(HOUR)
    feed(desk, "222")
    assert paused(desk) == HOUR * 1000
    assert "counted as" not in desk.view.message


def test_a_pause_is_not_counted_again_after_a_restart_with_no_key_between(tmp_path: Path) -> None:
    desk, clock = after_a_ball(tmp_path)
    clock.pass_seconds(2 * HOUR)
    feed(desk, "222")
    clock.pass_seconds(60)
    desk.balls.toggle_pause()
    clock.pass_seconds(HOUR)
    desk.balls.toggle_pause()
    clock.pass_seconds(60)
    assert "counted as" not in on_court(again(desk), ["u"])
    assert paused(desk) == 3 * HOUR * 1000


def test_hours_after_a_pause_are_counted_after_a_restart_as_well(tmp_path: Path) -> None:
    desk, clock = after_a_ball(tmp_path)
    desk.balls.toggle_pause()
    clock.pass_seconds(HOUR)
    again(desk).balls.toggle_pause()
    clock.pass_seconds(HOUR / 2)
    assert "No key for 30:00: counted as a pause." in on_court(again(desk), ["u"])
    assert paused(desk) == 1.5 * HOUR * 1000


def minutes_shown(desk: Desk) -> list[str]:
    """The minutes at each station, as the wide court shows them."""
    text = on_court(again(desk), size=(120, 40))
    return re.findall(r"(?:feed|self-feed|fence|shadow) +(\d+ min)", text)


@pytest.mark.parametrize("paused", [False, True], ids=["no key", "paused"])
def test_time_counted_as_a_pause_is_no_time_at_a_station(tmp_path: Path, paused: bool) -> None:
    desk = desk_in(tmp_path, ("Maren", "Tove", "Ruben", "Anouk"))
    clock = desk.clock
    assert isinstance(clock, Clock)
    feed(desk, "222")
    clock.pass_seconds(3 * 60)
    feed(desk, "222")
    if paused:
        desk.balls.toggle_pause()
    clock.pass_seconds(HOUR)
    feed(desk, "222")
    assert minutes_shown(desk) == ["3 min"] * 4
    clock.pass_seconds(2 * 60)
    assert minutes_shown(desk) == ["5 min"] * 4


def test_minutes_at_a_station_stand_still_in_a_pause(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, ("Maren", "Tove", "Ruben", "Anouk"))
    clock = desk.clock
    assert isinstance(clock, Clock)
    clock.pass_seconds(3 * 60)
    desk.balls.toggle_pause()
    clock.pass_seconds(9 * 60)
    assert minutes_shown(desk) == ["3 min"] * 4


def test_who_went_to_a_station_within_a_pause_has_been_there_since_its_end(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, ("Maren", "Tove", "Ruben", "Anouk"))
    clock = desk.clock
    assert isinstance(clock, Clock)
    desk.balls.toggle_pause()
    clock.pass_seconds(5 * 60)
    desk.rotation.swap(player(desk, "Tove"), player(desk, "Ruben"))
    clock.pass_seconds(9 * 60)
    desk.balls.toggle_pause()
    clock.pass_seconds(60)
    assert minutes_shown(desk) == ["1 min"] * 4
