"""Putting right at the court: any ball and round by keys, seen at once, and back again."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

from textual.events import Key
from textual.pilot import Pilot

from courtlog.coaching.game.rounds import Purpose
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.screens.amend import AmendScreen
from courtlog.logbook.reads import lookups
from courtlog.logbook.rows import tallies
from tests.court import LIBRARY, Clock, again, close_look, desk_in, feed, player, written
from tests.courtside.screen import on_court


def clock_of(desk: Desk) -> Clock:
    assert isinstance(desk.clock, Clock)
    return desk.clock


def balls(desk: Desk) -> dict[str, str]:
    """Each player's rounds as a sheet writes them, in order."""
    found: dict[str, str] = {}
    for name, row in desk.book.db.execute(
        "SELECT player.name, round.id FROM round JOIN player ON player.id = player_id"
        " WHERE EXISTS (SELECT 1 FROM ball WHERE round_id = round.id AND taken) ORDER BY place"
    ).fetchall():
        line = written(lookups.live_round(desk.book, row).feeding)
        found[name] = f"{found[name]} / {line}" if name in found else line
    assert tallies.proof(desk.book.db) == []
    return found


def test_a_ball_is_rated_again_by_the_pad_and_the_court_shows_it(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "222 000 111")
    text = on_court(desk, ["ctrl+a", "enter", "left", "o", "t"])
    assert "Ball 2: turn made, spacing missed, finish missed, tough." in text
    assert balls(desk) == {"Maren": "222 200! 111"}
    assert desk.view.live is not None
    assert written(desk.view.live.feeding) == "222 200! 111"
    on_court(again(desk), ["ctrl+a", "enter", "left", "o"])
    assert balls(desk) == {"Maren": "222 -00! 111"}, "the same key again: not seen"


def test_a_ball_can_be_typed_and_a_wrong_one_is_a_sentence(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "222 000")
    on_court(desk, ["ctrl+a", "enter", "home", "enter", *["backspace"] * 3, *"1-2!", "enter"])
    assert balls(desk) == {"Maren": "1-2! 000"}
    text = on_court(again(desk), ["ctrl+a", "enter", "home", "enter", "9", "enter"])
    assert "is no ball: digits 0 1 2" in text
    assert balls(desk) == {"Maren": "1-2! 000"}


def test_striking_out_and_backspace(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "222 000 111")
    text = on_court(desk, ["ctrl+a", "enter", "home", "delete", "escape"])
    assert "Ball 1 is struck out; Backspace puts it back." in text
    assert balls(desk) == {"Maren": "000 111"}
    text = on_court(again(desk), ["ctrl+a", "enter", "backspace", "backspace"])
    assert "What was put right last is not on this round." in text
    assert balls(desk) == {"Maren": "222 000 111"}


def test_balls_go_to_another_player_and_come_back_from_the_list(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "222 000 111")
    desk.rounds.start(player(desk, "Ruben"))
    feed(desk, "_")
    keys = ["ctrl+a", *"maren", "enter", "home", "tab", "enter", *"tov", "enter"]
    on_court(again(desk), keys)
    assert balls(desk) == {"Maren": "000 111", "Tove": "222", "Ruben": "222"}
    text = on_court(again(desk), ["ctrl+a", *"take it back", "enter"])
    assert "1 ball moved, Maren and Tove" in text
    on_court(again(desk), ["ctrl+a", *"take it back", "enter", "enter"])
    assert balls(desk) == {"Maren": "222 000 111", "Ruben": "222"}


def test_an_earlier_day_is_split_and_joined(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "222 000 111")
    desk.clinic.begin_day(desk.view.day.date + timedelta(1))
    desk.rounds.start(player(desk, "Tove"), LIBRARY.drill("forehand/hand-feed"))
    feed(desk, "_")
    on_court(desk, ["ctrl+a", *"12 may", "enter", "tab", *"split", "enter"])
    assert balls(desk)["Maren"] == "222 000 / 111"
    on_court(again(desk), ["ctrl+a", *"12 may", "enter", "tab", *"join", "enter"])
    assert balls(desk)["Maren"] == "222 000 111"


def test_drill_and_purpose_of_a_round(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "_")
    keys = ["ctrl+a", "enter", "tab", *"drill", "enter", *"hand feed", "enter"]
    keys += ["tab", *"something", "enter", *"hold", "enter"]
    text = on_court(desk, keys)
    assert "Maren · Hand feed" in text
    assert "· hold (" in text
    assert "The round was for hold." in text
    live = again(desk).view.live
    assert live is not None
    assert (live.drill.name, str(live.purpose)) == ("forehand/hand-feed", "hold")


def test_a_hundred_balls_can_be_walked_through_at_the_smallest_size(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, settings=close_look(pad="numbers", review=False))
    feed(desk, "_" * 99 + "000")
    text = on_court(desk, ["ctrl+a", "enter"], (80, 24))
    assert "100 000" in text
    assert "Esc done" in text
    text = on_court(desk, ["ctrl+a", "enter", "home", "down", "right"], (80, 24))
    assert "Ball 9:" in text


def test_with_no_ball_there_is_nothing_to_put_right(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    assert "There is no ball in this clinic yet." in on_court(desk, ["ctrl+a"])


def test_keys_typed_before_a_dialog_is_there_never_rate_a_ball_again(tmp_path: Path) -> None:
    """Enter and Backspace, then what a sheet writes; all are on the way before the dialog is."""
    desk = desk_in(tmp_path)
    feed(desk, "222 000")

    async def burst(pilot: Pilot[None], app: CourtlogApp) -> None:
        assert isinstance(app.screen, AmendScreen)
        for key in ("enter", "o", "backspace"):
            app.post_message(Key(key, key if len(key) == 1 else None))
        await pilot.pause()
        await pilot.press("escape")
        assert isinstance(app.screen, AmendScreen)
        assert balls(desk) == {"Maren": "222 000"}
        for key in ("escape", "space", "space"):
            app.post_message(Key(key, None if key == "escape" else " "))

    on_court(desk, ["ctrl+a", "enter"], then=burst)
    assert balls(desk) == {"Maren": "222 000 222 222"}, "the court has what came after Escape"


def test_no_two_rounds_of_the_list_read_the_same(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, drill=None)
    ladder, drill = LIBRARY.drill("forehand/racquet-feed")
    for seconds in (0, 9 * 60, 20):
        clock_of(desk).pass_seconds(seconds)
        desk.rounds.start(player(desk, "Maren"), (ladder, drill), Purpose.PRACTICE)
        feed(desk, "___")
        desk.rounds.end_round()
    nine, half_past = "Tue 12 May 08:39", "Tue 12 May 08:30"
    what = f"Maren · {drill.name} · practice · 3 balls"
    assert [words for _, words in desk.amendments().rounds()] == [
        f"{nine} · {what} · round 3, court 2",
        f"{nine} · {what} · round 2, court 2",
        f"{half_past} · {what}",
    ]


def test_rounds_of_a_sheet_have_no_time_and_still_differ(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    for _ in range(2):
        desk.rounds.start(player(desk, "Maren"))
        feed(desk, "___")
    with desk.book.writing() as db:
        db.execute("UPDATE round SET started_at = NULL")
    what = "Tue 12 May · Maren · Racquet feed, two spots · practice · 3 balls"
    assert [words for _, words in desk.amendments().rounds()] == [
        f"{what} · round 2, court 2",
        f"{what} · round 1, court 2",
    ]


def test_the_list_of_drills_begins_at_the_drill_that_was_used(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "222")
    drills = LIBRARY.ladder("forehand").in_rung_order()
    place = [drill.key for drill in drills].index("racquet-feed")
    assert place > 0
    way = ["ctrl+a", "enter", "tab", *"another drill", "enter"]
    on_court(desk, [*way, "enter"])
    assert again(desk).view.live.drill.drill.key == "racquet-feed"  # type: ignore[union-attr]
    on_court(again(desk), [*way, "down", "enter"])
    live = again(desk).view.live
    assert live is not None
    assert live.drill.drill.key == drills[place + 1].key
