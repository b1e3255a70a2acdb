"""Whatever a text holds and however long it is, every screen shows it and none obeys it."""

from __future__ import annotations

import asyncio
from pathlib import Path

import pytest
from rich.cells import cell_len

from courtlog.coaching.game.cards import Focus, PlayerCard
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.logbook.writes.people_writer import PeopleWriter
from tests.court import desk_in, feed
from tests.courtside.screen import shown
from tests.courtside.surface.test_contrast import BACK_TWICE, SCREENS

TEXTS = {
    "long": "Maximiliana " * 834,
    "one word": "x" * 10_000,
    "zero width": "Ma" + "\u200b" * 10_000 + "ren",
    "marks over a letter": "e" + "\u0301" * 10_000,
    "wide": "深" * 10_000,
    "right to left": "\u202e" + "\u05de" * 10_000,
    "markup": "[bold red]x[/] " * 700,
    "escapes": "\x1b[2J\x1b[31m\x9b1m\x07" * 1_000,
    "formula": "=1+1\t\r\n@cmd" * 900,
}
_HIDDEN_FIRST = sorted(TEXTS.values(), key=str.isprintable)
TEXTS["all of it"] = "".join(text[:3] for text in _HIDDEN_FIRST) + "".join(
    text[:300] for text in TEXTS.values()
)
"""Every kind within the cells of one short line, and then as much of each as fills a screen."""

CONTROLS = {*map(chr, range(0x20)), *map(chr, range(0x7F, 0xA0)), "\u202e", "\u200b"} - {"\n"}


@pytest.mark.parametrize("text", TEXTS.values(), ids=TEXTS)
def test_every_screen_shows_any_text(tmp_path: Path, text: str, long_run: bool) -> None:
    if not long_run and text != TEXTS["all of it"]:
        pytest.skip("each text by itself belongs to the long run")
    desk = desk_in(tmp_path, names=(text, "Tove"))
    feed(desk, "_0_T-1/_")
    desk.balls.note(text)
    card = PlayerCard(name=text, level=text, complaints=text, contact=text)
    clinic, player, at = desk.view.clinic.id, desk.view.roster[0].id, desk.clock()
    PeopleWriter(desk.book).edit_card(clinic, player, card, at)
    PeopleWriter(desk.book).keep_focus(clinic, player, Focus("forehand", text, ("turn",), text), at)
    desk.state.resume()

    async def look() -> None:
        app = CourtlogApp(desk, None, "UTC")
        async with app.run_test(size=(80, 24)) as pilot:
            for name, keys in SCREENS.items():
                await pilot.press(*keys)
                await pilot.pause()
                lines = shown(app.screen).splitlines()
                assert not CONTROLS & set("".join(lines)), name
                assert max(map(cell_len, lines), default=0) <= 80, name
                await pilot.press("escape")
                if name in BACK_TWICE:
                    await pilot.press("escape")
                await pilot.pause()

    asyncio.run(look())
