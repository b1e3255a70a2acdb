"""A whole first day by plain keys: no function key, no modifier, and every key is counted."""

from __future__ import annotations

import asyncio
from collections.abc import Sequence
from pathlib import Path

from textual.pilot import Pilot

from courtlog.coaching.care.arm_care import CautionLevel
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.plans.rotation import Presence
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.screens.printed_page import PageScreen
from courtlog.courtside.screens.setup import SetUpScreen
from courtlog.logbook.reads.past_rounds import past_rounds
from courtlog.settings import Settings
from tests.court import LIBRARY, Clock, open_book, player

PLAIN = {"space", "enter", "escape", "backspace", "tab", "comma", "up", "down"}
"""Keys beside letters and digits that one hand finds without looking."""

CLEAN = ("space",)
NO_TURN = ("u", "space")
NEAR_FINISH = ("comma", "space")
"""Balls as the right hand's keys rate them."""


class Hand:
    """One hand at the keys of one laptop."""

    def __init__(self, desk: Desk, app: CourtlogApp, pilot: Pilot[None]) -> None:
        self.desk = desk
        self.app = app
        self._pilot = pilot

    async def press(self, *keys: str, most: int = 100) -> None:
        """Press these keys, plain ones alone and no more than that many."""
        assert len(keys) <= most
        for key in keys:
            assert key in PLAIN or (len(key) == 1 and key.isalnum() and key == key.lower()), key
            await self._pilot.press(key)
        await self._pilot.pause()

    async def feed(self, *balls: Sequence[str]) -> None:
        """Rate these balls."""
        for ball in balls:
            await self.press(*ball)

    @property
    def round(self) -> tuple[str, Purpose, int]:
        """Who hits, or hit last; why; and how many balls were taken."""
        live = self.desk.state.view.live
        assert live is not None
        return live.player.name, live.purpose, len(live.feeding.taken)

    @property
    def cues(self) -> list[str]:
        """The cues in view."""
        live = self.desk.state.view.live
        assert live is not None
        return list(live.cue_keys)


async def first_day(hand: Hand) -> None:
    """Three players are named, Ruben comes late, Maren's arm is sore, Tove leaves early."""
    await hand.press(*"week", "enter", *"maren", "comma", *"tove", "comma", *"ruben", "enter")
    while isinstance(hand.app.screen, SetUpScreen):
        await hand.press("enter")
    assert hand.round == ("maren", Purpose.CHOOSING, 0)

    await hand.press("escape", "l", "2", most=4)
    ruben = player(hand.desk, "ruben")
    assert hand.desk.state.view.rotation.court.away == {ruben.id: Presence.LATE}

    await hand.feed(*[CLEAN] * 6, *[NO_TURN] * 3, NEAR_FINISH)
    await hand.press("z")
    await hand.press("enter", "enter", most=2)
    assert hand.cues == ["turn", "spacing", "finish"]

    assert hand.round == ("maren", Purpose.YARDSTICK, 0)
    await hand.feed(*[CLEAN, NO_TURN] * 10)

    await hand.press("tab", "tab", most=2)
    await hand.feed(CLEAN)
    assert hand.round == ("tove", Purpose.CHOOSING, 1)
    await hand.feed(CLEAN, NEAR_FINISH)
    await hand.press("escape", "w", "1", "enter", most=5)
    assert hand.round[0] == "maren"

    await hand.press("tab", "tab", most=2)
    await hand.feed(*[CLEAN] * 5, *[NEAR_FINISH] * 5)
    assert hand.round == ("tove", Purpose.CHOOSING, 10)
    await hand.press("z")
    await hand.press("c", "down", "space", "enter", most=5)
    assert hand.cues == ["spacing", "finish"]
    await hand.feed(*[("k", "space"), CLEAN] * 10)
    assert hand.round == ("tove", Purpose.YARDSTICK, 20)

    await hand.press("escape", "i", "2", "4", "enter", "enter")
    maren = player(hand.desk, "maren")
    assert hand.desk.state.view.care.levels[maren.id] is CautionLevel.AMBER

    await hand.press("escape", "e", "1", most=4)
    assert not hand.desk.state.view.rotation.court.away
    await hand.press("tab", "tab", most=2)
    await hand.feed(*[CLEAN] * 4, *[NO_TURN] * 6)
    assert hand.round == ("ruben", Purpose.CHOOSING, 10)
    await hand.press("z")
    await hand.press("c", "enter", most=2)
    await hand.feed(*[NO_TURN] * 20)
    await hand.press("z", "enter")
    assert hand.round == ("ruben", Purpose.PRACTICE, 0)
    await hand.feed(*[CLEAN] * 5)

    await hand.press("escape", "x", "1", most=4)
    gone = player(hand.desk, "tove")
    assert hand.desk.state.view.rotation.court.away == {gone.id: Presence.LEFT}
    assert hand.round == ("ruben", Purpose.PRACTICE, 5)

    await hand.press("escape", "v", most=2)
    assert isinstance(hand.app.screen, PageScreen)
    played = past_rounds(hand.desk.book, hand.desk.state.view.clinic.id)
    names = {one.id: one.name for one in hand.desk.state.view.roster}
    assert [(names[r.player_id], r.purpose, r.balls) for r in reversed(played)] == [
        ("maren", Purpose.CHOOSING, 10),
        ("maren", Purpose.YARDSTICK, 20),
        ("maren", Purpose.CHOOSING, 3),
        ("tove", Purpose.CHOOSING, 10),
        ("tove", Purpose.YARDSTICK, 20),
        ("ruben", Purpose.CHOOSING, 10),
        ("ruben", Purpose.YARDSTICK, 20),
        ("ruben", Purpose.PRACTICE, 5),
    ]


def test_a_first_day_needs_neither_function_key_nor_modifier(tmp_path: Path) -> None:
    desk = Desk(open_book(tmp_path), lambda: LIBRARY, Settings(), Clock())

    async def play() -> None:
        app = CourtlogApp(desk, None, "UTC")
        async with app.run_test(size=(80, 24)) as pilot:
            await first_day(Hand(desk, app, pilot))

    asyncio.run(play())
