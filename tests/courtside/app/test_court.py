"""The court screen: keys pressed, then the words on the screen and the book read again."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from textual.events import Key
from textual.pilot import Pilot

from courtlog import locations
from courtlog import settings as settings_file
from courtlog.cli.actions import demo
from courtlog.cli.actions.sheets import put_in
from courtlog.coaching.game.rounds import Purpose
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.desk.clinic_desk import SetUpQuestions
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.desk.keymap import PADS
from courtlog.courtside.screens.setup import _lines
from courtlog.courtside.sound.sounds import Sound
from courtlog.library.drill_files import Library, load
from courtlog.library.sheet_in import read_sheet
from courtlog.logbook.reads import lookups
from tests.court import (
    LIBRARY,
    START,
    Clock,
    again,
    close_look,
    desk_in,
    feed,
    open_book,
    player,
    written,
)
from tests.courtside.screen import cue_block, line_with, on_court
from tests.library.shelf import put


def round_on(desk: Desk) -> str:
    """Player, drill, purpose and balls on court, read from the book alone."""
    live = again(desk).view.live
    assert live is not None
    return f"{live.player.name} {live.drill.name} {live.purpose} {written(live.feeding)}".strip()


def test_the_screen_says_who_what_where_and_how_it_goes(tmp_path: Path) -> None:
    text = on_court(desk_in(tmp_path), ["o", "k", "full_stop", "space", "u", "t"])
    assert line_with(text, "Harbour Week") == (
        " Harbour Week · day 1 · Tue 12 May · court 2 · coach Ines"
    )
    for words in (
        "Maren",
        "Racquet feed, two spots",
        "Forehand · rung 5 of 7",
        "practice · racquet feed",
        "deep to the forehand corner",
        "ball ! TOUGH",
        "of 10",
        "basket left",
        "of 60",
        "next up: Tove, then Ruben",
        "Ball 3 is tough.",
    ):
        assert words in text
    assert "[u ○] i ◐  o ●  missed" in line_with(text, "turn  ")
    assert "●●" in line_with(text, "turn  ")
    assert "◐●" in line_with(text, "spacing  ")
    assert "1 of 2" in cue_block(text, "spacing")
    assert "%" not in text, "two balls bear no percentage"


def test_five_balls_bear_a_percentage_and_the_round_a_solid_column(tmp_path: Path) -> None:
    few = cue_block(on_court(desk_in(tmp_path / "few"), ["space"] * 4), "turn").splitlines()
    assert [line[58:].strip() for line in few] == ["░░░", "░░░", "▬▬▬▬▬▬"]
    assert "%" not in few[2]
    text = on_court(desk_in(tmp_path / "five"), ["space"] * 4 + ["u", "space"])
    turn = cue_block(text, "turn").splitlines()
    assert turn[1].rstrip("█").endswith(" 4 of 5 ")
    assert [line[58:].strip() for line in turn] == ["▅▅▅", "███", "▬▬▬▬▬▬"]
    assert turn[2].split()[-2] == "80%"


def test_backspace_takes_back_across_balls_and_into_the_round_before(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    on_court(desk, ["space", "space", "tab", "i", "backspace"])
    assert round_on(desk) == "Tove forehand/racquet-feed choosing"
    text = on_court(again(desk), ["backspace"])
    assert "Back in Maren's round, at ball 3." in text
    on_court(again(desk), ["backspace", "backspace"])
    assert round_on(desk) == "Maren forehand/racquet-feed practice"


def test_tab_passes_over_players_without_leaving_empty_rounds(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    on_court(desk, ["space", "tab", "tab", "shift+tab", "tab", "tab", "tab"])
    assert round_on(desk) == "Tove forehand/racquet-feed choosing"
    assert desk.book.db.execute("SELECT count(*) FROM round").fetchone() == (2,)


def test_leaving_a_round_keeps_the_ball_half_rated(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    on_court(desk, ["o", "tab", "shift+tab"])
    balls = desk.book.db.execute("SELECT taken FROM ball").fetchall()
    assert balls == [(1,)]


def test_the_end_of_a_round_and_what_enter_tab_and_backspace_do_then(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    text = on_court(desk, ["space", "z", "space"])
    assert "ROUND OVER" in text
    assert "No round is open" in text
    assert round_on(desk) == "Maren forehand/racquet-feed practice 222"
    text = on_court(again(desk), ["backspace"])
    assert "ROUND OVER" not in text
    assert round_on(desk) == "Maren forehand/racquet-feed practice 222"
    on_court(again(desk), ["z", "enter", "j"])
    assert round_on(desk) == "Maren forehand/racquet-feed practice |-0-"


def test_players_and_drills_are_picked_by_typing(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    on_court(desk, ["y", *"rub", "enter", "g", *"volley", "space", *"hand", "enter"])
    assert round_on(desk) == "Ruben volley/hand-feed choosing"
    on_court(again(desk), ["y", *"nobody", "enter", "escape"])
    assert round_on(desk) == "Ruben volley/hand-feed choosing"


def test_up_and_down_a_rung_and_not_beyond(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    on_court(desk, ["up", "up"])
    assert round_on(desk) == "Maren forehand/live practice"
    assert "highest rung" in on_court(again(desk), ["up"])
    on_court(again(desk), ["down"] * 6)
    assert round_on(desk) == "Maren forehand/shadow practice"
    assert "lowest rung" in on_court(again(desk), ["down"])


def test_a_note_goes_to_the_ball_just_hit(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    text = on_court(desk, ["space", "n", *"late = x", "enter"])
    assert "Noted on ball 1." in text
    assert round_on(desk).endswith("222"), "no letter of the note was taken for a rating"
    rows = desk.book.db.execute(
        "SELECT number, text FROM note JOIN ball ON ball.id = ball_id"
    ).fetchall()
    assert rows == [(1, "late = x")]


def test_a_clip_mark_keeps_the_time_of_day(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    assert isinstance(desk.clock, Clock)
    desk.clock.pass_seconds(3671.5)
    on_court(desk, ["space", "a"])
    live = again(desk).view.live
    assert live is not None
    assert live.feeding.taken[0].clip == desk.clock() // 1000 * 1000


def test_balls_of_the_wrong_player_move(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    keys = ["space", "u", "space", "m", "space", "f4", *"tov", "enter", "backspace", "2", "enter"]
    text = on_court(desk, keys)
    assert "2 balls moved to Tove" in text
    assert round_on(desk) == "Tove forehand/racquet-feed practice 022 220"
    assert "Nothing moved: write a number from 1 to 2." in on_court(
        again(desk), ["f4", *"ruben", "enter", *"9x", "enter"]
    )


def test_a_purpose_without_coaching_hides_phrases_and_shares(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    text = on_court(desk, ["f2", *"yard", "enter", *["space"] * 6])
    assert round_on(desk).startswith("Maren forehand/racquet-feed yardstick")
    assert "yardstick · WITHOUT HELP" in text
    assert "6 of 6" not in text
    assert "“" not in text
    assert "●●●●●●" in text
    live = desk.view.live
    assert live is not None
    assert live.purpose is Purpose.YARDSTICK


def test_four_cues_draw_a_caution_and_a_fourth_row(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)

    async def tick(pilot: Pilot[None], app: CourtlogApp) -> None:
        from tests.courtside.screen import shown

        assert "Four is a lot to see on every ball" in shown(app.screen)
        await pilot.press("enter", "7", "o", "l", "full_stop")

    text = on_court(desk, ["f3", "down", "down", "space"], then=tick)
    live = again(desk).view.live
    assert live is not None
    assert len(live.cue_keys) == 4
    assert len(live.feeding.taken) == 1
    assert "low to high" in text


def test_the_pad_changes_and_is_kept(tmp_path: Path) -> None:
    path = tmp_path / "settings.json"
    desk = desk_in(tmp_path)
    text = on_court(desk, ["f6", *"left", "enter", "w", "d", "v"], settings_path=path)
    assert "Pad: left hand." not in text
    assert settings_file.read(path).pad == "left"
    assert round_on(desk).endswith("012")


def test_nine_keys_can_be_taught(tmp_path: Path) -> None:
    path = tmp_path / "settings.json"
    desk = desk_in(tmp_path)
    nine = ["ctrl+r", "pageup", "w", "5", "6", "home", "1", "2", "end"]
    on_court(
        desk,
        ["f6", *"teach", "enter", "t", "ctrl+r", "ctrl+r", *nine[1:], "w", "6", "1"],
        settings_path=path,
    )
    assert settings_file.read(path).taught == tuple(nine)
    assert round_on(desk).endswith("210")


def test_the_bell_rings_when_the_round_is_full_and_when_the_basket_is_empty(
    tmp_path: Path,
) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "_" * 9)
    assert desk.state.due == []
    feed(desk, "_")
    assert desk.state.due == [Sound.OVER]
    assert "the round is full" in desk.view.message
    feed(desk, "_" * 49)
    assert desk.state.due == [Sound.OVER]
    feed(desk, "_")
    assert desk.state.due == [Sound.OVER, Sound.OVER]
    assert "The basket is empty. Pick up, then: b." in desk.view.message
    assert desk.view.basket.empty
    desk.balls.pick_up()
    assert desk.view.basket.left == 60


def test_shadow_swings_take_no_ball_from_the_basket(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, drill="forehand/shadow")
    feed(desk, "____")
    assert desk.view.basket.left == 60


def test_a_pause_does_not_count_and_a_feeding_key_ends_it(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    assert isinstance(desk.clock, Clock)
    feed(desk, "_")
    desk.balls.toggle_pause()
    assert "PAUSED" in on_court(again(desk))
    desk.clock.pass_seconds(300)
    feed(desk, "_")
    assert desk.view.message.endswith("The pause is over.")
    assert not again(desk).view.paused
    feed(desk, "_")
    assert "pause" not in desk.view.message
    assert desk.book.db.execute("SELECT paused_ms FROM round").fetchone() == (300_000,)


def test_a_round_begins_and_ends_on_a_whole_second_as_a_sheet_writes_it(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    assert isinstance(desk.clock, Clock)
    desk.clock.pass_seconds(0.25)
    feed(desk, "_")
    desk.clock.pass_seconds(61.5)
    desk.rounds.start(player(desk, "Tove"))
    feed(desk, "_")
    desk.clock.pass_seconds(61.5)
    desk.rounds.end_round()
    times = desk.book.db.execute("SELECT started_at, ended_at FROM round ORDER BY place").fetchall()
    assert times[0] == (START, START + 61_000)
    assert times[1] == (START + 61_000, START + 123_000)


def test_help_shows_the_pad_as_it_is_now_and_any_key_closes_it(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, settings=close_look(pad="numbers"))
    text = on_court(desk, ["question_mark"])
    assert "Pad: number pad" in text
    assert line_with(text, "7 ○").split()[:3] == ["│", "turn", "7"]
    on_court(again(desk), ["question_mark", "7"])
    assert round_on(desk).endswith("practice"), "the key that closed the help rated nothing"


def test_the_sign_of_a_tough_ball_is_named_beside_it(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "_ 220! _")
    titles = line_with(on_court(desk), "this ball").partition("this ball")[2]
    assert titles.split()[:2] == ["!", "tough"]


def test_leaving_the_demo_says_that_it_was_invented(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(demo, "has_terminal", lambda: True)
    monkeypatch.setattr(demo, "_open", lambda *given: None)
    demo.run_demo()
    assert "invented" in capsys.readouterr().out


def test_every_command_is_found_by_typing(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    on_court(desk, ["escape", "space", *"next play", "enter"])
    assert round_on(desk).startswith("Tove")


def test_a_new_day_is_offered_and_the_old_one_can_go_on(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "_")
    assert isinstance(desk.clock, Clock)
    desk.clock.pass_seconds(24 * 3600)
    text = on_court(again(desk))
    assert "was left on day 1 · Tue 12 May. Today is Wed 13 May." in text
    assert "day 1 · Tue 12 May" in on_court(again(desk), ["escape"])
    text = on_court(again(desk), ["enter", "y", *"maren", "enter", "space"])
    assert "day 2 · Wed 13 May" in text
    assert round_on(desk) == "Maren forehand/racquet-feed hold 222"
    assert [day.date for day in lookups.days(desk.book, desk.view.clinic.id)] == [
        date(2026, 5, 12),
        date(2026, 5, 13),
    ]


def test_a_new_book_asks_for_a_clinic_and_gets_to_the_first_ball(tmp_path: Path) -> None:
    desk = Desk(open_book(tmp_path), lambda: LIBRARY, close_look(), Clock())
    keys = [*"Bay", "enter", *"Ada, Bo", *["enter"] * 3, *"Cy", *["enter"] * 3, "space"]
    text = on_court(desk, keys)
    assert "Bay · day 1 · Tue 12 May · court 1 · coach Cy" in text
    assert round_on(desk) == "Ada forehand/hand-feed choosing 222"


@pytest.mark.parametrize(
    ("keys", "words"),
    [
        (["enter"] * 7, "Give the clinic a name."),
        ([*"Bay", *["enter"] * 7], "Name at least one player."),
        (
            [*"Bay", "enter", *"Ada, Bo, ada left", "enter"],
            "ada stands twice, as player 1 and player 3",
        ),
        ([*"Bay", "enter", *"Ada", *["enter"] * 5, "0", "enter"], "The number of days is a whole"),
    ],
)
def test_a_new_book_says_what_is_missing(tmp_path: Path, keys: list[str], words: str) -> None:
    desk = Desk(open_book(tmp_path), lambda: LIBRARY, close_look(), Clock())
    assert words in on_court(desk, keys)
    assert not desk.clinic.has_day()


def test_a_doubtful_name_is_asked_about_once_and_escape_asks_before_it_forgets(
    tmp_path: Path,
) -> None:
    desk = Desk(open_book(tmp_path), lambda: LIBRARY, close_look(), Clock())
    keys = [*"Bay", "enter", *"Mila minor,Lea lefty", "enter"]
    asked = on_court(desk, keys)
    assert "Is “Lea lefty” the whole name? Enter keeps it so." in asked
    left = on_court(desk, [*keys, "escape"])
    assert "Escape again leaves without keeping what was typed." in left
    on_court(desk, [*keys, "escape", "enter", *["enter"] * 5, "space"])
    assert [one.name for one in desk.view.roster] == ["Mila", "Lea lefty"]
    cards = [entry.card for entry in desk.people.entries()]
    assert [card.age for card in cards] == ["minor", ""]


def test_a_name_that_stands_twice_keeps_the_coach_on_its_line(tmp_path: Path) -> None:
    desk = Desk(open_book(tmp_path), lambda: LIBRARY, close_look(), Clock())
    mended = [*["backspace"] * 3, *"Cy", *["enter"] * 5]
    text = on_court(desk, [*"Bay", "enter", *"Ada,Ada", "enter", *mended, "5", "enter", "space"])
    assert [player.name for player in desk.view.roster] == ["Ada", "Cy"]
    assert "court 1" in text
    assert desk.view.clinic.planned_days == 5


def test_the_zone_is_the_laptops_and_asked_only_where_it_is_not_told(tmp_path: Path) -> None:
    for zone, asked in (("Europe/Lisbon", False), ("", True)):
        questions = SetUpQuestions(coach="", court="1", zone=zone, pad="right")
        keys = [line.key for line in _lines(questions, [])]
        assert ("zone" in keys) is asked
        assert "days" in keys


def test_going_back_keeps_what_was_typed(tmp_path: Path) -> None:
    desk = Desk(open_book(tmp_path), lambda: LIBRARY, close_look(), Clock())
    back = ["shift+tab", "shift+tab", *"y", *["enter"] * 7]
    on_court(desk, [*"Ba", "enter", *"Ada", "enter", *back, "space"])
    assert (desk.view.clinic.name, desk.view.roster[0].name) == ("Bay", "Ada")


@pytest.mark.parametrize("key", ["", "enter", "tab", "y", "g"])
def test_a_mistake_in_a_drill_file_is_told_at_the_court(tmp_path: Path, key: str) -> None:
    wrong = put(tmp_path / "drills", lob="stroke = 3")

    def library() -> Library:
        return load([locations.shipped_drills(), wrong])

    desk = Desk(open_book(tmp_path), library, close_look(), Clock())
    keys = [*"Bay", "enter", *"Ada", *["enter"] * 5, *([key] if key else [])]
    text = on_court(desk, [*keys, *(["enter"] if key == "y" else [])])
    assert "mistakes. Mend them, or see `courtlog drills check`." in " ".join(text.split())
    assert desk.view.live is None


@pytest.mark.parametrize("size", [(80, 24), (120, 40), (40, 12), (20, 5), (1, 1)])
def test_any_size_shows_what_fits_and_rates_all_the_same(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    desk = desk_in(tmp_path)
    on_court(desk, ["o", "k", "m", "n", "x", "enter", "question_mark", "x", "space"], size=size)
    assert round_on(desk).endswith("210 222")


@pytest.mark.parametrize("key", PADS["numbers"].unlocked)
def test_every_key_of_the_number_pad_says_that_numlock_is_off(tmp_path: Path, key: str) -> None:
    """Nine keys, and those of 0 and the point; arrows too, whose commands stand behind Esc."""
    desk = desk_in(tmp_path, settings=close_look(pad="numbers"))
    feed(desk, "222")
    before = list(desk.book.db.iterdump())
    assert "NumLock is off: switch it on." in on_court(desk, [key])
    assert list(desk.book.db.iterdump()) == before


def test_a_full_disk_is_a_sentence_and_no_rating_is_shown(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "22")
    desk.book.db.execute(
        "CREATE TEMP TRIGGER no BEFORE INSERT ON journal BEGIN SELECT raise(ABORT, 'no'); END"
    )
    text = on_court(desk, ["full_stop"])
    assert "could not be used" in text
    assert "m ○  , ◐  . ●" in line_with(text, "finish  ")
    assert round_on(desk).endswith("|22-")


def test_keys_typed_faster_than_a_dialog_opens_are_never_ratings(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "_")

    async def burst(pilot: Pilot[None], app: CourtlogApp) -> None:
        for character in "nlol":
            app.post_message(Key(character, character))
        await pilot.pause()
        assert len(app.screen_stack) == 3, "the note's dialog is open"
        await pilot.press("escape")

    on_court(desk, then=burst)
    assert round_on(desk).endswith("practice 222")


def test_a_mended_answer_typed_in_one_go_is_as_it_was_typed(tmp_path: Path) -> None:
    """As after a moment in which the machine stood still: all keys wait when the first is read."""
    desk = desk_in(tmp_path)

    async def burst(pilot: Pilot[None], app: CourtlogApp) -> None:
        for opens, typed in (("n", "ab<cd"), ("y", "rux<b")):
            await pilot.press(opens)
            for character in typed:
                back = character == "<"
                app.post_message(Key("backspace" if back else character, character))
            app.post_message(Key("enter", "\r"))
            await pilot.pause()

    on_court(desk, then=burst)
    assert [*desk.book.db.execute("SELECT text FROM note")] == [("acd",)]
    live = again(desk).view.live
    assert live is not None
    assert live.player.name == "Ruben"


def test_a_mended_line_of_a_form_typed_in_one_go_is_as_it_was_typed(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)

    async def burst(pilot: Pilot[None], app: CourtlogApp) -> None:
        for opens, typed in ((["f8", "enter"], "3<4"), (["f9", "enter"], "<<<<<To<íne")):
            await pilot.press(*opens)
            for character in typed:
                back = character == "<"
                app.post_message(Key("backspace" if back else character, character))
            await pilot.pause()
            await pilot.press(*(["enter", "enter"] if typed[0] == "3" else ["ctrl+s", "escape"]))

    on_court(desk, then=burst)
    assert [*desk.book.db.execute("SELECT pain FROM check_in")] == [(4,)]
    assert "Tíne" in [name for (name,) in desk.book.db.execute("SELECT name FROM player")]


def test_a_book_filled_by_a_sheet_goes_on_with_its_clinic(tmp_path: Path) -> None:
    sheet = """
clinic Harbour Week zone UTC
day 2026-05-12 court 2 coach Ines
player Maren drill forehand/racquet-feed purpose practice cues turn spacing finish
222 212
"""
    book = open_book(tmp_path)
    put_in(book, read_sheet(sheet, "sheet.txt", LIBRARY, "UTC"), LIBRARY, START)
    text = on_court(Desk(book, lambda: LIBRARY, close_look(review=False), Clock()))
    assert "Harbour Week · day 1 · Tue 12 May · court 2 · coach Ines" in text
    assert "A new clinic" not in text
