"""Every screen uses its room: nothing scrolls, is left out or is cut while cells stay empty.

How much of a screen is used cannot be known from the outside, but what a larger terminal shows in
its stead can: words that only come with more rows had to wait although rows stood empty.
"""

from __future__ import annotations

import asyncio
from collections import Counter
from dataclasses import dataclass
from itertools import groupby
from pathlib import Path

import pytest
from textual.screen import Screen

from courtlog import locations
from courtlog.cli.actions import demo
from courtlog.cli.actions.sheets import parse, put_in
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.desk.desk import Desk
from tests.court import LIBRARY, Clock, close_look, open_book
from tests.courtside.screen import on_court, shown
from tests.courtside.surface.test_contrast import BACK_TWICE, SCREENS

SIZES = [(80, 24), (100, 30), (120, 40), (200, 60)]

FRAME = "│▁▂▃▄▅▆▇█ "

SPARE_ROWS = 5
"""Rows that may stand empty where a taller terminal says more: the gaps between parts."""

PAGES_OF_TEXT = {
    "a page of the manual",
    "a table of the manual",
    "no such link in the manual",
}
"""Screens that have a blank row between paragraphs."""

MOST_GAP = 3
"""Rows that may stand empty together in the far look: fewer than its least letters need."""


def words(text: str) -> Counter[str]:
    """Whole words, by how often they are shown; charts change their shape with the size."""
    return Counter(word for word in text.split() if word.isalpha() and len(word) > 1)


def empty_rows(text: str, height: int) -> int:
    """Rows with nothing in them but a frame."""
    lines = text.split("\n")
    used = sum(bool(line.strip(FRAME)) for line in lines)
    return height - used


def scrolls(screen: Screen[object]) -> bool:
    """Whether any of its parts is larger than the place it has."""
    return any(widget.max_scroll_y > 0 for widget in screen.query("*"))


def cut_lines(text: str, width: int) -> list[str]:
    """Lines in which something is cut though a tenth of the line stands empty at its end."""
    return [
        line for line in text.split("\n") if "…" in line and len(line.rstrip(" │")) < width * 0.9
    ]


def demo_desk(folder: Path) -> Desk:
    """The demo's court: six players, mid-round on the third of five days."""
    clinic = parse(locations.shipped_samples() / demo.SAMPLE, LIBRARY, "UTC")
    before, round_ = demo.until_mid_round(clinic)
    start = round_.started or 0
    book = open_book(folder)
    put_in(book, before, LIBRARY, start)
    desk = Desk(book, lambda: LIBRARY, close_look(), Clock(start))
    demo.put_on_court(desk, book, before.days[-1], round_, LIBRARY)
    return desk


@dataclass(frozen=True)
class Seen:
    """What one screen showed, and how many of its parts are larger than their place."""

    text: str
    scrolls: bool


def walk(folder: Path, size: tuple[int, int]) -> dict[str, Seen]:
    """Every screen of the demo's court at a size."""
    folder.mkdir()
    desk = demo_desk(folder)
    seen: dict[str, Seen] = {}

    async def look() -> None:
        app = CourtlogApp(desk, None, "UTC")
        async with app.run_test(size=size) as pilot:
            for name, keys in SCREENS.items():
                await pilot.press(*keys)
                await pilot.pause()
                seen[name] = Seen(shown(app.screen), scrolls(app.screen))
                await pilot.press("escape")
                if name in BACK_TWICE:
                    await pilot.press("escape")
                await pilot.pause()

    asyncio.run(look())
    return seen


@pytest.mark.parametrize("size", SIZES, ids=lambda size: "x".join(map(str, size)))
def test_every_screen_uses_its_room(tmp_path: Path, size: tuple[int, int]) -> None:
    width, height = size
    taller = walk(tmp_path / "taller", (width, height * 2))
    wasted = []
    for name, seen in walk(tmp_path / "usual", size).items():
        spare = empty_rows(seen.text, height)
        more = words(taller[name].text) - words(seen.text)
        if name not in PAGES_OF_TEXT and spare > SPARE_ROWS and (seen.scrolls or more):
            wasted.append(f"{name}: {spare} rows empty, without {' '.join(more)}")
        wasted += [f"{name}: cut: {line}" for line in cut_lines(seen.text, width)]
    assert not wasted, "\n".join(wasted)


@pytest.mark.parametrize("size", SIZES, ids=lambda size: "x".join(map(str, size)))
def test_the_far_look_leaves_no_rows_empty_together(tmp_path: Path, size: tuple[int, int]) -> None:
    text = on_court(demo_desk(tmp_path), ["apostrophe", "o"], size=size)
    lines = [line.strip() for line in text.split("\n")]
    gaps = [len(list(rows)) for line, rows in groupby(lines) if not line]
    assert "' close" in text
    assert max(gaps) <= MOST_GAP
