"""Keys taught by pressing them: a clicker of two beside the pad, and what each ball becomes."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from textual.events import Key
from textual.pilot import Pilot

from courtlog import settings as settings_file
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.app.held_key import HELD
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.desk.keymap import PADS, pad_of
from courtlog.logbook.rows import tallies
from courtlog.settings import Settings
from tests.court import again, close_look, desk_in, feed, written
from tests.courtside.screen import flat, on_court

CLICKER = ("pagedown", "pageup")
TEACH_TWO = ("escape", "6", *"two", "enter")
"""The way to the clicker by plain keys."""


def round_on(desk: Desk) -> str:
    """The balls on court, from the book alone."""
    assert tallies.proof(desk.book.db) == []
    live = again(desk).view.live
    assert live is not None
    return written(live.feeding)


def with_main(desk: Desk, main: str) -> None:
    """A round on court whose main cue was named."""
    cues = ("turn", "spacing", "finish")
    desk.people.keep_cues(desk.view.roster[0], "forehand", cues, main)
    desk.rounds.start(cues=cues)


@pytest.mark.parametrize("keys", [CLICKER, ("b", "f5"), ("=", "é")])
def test_two_keys_are_taught_by_pressing_them_and_kept(
    tmp_path: Path, keys: tuple[str, str]
) -> None:
    path = tmp_path / "settings.json"
    desk = desk_in(tmp_path)
    on_court(desk, [*TEACH_TWO, *keys, *keys, "o", keys[1]], settings_path=path)
    assert settings_file.read(path) == desk.settings
    assert settings_file.read(path).clicker == keys
    assert round_on(desk) == "222 0-- 2--", "the pad keeps working, and its grade stays"


def test_the_teach_screen_says_what_not_seen_is_and_goes_back_a_key(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    asked = flat(on_court(desk, [*TEACH_TWO]))
    assert "Clean, as Space: press its key." in asked
    asked = flat(on_court(desk, [*TEACH_TWO, "pagedown"]))
    assert "the main cue missed, the others not seen. Not seen is never missed." in asked
    on_court(desk, [*TEACH_TWO, "home", "backspace", *CLICKER])
    assert desk.settings.clicker == CLICKER


@pytest.mark.parametrize("key", ["u", "space", "enter", "t", "tab", "ctrl+e", "pagedown"])
def test_a_key_that_has_a_meaning_is_not_taught(tmp_path: Path, key: str) -> None:
    desk = desk_in(tmp_path)
    said = flat(on_court(desk, [*TEACH_TWO, "pagedown", key]))
    assert ("is taught already." if key == "pagedown" else "has another meaning") in said
    assert desk.settings.clicker == ()


def test_nine_keys_are_not_those_of_the_clicker(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, settings=close_look(clicker=CLICKER))
    said = flat(on_court(desk, ["escape", "6", *"nine", "enter", "pageup"]))
    assert "Pageup has another meaning" in said


def test_help_and_the_key_line_say_what_each_key_does(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, settings=close_look(clicker=CLICKER))
    assert "Pagedown clean  Pageup fault, rest not seen" in on_court(desk)
    assert "not seen (not seen is never missed)" in flat(on_court(desk, ["?"]))


def test_the_clicker_rests_beside_a_pad_that_has_its_key_and_can_be_forgotten(
    tmp_path: Path,
) -> None:
    desk = desk_in(tmp_path, settings=Settings(pad="left", clicker=(".", "b")))
    on_court(desk, [".", "b"])
    assert round_on(desk) == "222 0--"
    on_court(desk, ["escape", "6", "2"])
    assert desk.view.message == (
        "Pad: right hand. The clicker rests: . means something on this pad already."
    )
    on_court(desk, ["."])
    assert round_on(desk) == "222 0--|--2"
    on_court(desk, ["escape", "6", *"forget", "enter"])
    assert desk.settings.clicker == ()


@pytest.mark.parametrize("main", ["turn", "spacing", "finish"])
def test_ten_balls_by_two_keys(tmp_path: Path, main: str) -> None:
    """Six clean, four faults: only the main cue's tally has them, after a restart too."""
    desk = desk_in(tmp_path, settings=Settings(clicker=CLICKER))
    with_main(desk, main)
    clean, fault = CLICKER
    on_court(desk, [clean, clean, fault, clean, fault, fault, "backspace", clean])
    desk = again(desk)
    text = on_court(desk, [clean, fault, clean, fault, "backspace"])
    assert f"Taken back: Ball 10 taken: {main} missed." in text
    on_court(desk, [fault])
    row = ("turn", "spacing", "finish").index(main)
    missed = "".join("0" if place == row else "-" for place in range(3))
    assert round_on(desk) == " ".join(
        missed if number in (3, 5, 8, 10) else "222" for number in range(1, 11)
    )
    counts = desk.book.db.execute("SELECT cue, missed, near, made, unseen FROM tally").fetchall()
    assert set(counts) == {
        (cue, *((4, 0, 6, 0) if cue == main else (0, 0, 6, 4)))
        for cue in ("turn", "spacing", "finish")
    }


def test_a_main_cue_that_is_not_in_view_leaves_the_fault_to_the_first(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, settings=Settings(clicker=CLICKER))
    with_main(desk, "turn")
    desk.rounds.start(cues=("spacing", "finish"))
    on_court(desk, [CLICKER[1]])
    assert round_on(desk) == "0-"


def test_the_far_look_shows_a_fault_as_any_ball(tmp_path: Path) -> None:
    """The pad's own keys for the same ball leave the same screen."""
    seen = []
    for place, keys in enumerate((["u", "enter"], [CLICKER[1]])):
        desk = desk_in(tmp_path / str(place), settings=Settings(clicker=CLICKER))
        seen.append(on_court(desk, keys))
    assert seen[0] == seen[1]
    assert "Ball 1 taken: turn missed." in seen[0]


@pytest.mark.parametrize("key", CLICKER)
@pytest.mark.parametrize(("gap", "balls"), [(0.03, 2), (0.11, 2), (0.15, 3)])
def test_two_clicks_closer_than_a_finger_clicks_are_one(
    tmp_path: Path, key: str, gap: float, balls: int
) -> None:
    desk = desk_in(tmp_path, settings=Settings(clicker=CLICKER))
    feed(desk, "222")

    async def click(pilot: Pilot[None], app: CourtlogApp) -> None:
        for arrived in (5.0, 5.0 + gap):
            app.keys.add(Key(key, None), arrived)
            await app.keys.emptied()

    text = on_court(desk, then=click)
    assert len(round_on(desk).split()) == balls
    assert (HELD in text) == (balls == 2)


def test_a_fault_puts_a_past_ball_right_too(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, settings=close_look(clicker=CLICKER))
    with_main(desk, "spacing")
    feed(desk, "2/ 2/")
    on_court(desk, ["ctrl+a", "enter", CLICKER[1], "escape"])
    assert "2--" in round_on(desk)
    assert "20-" in round_on(desk)


def test_settings_of_before_the_clicker_open(tmp_path: Path) -> None:
    path = tmp_path / "settings.json"
    settings_file.write(path, Settings(pad="left", clicker=CLICKER))
    kept = json.loads(path.read_text())
    assert kept["clicker"] == list(CLICKER)
    assert pad_of(settings_file.read(path)).clicker == CLICKER
    del kept["clicker"]
    path.write_text(json.dumps(kept))
    assert settings_file.read(path) == Settings(pad="left")
    assert pad_of(settings_file.read(path)) == PADS["left"]
