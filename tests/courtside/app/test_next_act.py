"""At every standstill the court says what to do next, and the key it names does just that."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from textual.pilot import Pilot

from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.on_court.next_act import Act
from courtlog.coaching.plans.rotation import Presence
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.commands.table import ACT_KEYS, COMMANDS
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.desk.keymap import PADS
from courtlog.courtside.screens.printed_page import PageScreen
from courtlog.logbook.writes import clinic_writer
from courtlog.settings import changed
from tests.court import Clock, again, close_look, desk_in, feed, player
from tests.courtside.screen import flat, on_court, shown

SIZES = [(80, 24), (120, 40)]


def choosing(folder: Path, review: bool = False) -> Desk:
    """Maren's round of ten balls to choose cues by, all fed."""
    desk = desk_in(folder, drill=None, settings=close_look(review=review))
    desk.rounds.start(
        player(desk, "Maren"), desk.state.library.drill("forehand/racquet-feed"), Purpose.CHOOSING
    )
    feed(desk, "_" * 10)
    return desk


def yardstick(folder: Path, balls: int = 20) -> Desk:
    """Her yardstick after that, on the turn first."""
    desk = choosing(folder)
    desk.people.keep_cues(player(desk, "Maren"), "forehand", ("turn", "spacing"), "turn")
    desk.rounds.start(cues=("turn", "spacing"))
    feed(desk, "_" * balls)
    return desk


def test_every_act_has_the_key_of_its_command() -> None:
    assert set(ACT_KEYS) == set(Act)
    acts = [command.act for command in COMMANDS if command.act]
    assert len(acts) == len(set(acts))


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("keys", [[], ["z"]])
def test_after_choosing_it_says_to_pick_the_cues(
    tmp_path: Path, keys: list[str], size: tuple[int, int]
) -> None:
    text = on_court(choosing(tmp_path), keys, size)
    act = Act.PICK_CUES_AFTER if keys else Act.PICK_CUES
    assert f"Pick the cues: {ACT_KEYS[act]}" in text
    assert "10 balls seen." in text or not keys


@pytest.mark.parametrize("key", ["f3", "c", "enter"])
@pytest.mark.parametrize("pad", PADS)
def test_the_cues_are_picked_from_the_review_by_the_key_it_names(
    tmp_path: Path, key: str, pad: str
) -> None:
    desk = choosing(tmp_path, review=True)
    desk.state.use(changed(desk.settings, pad=pad), "")

    async def pick(pilot: Pilot[None], app: CourtlogApp) -> None:
        assert "Pick the cues: Enter." in flat(shown(app.screen))
        await pilot.press(key, "enter")

    on_court(desk, ["escape", "z"], then=pick)
    live = again(desk).view.live
    assert live is not None
    assert live.purpose is Purpose.YARDSTICK


@pytest.mark.parametrize("size", SIZES)
def test_after_the_yardstick_it_says_what_to_teach_first(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    desk = yardstick(tmp_path)
    text = on_court(desk, ["z"], size)
    assert "ROUND OVER · Kept as the yardstick." in text
    assert "► Teach turn first: Enter; Tove next: Tab" in text
    on_court(again(desk), ["enter"])
    live = again(desk).view.live
    assert live is not None
    assert (live.player.name, live.purpose) == ("Maren", Purpose.PRACTICE)


@pytest.mark.parametrize(
    ("main", "balls", "sentence"),
    [
        ("turn", "02/", "Teach turn first: Enter"),
        ("turn", "20/", "Teach turn first, your main cue: Enter"),
        ("", "20/", "Teach spacing first: Enter"),
    ],
)
def test_what_is_taught_first_is_the_one_thing_or_says_why_not(
    tmp_path: Path, main: str, balls: str, sentence: str
) -> None:
    desk = choosing(tmp_path, review=True)
    desk.people.keep_cues(player(desk, "Maren"), "forehand", ("turn", "spacing"), main)
    desk.rounds.start(purpose=Purpose.YARDSTICK, cues=("turn", "spacing"))
    feed(desk, balls * 20)
    text = flat(on_court(desk, ["z"]))
    assert sentence in text
    assert text.count("Teach") == 1


def test_a_yardstick_cut_short_is_not_called_kept(tmp_path: Path) -> None:
    desk = yardstick(tmp_path, balls=12)
    text = on_court(desk, ["z"])
    assert "12 of 20 yardstick balls." in text
    assert "Feed the rest: Backspace; Tove next: Tab" in text
    on_court(again(desk), ["backspace", "space"])
    live = again(desk).view.live
    assert live is not None
    assert len(live.feeding.taken) == 13


def test_who_has_left_hits_no_more(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "___")
    desk.rotation.attend(player(desk, "Maren"), Presence.LEFT)
    assert "Tove next: Tab" in on_court(desk)
    desk.rounds.end_round()
    text = on_court(desk)
    assert "Maren hits no more." in text
    assert "► Tove next: Tab" in text


def test_a_new_book_says_who_hits_first(tmp_path: Path) -> None:
    text = on_court(desk_in(tmp_path, drill=None))
    assert "No round yet." in text
    assert "► Maren hits first: Tab" in text
    nobody = on_court(desk_in(tmp_path / "empty", drill=None, names=()))
    assert "► Add a player: Esc 9" in nobody


def test_the_court_says_nothing_of_it_while_balls_are_fed(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    on_court(desk, ["space"])
    assert desk.view.next_act is None


def test_the_book_is_read_for_it_once_a_standstill(tmp_path: Path) -> None:
    """The clock ticks each second: what comes next is not read again for it."""
    desk = yardstick(tmp_path)

    async def tick(pilot: Pilot[None], app: CourtlogApp) -> None:
        first = desk.view.next_act
        asked: list[str] = []
        desk.book.db.set_trace_callback(asked.append)
        desk.read_next_act()
        desk.book.db.set_trace_callback(None)
        assert desk.view.next_act is first
        assert asked == []

    on_court(desk, ["z"], then=tick)


def test_one_key_ends_the_day_and_shows_its_page(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "___")

    async def read(pilot: Pilot[None], app: CourtlogApp) -> None:
        assert "Maren" in shown(app.screen)
        assert "The day is over. Leave: 0; Tove next: Tab" in flat(shown(app.screen))
        await pilot.press("space", "b", "q")

    text = on_court(desk, ["ctrl+e"], then=read)
    assert "► Leave: Esc 0; Tove next: Tab" in text
    assert desk.book.db.execute("SELECT count(*) FROM ball WHERE taken").fetchone() == (3,)


def test_the_keys_that_the_page_of_the_day_names_do_their_work_there(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "___")
    on_court(desk, ["ctrl+e", "tab"])
    live = again(desk).view.live
    assert live is not None
    assert live.player.name == "Tove"
    left: list[bool] = []
    monkeypatch.setattr(CourtlogApp, "exit", lambda _: left.append(True))
    on_court(again(desk), ["ctrl+e", "0"])
    assert left == [True]


def test_a_day_that_was_ended_goes_on_with_any_round(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "___")
    text = on_court(desk, ["ctrl+e", "q", "backspace", "space", "z"])
    assert "The day is over" not in text
    assert "ROUND OVER" in text
    live = desk.view.live
    assert live is not None
    assert len(live.feeding.taken) == 4


def test_a_page_is_read_with_the_keys_of_a_pager(tmp_path: Path) -> None:
    """As in `less` and `more`: Space and b a page, j and k a line, g and G the ends, q leaves."""
    first: list[str] = []

    async def read(pilot: Pilot[None], app: CourtlogApp) -> None:
        app.push_screen(PageScreen("\n".join(f"line {n}" for n in range(1, 101))))
        for key in ("home", "space", "b", "j", "k", "G", "g", "pagedown", "pageup"):
            await pilot.press(key)
            first.append(shown(app.screen).splitlines()[0].split("  ")[0].strip())
        await pilot.press("q")

    text = on_court(desk_in(tmp_path), size=(80, 12), then=read)
    assert first == [f"line {n}" for n in (1, 12, 1, 2, 1, 90, 1, 12, 1)]
    assert "Racquet feed" in text


def test_after_the_last_planned_day_the_clinic_is_over(tmp_path: Path) -> None:
    """The next morning it is said before a day begins; a day begun all the same says it again."""
    desk = desk_in(tmp_path)
    clinic = replace(desk.view.clinic, planned_days=1)
    clinic_writer.change_clinic(desk.book, clinic, desk.view.rotation.plan)
    feed(desk, "___")
    desk.rounds.end_round()
    assert isinstance(desk.clock, Clock)
    desk.clock.pass_seconds(24 * 3600)

    async def begin(pilot: Pilot[None], app: CourtlogApp) -> None:
        assert "The one planned day is over." in flat(shown(app.screen))
        await pilot.press("enter")

    text = on_court(again(desk), then=begin)
    assert "The one planned day is over." in text
    assert "► Leave for the sheets to take home: Esc 0" in text


def test_the_last_day_ends_with_the_sheets_to_take_home(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    clinic = replace(desk.view.clinic, planned_days=1)
    clinic_writer.change_clinic(desk.book, clinic, desk.view.rotation.plan)
    feed(desk, "___")
    text = on_court(again(desk), ["ctrl+e", "q"])
    assert "ROUND OVER · The clinic is over." in text
    assert "Leave for the sheets to take home: Esc 0" in text


def test_no_act_needs_a_function_key_or_a_modifier() -> None:
    """Every key that a standstill names is on the laptop as it is: a letter, Tab, Enter, Esc."""
    plain = {"Tab", "Enter", "Backspace", "Esc"}
    for key in ACT_KEYS.values():
        assert all(word in plain or len(word) == 1 for word in key.split()), key


@pytest.mark.parametrize("pad", PADS)
def test_escape_and_a_letter_pick_the_cues_after_choosing(tmp_path: Path, pad: str) -> None:
    desk = choosing(tmp_path)
    desk.state.use(changed(desk.settings, pad=pad), "")
    escape, letter = ACT_KEYS[Act.PICK_CUES].split()
    assert "Cues:" in on_court(desk, ["z", "escape", letter])
    assert escape == "Esc"


@pytest.mark.parametrize("review", [True, False])
def test_enter_twice_takes_the_proposed_cues_once_choosing_is_over(
    tmp_path: Path, review: bool
) -> None:
    """From the review and from the court: never a yardstick on cues that nobody picked."""
    desk = choosing(tmp_path)
    desk.state.use(changed(desk.settings, review=review), "")
    on_court(desk, ["z", "enter"])
    live = desk.view.live
    assert live is not None
    assert live.purpose is Purpose.CHOOSING
    on_court(again(desk), ["enter", "enter"])
    desk.state.resume()
    live = desk.view.live
    assert live is not None
    assert (live.purpose, live.cue_keys) == (Purpose.YARDSTICK, ("turn", "spacing", "finish"))
