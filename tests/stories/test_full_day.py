"""A whole invented day of six players, by keys alone.

One comes late, one leaves, one gets a red, and the basket runs empty: what the screens said, and
what the book and the printed day hold then.
"""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable, Iterable
from itertools import pairwise
from pathlib import Path

import pytest
from textual.pilot import Pilot

from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.desk.desk import Desk
from courtlog.logbook.reads import care_lookups, lookups, rotation_lookups
from courtlog.logbook.rows import tallies
from courtlog.reports.facts.day_facts import day_facts
from courtlog.reports.pages.day_text import day_text
from tests.court import Clock, again, close_look, desk_in, player
from tests.courtside.screen import shown

SIX = ("Maren", "Tove", "Ruben", "Anouk", "Ilse", "Pilou")
TURN = 8
FIRST_BALLS = (["space"], ["u", "space"], ["o", "k", "full_stop"], ["t", "space"])


class Coach:
    """Presses keys on the running app; the clock moves only when the coach says so."""

    def __init__(self, pilot: Pilot[None], app: CourtlogApp, clock: Clock) -> None:
        self.pilot, self.app, self.clock = pilot, app, clock

    async def press(self, *keys: str) -> str:
        """The words of the screen after these keys."""
        await self.pilot.press(*keys)
        await self.pilot.pause()
        return shown(self.app.screen)

    async def turn(self, balls: int = TURN) -> str:
        """One player's turn of so many balls and four minutes; the last screen of it."""
        text = ""
        for ball in range(balls):
            text = await self.press(*FIRST_BALLS[ball % len(FIRST_BALLS)])
            self.clock.pass_seconds(240 / balls)
            if "PICK UP" in text:
                text = await self.press("b")
        return text

    async def next(self) -> str:
        """End of the turn, its review, and the next player."""
        review = await self.press("tab")
        assert "w why" in review
        return await self.press("tab")

    async def day(self, turns: int) -> list[str]:
        """So many turns, each by whoever comes up; who they were."""
        hit = []
        for _ in range(turns):
            hit.append(self.on_court)
            await self.turn()
            await self.next()
        return hit

    @property
    def on_court(self) -> str:
        """Who is at the feed, from the book alone."""
        live = again(self.app._desk).view.live
        assert live is not None
        return live.player.name


def run(desk: Desk, story: Callable[[Coach], Awaitable[None]]) -> None:
    """The app on this desk, and the coach in front of it."""

    async def play() -> None:
        app = CourtlogApp(desk, None, "Europe/Lisbon")
        async with app.run_test(size=(80, 24)) as pilot:
            await pilot.pause()
            assert isinstance(desk.clock, Clock)
            await story(Coach(pilot, app, desk.clock))

    asyncio.run(play())


def balls(desk: Desk, names: Iterable[str]) -> dict[str, int]:
    """Balls of the day of these players."""
    turns = rotation_lookups.court(
        desk.book, desk.view.clinic.id, desk.view.day.id, desk.view.roster, {}
    ).turns
    ids = {name: player(desk, name).id for name in names}
    return {name: sum(t.balls for t in turns if t.player == ids[name]) for name in names}


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return desk_in(tmp_path, SIX, "forehand/hand-feed", close_look(basket=40))


def test_a_day_of_six_players(desk: Desk) -> None:
    run(desk, morning)
    reopened = again(desk)
    reopened.state.use(close_look(basket=40), "")
    run(reopened, afternoon)

    stayed = balls(desk, ("Maren", "Tove", "Anouk", "Pilou"))
    pilou_came_at = rotation_lookups.court(
        desk.book, desk.view.clinic.id, desk.view.day.id, desk.view.roster, {}
    ).head_start[player(desk, "Pilou").id]
    stayed["Pilou"] += round(pilou_came_at)
    assert max(stayed.values()) - min(stayed.values()) <= TURN, stayed
    left = balls(desk, ("Ruben", "Ilse"))
    assert left["Ruben"] < min(stayed.values()), "a red takes a player off the feed"
    assert left["Ilse"] < min(stayed.values())

    clinic = lookups.clinics(desk.book)[0]
    (red,) = care_lookups.reds(desk.book, clinic.id, desk.view.day.date)
    assert red.player_id == player(desk, "Ruben").id
    assert tallies.proof(desk.book.db) == []
    page = day_text(day_facts(desk.book, clinic, None, None))
    words = " ".join(page.split())
    assert "shares balls" in words
    assert "as the player says: self-feed 30" in words
    assert "Red of Tue 12 May (usual caution): pain elbow 6, more than 5." in words
    assert "up ready to move up a rung: Maren shares" in words, "practice alone counts, and no red"
    assert "clinician" in words
    assert all(len(line) <= 80 for line in page.splitlines())


async def morning(coach: Coach) -> None:
    """Pilou is late; Ruben's elbow is at 1; five hit, and the basket runs empty."""
    text = await coach.press("f12", *["down"] * 5, "l", "escape")
    assert "Pilou comes later." in text
    assert "next up: Tove, then Ruben" in text
    ruben = ["f8", *"ruben", "enter"]
    text = await coach.press(*ruben, "1", "down", "right", "enter")
    assert "Kept of Ruben" in text

    seen = ""
    for ball in range(TURN * 5):
        if ball and ball % TURN == 0:
            await coach.next()
        seen = await coach.press("space")
        coach.clock.pass_seconds(30)
    assert "PICK UP" in seen
    assert "The basket is empty" in seen
    text = await coach.press("b")
    assert "Basket full: 40 balls." in text
    assert coach.on_court == "Ilse"
    assert "late Pilou" in text

    text = await coach.press("f12", *["down"] * 5, "e", "escape")
    assert "Pilou is here." in text
    assert "next up: Pilou" in await coach.next() or coach.on_court == "Pilou"
    text = await coach.press("left", "3")
    assert "Pilou: 30 at self-feed, as the player says." in text
    assert await coach.day(4) == ["Pilou", "Maren", "Tove", "Ruben"]


async def afternoon(coach: Coach) -> None:
    """Ruben's elbow goes to 6: red. Ilse leaves after one more turn. The others share the rest."""
    assert coach.on_court == "Anouk"
    text = await coach.press("f8", *"ruben", "enter", "6", "down", "right", "enter")
    words = " ".join(text.replace("│", " ").split())
    assert "■ RED: Ruben" in words
    assert "see a clinician" in words
    text = await coach.press("enter")
    assert "Ruben" not in text.split("next up:")[1].splitlines()[0]
    assert await coach.day(3) == ["Anouk", "Ilse", "Pilou"]
    text = await coach.press("f12", *["down"] * 4, "x", "escape")
    assert "Ilse has left for today." in text
    hit = await coach.day(9)
    assert set(hit) == {"Maren", "Tove", "Anouk", "Pilou"}
    assert all(one != other for one, other in pairwise(hit))
    text = await coach.press("y", *"ruben", "enter")
    assert "kept off the feed" in text or "Stop this drill today" in text
    await coach.press("escape")
    assert coach.on_court != "Ruben"
