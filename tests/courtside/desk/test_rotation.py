"""The rotation on court: who is next, who is where, a turn's clock, reps alone, ball limits."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest
from textual.events import Key
from textual.pilot import Pilot

from courtlog.coaching.care.heat_care import PROMPT
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.plans.clinic_plan import ClinicPlan
from courtlog.coaching.plans.planned_round import PlannedRound
from courtlog.coaching.plans.rotation import Presence
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.screens.board import BoardScreen
from courtlog.courtside.sound.sounds import Sound
from courtlog.logbook.reads import clinic_lookups, rotation_lookups
from courtlog.logbook.reads.rotation_lookups import Solo
from courtlog.logbook.writes.clinic_writer import keep_plan
from courtlog.reports.facts.plan_facts import plan_facts
from tests.court import DAY, LIBRARY, Clock, again, desk_in, feed, player, written
from tests.courtside.screen import on_court

FOUR = ("Maren", "Tove", "Ruben", "Anouk")


def clock_of(desk: Desk) -> Clock:
    assert isinstance(desk.clock, Clock)
    return desk.clock


def on_feed(desk: Desk) -> str:
    live = again(desk).view.live
    assert live is not None
    return live.player.name


def turns(desk: Desk, count: int, minutes: float = 4) -> None:
    """So many turns of four balls by whoever is next up."""
    for _ in range(count):
        feed(desk, "____")
        clock_of(desk).pass_seconds(60 * minutes)
        desk.rounds.start(player=desk.view.rotation.next_up)


def test_the_strip_says_who_is_next_and_who_is_where(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, FOUR)
    turns(desk, 1)
    clock_of(desk).pass_seconds(95)
    text = on_court(again(desk))
    assert "next up: Ruben, then Anouk · rotation 2 · 1:35" in text
    assert "self-feed Ruben · fence Anouk · shadow Maren" in text
    wide = on_court(again(desk), size=(120, 40))
    assert "► Tove       feed        1 min" in wide
    assert "Ruben      self-feed   1 min" in wide
    assert "balls 4 apart: fair" in wide


def test_tab_takes_the_fewest_balls_and_shift_tab_passes_over(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, FOUR)
    on_court(desk, ["space", "tab", "space", "shift+tab", "space", "tab"])
    names = [turn.player for turn in desk.view.rotation.court.turns]
    order = [next(p.name for p in desk.view.roster if p.id == who) for who in names]
    assert order == ["Maren", "Tove", "Anouk", "Ruben"], "Ruben was passed over once"


def test_late_left_and_here_on_the_board(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, FOUR)
    on_court(desk, ["f12", "down", "l", "escape"])
    assert "next up: Ruben, then Anouk" in on_court(again(desk))
    assert "late Tove" in on_court(again(desk))
    desk = again(desk)
    turns(desk, 3)
    text = on_court(desk, ["f12", "down", "e", "down", "x", "escape"])
    assert "next up: Tove, then Anouk" in text
    assert "left Ruben" in text
    court = rotation_lookups.court(
        desk.book, desk.view.clinic.id, desk.view.day.id, desk.view.roster, {}
    )
    assert court.head_start[player(desk, "Tove").id] == 4, "the median of those who hit four each"


def test_two_players_swap_for_a_turn(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, FOUR)
    text = on_court(desk, ["f12", "down", "w", "down", "down", "w", "escape"])
    assert "Tove and Anouk have changed places for this rotation." in text
    assert "next up: Anouk, then Ruben" in on_court(again(desk))
    text = on_court(again(desk), ["f12", "w", "down", "w"])
    assert "Two players who wait for the feed can change places." in text


def test_enter_on_the_board_puts_the_chosen_one_on_court(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, FOUR)
    on_court(desk, ["space", "f12", "down", "down", "down", "enter", "space"])
    assert on_feed(desk) == "Anouk"


def test_the_clock_of_a_turn_rings_once_and_stands_still_in_a_pause(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, FOUR)
    text = on_court(desk, ["f12", "m", "backspace", "5", "enter", "escape"])
    assert "A rotation is 5 min." in text
    clock = clock_of(desk)
    desk = again(desk)
    desk.balls.toggle_pause()
    clock.pass_seconds(1000)
    desk.rotation.tick()
    assert desk.state.due == []
    desk.balls.toggle_pause()
    for _ in range(299):
        clock.pass_seconds(1)
        desk.rotation.tick()
    assert desk.state.due == []
    clock.pass_seconds(1)
    desk.rotation.tick()
    desk.rotation.tick()
    assert desk.state.due == [Sound.OVER]
    assert desk.view.message == "The rotation is up (5:00). Tove next: Tab."
    assert "rotation 1 · 5:00 of 5:00" in on_court(again(desk))


def test_keys_typed_before_a_dialog_is_there_do_nothing_on_the_board(tmp_path: Path) -> None:
    """The minutes' dialog is asked for, then the letters of the board; then Escape and a grade."""
    desk = desk_in(tmp_path, FOUR)

    async def burst(pilot: Pilot[None], app: CourtlogApp) -> None:
        assert isinstance(app.screen, BoardScreen)
        for key in "mxlo":
            app.post_message(Key(key, key))
        await pilot.pause()
        await pilot.press("escape")
        assert isinstance(app.screen, BoardScreen)
        assert again(desk).view.rotation.court.away == {}
        assert again(desk).view.rotation.plan == ClinicPlan()
        for key in ("escape", "space"):
            app.post_message(Key(key, None if key == "escape" else " "))

    on_court(desk, ["f12"], then=burst)
    live = again(desk).view.live
    assert live is not None
    assert written(live.feeding) == "222"


def test_home_and_end_choose_on_the_board(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, FOUR)
    on_court(desk, ["f12", "end", "l", "escape"])
    assert again(desk).view.rotation.court.away == {player(desk, "Anouk").id: Presence.LATE}
    on_court(again(desk), ["f12", "end", "home", "enter", "f12", "end", "e", "pageup", "x"])
    assert again(desk).view.rotation.court.away == {player(desk, "Maren").id: Presence.LEFT}


@pytest.mark.parametrize("typed", ["-1", "five", "121", "nan", "1e9"])
def test_a_turn_of_no_sensible_length_changes_nothing(tmp_path: Path, typed: str) -> None:
    desk = desk_in(tmp_path, FOUR)
    text = on_court(desk, ["f12", "m", "backspace", *map(_key, typed), "enter"])
    assert "Nothing changed." in text
    assert again(desk).view.rotation.plan.turn_seconds is None


def _key(character: str) -> str:
    return {"-": "minus"}.get(character, character)


def test_stations_are_named_by_the_coach(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, FOUR)
    keys = ["f12", "g", *["backspace"] * 40, *"wall", "comma", *"ladder", "enter", "escape"]
    text = on_court(desk, keys)
    assert "Stations beside the feed: wall, ladder." in text
    assert "ladder Tove · wall Ruben · rest Anouk" in on_court(again(desk))


def test_no_stations_beside_the_feed_is_a_way_to_run_a_clinic(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, FOUR)
    text = on_court(desk, ["f12", "g", *["backspace"] * 40, "enter", "escape"])
    assert "Stations beside the feed: none." in text
    assert "rest Tove, Ruben, Anouk" in on_court(again(desk))


def test_the_board_and_the_shell_go_by_the_same_rules(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, FOUR)
    board = ["f12", "g", *["backspace"] * 40]
    nine = [key for name in "abcdefghi" for key in (name, "comma")]
    assert "Nothing changed. The stations are 1 to 8 names" in on_court(
        desk, [*board, *nine, "enter"]
    )
    twice = on_court(again(desk), [*board, "a", "comma", "A", "enter"])
    assert "Nothing changed. The stations are each named once." in twice
    short = on_court(again(desk), ["f12", "m", "backspace", *"0.4", "enter"])
    assert "from 0.5 to 120, not '0.4'" in short
    half = on_court(again(desk), ["f12", "m", "backspace", *"2", "comma", "5", "enter", "escape"])
    assert "A rotation is 2.5 min." in half
    off = on_court(again(desk), ["f12", "m", *["backspace"] * 3, "0", "enter", "escape"])
    assert "The rotation has no clock." in off
    assert clinic_lookups.plan(desk.book, desk.view.clinic.id) == ClinicPlan()


def test_the_orders_change_where_people_stand(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, FOUR)
    assert "williams order" in on_court(desk, ["f12", "o"])
    assert "Ruben + Tove" in on_court(again(desk), ["f12", "o", "escape"]).replace(
        "Tove + Ruben", "Ruben + Tove"
    )
    assert "cyclic order" in on_court(again(desk), ["f12", "o"])


def test_the_coachs_timer_prompts_to_drink_and_rest(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, FOUR)
    feed(desk, "_")
    desk.book.db.execute("UPDATE clinic SET rest_minutes = 20")
    desk.state.resume()
    for minute in range(1, 61):
        clock_of(desk).pass_seconds(60)
        desk.rotation.tick()
        assert desk.state.take_due() == [Sound.OVER] * (minute % 20 == 0)
    assert desk.view.message == PROMPT


def test_reps_alone_are_two_keys_in_the_players_word(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, FOUR)
    turns(desk, 1)
    text = on_court(desk, ["left", "3"])
    assert "Tove: 30 at self-feed, as the player says." in text
    keys = ["left", "down", "enter", *"45", "enter", "left", "0", "left", "escape"]
    on_court(again(desk), keys)
    rows = rotation_lookups.solos(desk.book, desk.view.day.id)
    tove, ruben = player(desk, "Tove").id, player(desk, "Ruben").id
    assert rows == [Solo(tove, "self-feed", 130), Solo(ruben, "self-feed", 45)]


def test_a_ball_limit_takes_a_player_off_the_feed(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, FOUR)
    desk.book.db.execute(
        "UPDATE roster SET ball_limit = 3 WHERE player_id = ?", [player(desk, "Maren").id]
    )
    desk.state.resume()
    feed(desk, "__")
    assert desk.state.due == []
    feed(desk, "_")
    assert (
        desk.view.message == "That was the last ball for today: 3 balls, limit 3. Tove next: Tab."
    )
    assert desk.state.due == [Sound.OVER]
    turns(desk, 5)
    assert "Maren" not in [p.name for p in desk.view.rotation.court.queue]
    text = on_court(again(desk), ["y", *"mar", "enter"])
    assert "Maren is kept off the feed: " in text
    on_court(again(desk), ["y", *"mar", "enter", "escape"])
    assert on_feed(desk) != "Maren"
    on_court(again(desk), ["y", *"mar", "enter", "enter", "enter", "escape"])
    assert on_feed(desk) != "Maren", "Enter pressed twice does not pass over the reason"
    on_court(again(desk), ["y", *"mar", "enter", "ctrl+y", "space"])
    assert on_feed(desk) == "Maren"


def test_a_player_added_in_mid_day_starts_at_the_median(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, ("Maren", "Tove"))
    turns(desk, 2)
    desk.people.add("Ilse")
    assert desk.view.rotation.court.head_start[player(desk, "Ilse").id] == 4


def test_the_kept_plan_gives_the_order_of_the_morning(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, FOUR, drill=None)
    rounds = [
        PlannedRound(player(desk, name), "forehand/hand-feed", Purpose.PRACTICE, 10)
        for name in ("Ruben", "Anouk", "Tove", "Ruben", "Maren")
    ]
    keep_plan(desk.book, desk.view.clinic.id, desk.view.day.date, (), rounds, desk.clock())
    desk.state.resume()
    assert [p.name for p in desk.view.rotation.court.queue] == ["Ruben", "Anouk", "Tove", "Maren"]


def test_the_second_morning_begins_on_court_as_the_proposed_plan_does(tmp_path: Path) -> None:
    """Fewest balls so far first, whatever the roster's order."""
    desk = desk_in(tmp_path)
    for name, balls in (("Maren", "____"), ("Tove", "_"), ("Ruben", "___")):
        desk.rounds.start(player=player(desk, name))
        feed(desk, balls)
    desk.rounds.end_round()
    desk.clinic.begin_day(DAY + timedelta(days=1))
    plan = plan_facts(desk.book, desk.view.clinic, DAY + timedelta(days=1), LIBRARY)
    assert plan.order == ("Tove", "Ruben", "Maren")
    assert [p.name for p in desk.view.rotation.court.queue] == [*plan.order]
    assert "► Tove hits first: Tab" in on_court(again(desk))


@pytest.mark.parametrize("size", [(80, 24), (120, 40), (60, 16)])
@pytest.mark.parametrize(
    "names",
    [
        (),
        ("Maren",),
        tuple(f"Player {number}" for number in range(12)),
        ("小林" * 20, "Дарья", "مريم", "a\u200bb\u202ec", "[bold]x[/]", "Zoë 🎾"),
    ],
)
def test_odd_rosters_have_sensible_screens(
    tmp_path: Path, names: tuple[str, ...], size: tuple[int, int]
) -> None:
    desk = desk_in(tmp_path, names)
    for keys in ([], ["f12"], ["f12", "down", "x", "o", "o"], ["left"], ["tab"], ["shift+tab"]):
        text = on_court(again(desk), keys, size)
        assert len(text.splitlines()) <= size[1]
        assert "\u202e" not in text
    if not names:
        assert "Nobody is on the roster" in on_court(again(desk), ["f12"])
