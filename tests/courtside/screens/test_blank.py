"""Ctrl+L: what was shown is gone, no key of a passer-by reveals or rates, and it all comes back."""

from __future__ import annotations

import asyncio
import json
from dataclasses import asdict
from pathlib import Path

import pytest
from textual.pilot import Pilot

from courtlog.courtside.app.court import CourtScreen
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.commands.on_court import end_round
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.screens.blank import BlankScreen
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.file.writer_lock import LockOwner, WriterLock
from tests.court import LIBRARY, START, Clock, close_look, desk_in, feed, open_book
from tests.courtside.screen import on_court, shown

LINE = "Ctrl+L or Escape brings the screen back."

SCREENS: dict[str, list[str]] = {
    "court": [],
    "ball half rated": ["o", "t"],
    "review": ["q"],
    "help": ["question_mark"],
    "commands": ["escape", "space", *"note"],
    "players": ["y", *"to"],
    "drills": ["g", "down"],
    "note": ["n", *"Maren is late"],
    "purpose": ["f2"],
    "cues": ["f3", "down", "space"],
    "pads": ["f6"],
    "teach": ["f6", *"teach", "enter", "q"],
    "trends": ["f5"],
    "one player's trend": ["f5", "enter"],
    "people": ["f9"],
}

SIZES = [(80, 24), (120, 40), (60, 15)]

HABITS = ["u", "i", "o", "space", "enter", "tab", "t", "backspace", "up", "q", "f5", "ctrl+c", "x"]


def rows(desk: Desk) -> list[str]:
    """Everything the book holds."""
    return list(desk.book.db.iterdump())


@pytest.mark.parametrize("size", SIZES)
def test_every_screen_is_covered_and_comes_back_as_it_was(
    tmp_path: Path, size: tuple[int, int], long_run: bool
) -> None:
    """Every screen in one of the sizes, and with `--long` in all of them."""
    desk = desk_in(tmp_path)
    feed(desk, "_21!0_")
    screens = list(SCREENS.items()) if long_run else list(SCREENS.items())[SIZES.index(size) :: 3]

    async def look() -> None:
        for name, keys in screens:
            app = CourtlogApp(desk, None, "UTC")
            async with app.run_test(size=size) as pilot:
                await pilot.press(*keys)
                await app.workers.wait_for_complete()
                await pilot.pause()
                before, kept = shown(app.screen), rows(desk)
                for back in ("ctrl+l", "escape"):
                    await pilot.press("ctrl+l")
                    await pilot.pause()
                    assert shown(app.screen).strip() == LINE, name
                    await pilot.press(*HABITS)
                    await pilot.pause()
                    assert shown(app.screen).strip() == LINE, name
                    await pilot.press(back)
                    await pilot.pause()
                    assert shown(app.screen) == before, name
                assert rows(desk) == kept, name

    asyncio.run(look())


def test_the_first_screen_of_a_new_book_is_covered_too(tmp_path: Path) -> None:
    desk = Desk(open_book(tmp_path), lambda: LIBRARY, close_look(), Clock())
    assert on_court(desk, [*"Maren", "ctrl+l", *"xyz", "enter"]).strip() == LINE
    assert "Maren" in on_court(desk, [*"Maren", "ctrl+l", *"xyz", "enter", "ctrl+l"])


def test_the_next_key_after_it_rates_again(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    on_court(desk, ["o", "ctrl+l", "k", "l", "escape", "k"])
    assert desk.view.live is not None
    assert desk.view.live.feeding.open.token() == "21-"


def test_it_is_in_the_list_of_all_commands(tmp_path: Path) -> None:
    assert on_court(desk_in(tmp_path), ["escape", "space", *"blank", "enter"]).strip() == LINE


def test_a_click_and_pasted_text_reveal_nothing(tmp_path: Path) -> None:
    async def poke(pilot: Pilot[None], app: CourtlogApp) -> None:
        await pilot.click(offset=(40, 12))
        await pilot.hover(offset=(10, 3))
        assert isinstance(app.screen, BlankScreen)

    assert on_court(desk_in(tmp_path), ["ctrl+l"], then=poke).strip() == LINE


def test_the_question_who_writes_waits_until_the_coach_is_back(tmp_path: Path) -> None:
    """Another computer left the book open, and the question comes up while the court is blank."""
    desk = desk_in(tmp_path)
    left = LockOwner("Ines", "clubhouse", 812, START)
    WriterLock(desk.book.path, left).path.write_text(json.dumps(asdict(left)), encoding="utf-8")
    here = LockOwner("Tove", "court-laptop", 813, START)
    other = Desk(
        create_or_open(desk.book.path, START, here), lambda: LIBRARY, close_look(), Clock()
    )
    other.state.resume()

    async def poke(pilot: Pilot[None], app: CourtlogApp) -> None:
        await pilot.press("escape")
        court = app.screen
        assert isinstance(court, CourtScreen)
        await pilot.press("ctrl+l")
        end_round(court)
        await pilot.pause()
        assert shown(app.screen).strip() == LINE
        await pilot.press("enter")
        assert shown(app.screen).strip() == LINE
        await pilot.press("escape")

    text = on_court(other, then=poke)
    assert "was not closed by Ines on clubhouse" in text
    assert other.book.lock is not None
    assert not other.book.lock.held, "no key of a passer-by answered it"
