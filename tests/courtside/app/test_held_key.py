"""A key held down counts once, and says so; the Enter that closed a dialog takes no ball."""

from __future__ import annotations

import random
from collections.abc import Iterable
from pathlib import Path

import pytest
from textual.events import Key
from textual.pilot import Pilot

from courtlog.coaching.on_court import feeding
from courtlog.courtside.app.court import CourtScreen
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.app.held_key import AT_THE_START, HELD, NO_GRADE, TWICE
from courtlog.courtside.app.key_press import HELD_WITHIN, Press, RepeatWatch
from courtlog.courtside.commands.table import BY_KEY
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.desk.keymap import PADS, meaning_of
from courtlog.logbook.rows import tallies
from courtlog.settings import Settings
from tests.court import again, desk_in, feed, written
from tests.courtside.screen import flat, on_court, shown

KEYBOARDS = {
    "X11": (0.66, 0.04),
    "Windows, usual": (0.5, 0.033),
    "Windows, slowest delay": (1.0, 0.033),
    "macOS": (0.5, 0.09),
    "Linux console": (0.25, 0.092),
    "all at once": (0.0, 0.0),
}
"""Seconds until a held key begins to repeat, and between two repeats (their usual settings)."""


def held(start: float, keyboard: str, repeats: int = 29) -> list[float]:
    """When a key that is held down arrives."""
    delay, gap = KEYBOARDS[keyboard]
    return [start, *(start + delay + gap * repeat for repeat in range(repeats))]


def pressed(desk: Desk, keys: Iterable[tuple[str, float]]) -> str:
    """The screen after keys that arrived at these moments."""

    async def press(pilot: Pilot[None], app: CourtlogApp) -> None:
        for key, arrived in keys:
            app.keys.add(Key(key, key if len(key) == 1 else None), arrived)
            await app.keys.emptied()
        await pilot.pause()

    return on_court(desk, then=press)


def balls(desk: Desk) -> str:
    """The round on court, from the book."""
    assert tallies.proof(desk.book.db) == []
    live = again(desk).view.live
    assert live is not None
    return written(live.feeding)


def once(desk: Desk, key: str) -> str:
    """The round after this key was pressed once, by the pure rules."""
    state = desk.feeds.live().feeding
    if key == "backspace":
        return written(feeding.take_back_key(state)[0])
    cues = len(desk.feeds.live().cue_keys)
    meaning = feeding.ToughLast() if key == "=" else meaning_of(desk.view.pad, cues, key)
    return written(feeding.press_key(state, meaning)[0] if meaning else state)


@pytest.mark.parametrize("keyboard", KEYBOARDS)
@pytest.mark.parametrize("pad", PADS)
def test_every_key_of_every_pad_held_down_counts_once(
    tmp_path: Path, keyboard: str, pad: str
) -> None:
    desk = desk_in(tmp_path, settings=Settings(pad=pad, review=False))  # type: ignore[arg-type]
    feed(desk, "222 210 1")
    keys = ["backspace", *sorted({*PADS[pad].all_keys, "space", "enter", "t", "="}), "backspace"]

    async def hold(pilot: Pilot[None], app: CourtlogApp) -> None:
        for place, key in enumerate(keys):
            expected = once(desk, key)
            for arrived in held(100.0 * place, keyboard):
                app.keys.add(Key(key, key if len(key) == 1 else None), arrived)
            await app.keys.emptied()
            await pilot.pause()
            assert balls(desk) == expected, key
            assert HELD in shown(app.screen), key

    on_court(desk, then=hold)


@pytest.mark.parametrize("keyboard", KEYBOARDS)
def test_backspace_held_down_takes_one_step_back(tmp_path: Path, keyboard: str) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "222 210 21")
    text = pressed(desk, [("backspace", moment) for moment in held(5, keyboard)])
    assert balls(desk) == "222 210|2--"
    assert HELD in text
    assert "Taken back" in pressed(desk, [("backspace", 60.0)])
    assert balls(desk) == "222 210"


def test_backspace_held_down_does_not_leave_the_round(tmp_path: Path) -> None:
    desk = desk_in(tmp_path, drill="forehand/racquet-feed")
    feed(desk, "222")
    desk.rounds.start(player=desk.view.roster[1])
    feed(desk, "2")
    text = pressed(desk, [("backspace", 5.0), ("backspace", 5.5)])
    assert AT_THE_START in text
    assert balls(desk) == ""
    pressed(desk, [("backspace", 8.0)])
    assert balls(desk) == "222", "after a moment it goes back into the round before"


def test_honest_keys_all_count(tmp_path: Path) -> None:
    """The same key 150 ms apart, twice or thrice, and different keys at once."""
    desk = desk_in(tmp_path)
    pressed(desk, [("space", at) for at in (1.0, 1.15, 1.3, 3.0, 3.15)])
    assert balls(desk) == "222 222 222 222 222"
    pressed(desk, [("u", 6.0), ("k", 6.0), ("full_stop", 6.0), ("backspace", 6.2)])
    pressed(desk, [(".", 7.0), ("space", 7.0), ("t", 7.01)])
    assert balls(desk) == "222 222 222 222 222 022|.!"


def test_a_bounce_is_not_a_ball_and_takes_none_away(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    assert HELD in pressed(desk, [("space", 1.0), ("space", 1.4), ("space", 1.43)])
    assert balls(desk) == "222 222"


@pytest.mark.parametrize("key", sorted(set(BY_KEY) - {"ctrl+q", "ctrl+z", "ctrl+l"}))
def test_a_command_held_down_loses_and_adds_no_ball(tmp_path: Path, key: str) -> None:
    desk = desk_in(tmp_path, settings=Settings())
    feed(desk, "222 210")
    pressed(desk, [(key, moment) for moment in held(5, "X11")])
    number = desk.book.db.execute("SELECT count(*) FROM ball WHERE taken").fetchone()[0]
    assert number == (1 if key == "backspace" else 2)


def test_what_a_press_is_follows_from_when_it_came() -> None:
    """Drawn presses: by the gap alone, and whatever the clock began with."""
    dice = random.Random(7)
    for _ in range(300):
        watch, at = RepeatWatch(), dice.uniform(0, 1e6)
        gaps = [dice.choice((0.0, 0.033, 0.09, 0.15, 0.5, 2.0)) for _ in range(8)]
        pressed_as = [watch.press("space", at)]
        for gap in gaps:
            at += gap
            pressed_as.append(watch.press("space", at))
        for gap, press in zip(gaps, pressed_as[1:], strict=True):
            repeats = press in (Press.HELD, Press.HELD_SINCE_BEFORE)
            assert repeats == (gap < HELD_WITHIN)
        assert watch.press("enter", at) is Press.FRESH, "another key is another press"


CLOSED_BY_ENTER = {
    "a note": ["n", "x", "enter"],
    "the drill": ["g", "enter"],
    "the player": ["y", "enter"],
    "the purpose": ["escape", "r", "enter"],
    "the cues": ["escape", "c", "enter"],
    "feeds": ["f10", "enter"],
    "a check-in": ["escape", "i", "1", "0", "enter"],
    "the pad": ["f6", "enter"],
    "the review": ["z", "enter"],
}


@pytest.mark.parametrize("keys", CLOSED_BY_ENTER.values(), ids=CLOSED_BY_ENTER)
@pytest.mark.parametrize("rated", [(), ("u",)])
def test_enter_that_closed_a_dialog_takes_no_ball(
    tmp_path: Path, keys: list[str], rated: tuple[str, ...]
) -> None:
    desk = desk_in(tmp_path, settings=Settings(review=keys[0] == "z"))
    feed(desk, "222")

    async def twice(pilot: Pilot[None], app: CourtlogApp) -> None:
        await pilot.press(*rated, *keys)
        await pilot.pause()
        assert isinstance(app.screen, CourtScreen)
        count = desk.book.db.execute("SELECT count(*) FROM ball WHERE taken").fetchone()
        await pilot.press("enter")
        await pilot.pause()
        said = flat(shown(app.screen_stack[-1]))
        assert (TWICE in said) != (NO_GRADE in said)
        assert desk.book.db.execute("SELECT count(*) FROM ball WHERE taken").fetchone() == count
        await pilot.press("enter")
        await pilot.pause()
        after = desk.book.db.execute("SELECT count(*) FROM ball WHERE taken").fetchone()
        assert after == (count[0] + 1,)

    on_court(desk, then=twice)


def test_enter_a_while_after_a_dialog_takes_the_ball(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    note = [("u", 0.0), ("n", 1.0), ("x", 2.0), ("enter", 3.0)]
    pressed(desk, [*note, ("enter", 3.6)])
    assert balls(desk) == "0--"
    assert TWICE in pressed(desk, [(key, 10 + at) for key, at in [*note, ("enter", 3.3)]])
    assert balls(desk) == "0--|0--"


def test_enters_after_a_form_are_no_balls_that_nobody_saw(tmp_path: Path) -> None:
    """Typed ahead they come at once, and after a pause the first one tells what it would do."""
    desk = desk_in(tmp_path)
    form = [("n", 1.0), ("x", 2.0), ("enter", 3.0)]
    assert NO_GRADE in pressed(desk, [*form, *(("enter", 3.0 + 0.2 * n) for n in range(1, 6))])
    assert balls(desk) == ""
    pressed(desk, [("enter", 5.0)])
    assert balls(desk) == "."
    assert NO_GRADE in pressed(desk, [(key, 10 + at) for key, at in [*form, ("enter", 9.0)]])
    assert balls(desk) == "."
    pressed(desk, [("space", 30.0), ("enter", 30.5), ("enter", 30.7)])
    assert balls(desk) == ". 222 . ."
