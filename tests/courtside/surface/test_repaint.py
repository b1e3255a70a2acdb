"""What a key sends to the terminal: few bytes, after which it shows what a full repaint would."""

from __future__ import annotations

import random
from io import StringIO
from pathlib import Path

import pyte
import pytest
from rich.console import Console, RenderableType
from textual._compositor import ChopsUpdate, CompositorUpdate
from textual.pilot import Pilot

from courtlog.courtside.app.court import CourtScreen
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.surface.exact_update import ExactUpdate
from courtlog.logbook.file.book import Commits
from courtlog.settings import Settings
from tests.court import desk_in
from tests.courtside.screen import on_court

LIMITS = {(80, 24): 1500, (120, 40): 1500, (200, 60): 3000, (60, 20): 1500}
"""Bytes of a key that feeds; six times as many cells may take twice as many bytes."""

FEEDING = (*"uiopjklm,.789", "space", "space", "enter", "t", "backspace")
OTHERS = ("p", "apostrophe", "tab", "f7", "z", "y", "escape", "g", "f2", "down")


@pytest.mark.parametrize("no_colour", ["", "1"])
@pytest.mark.parametrize(("look", "slow"), [("close", False), ("far", False), ("far", True)])
@pytest.mark.parametrize("size", LIMITS)
def test_a_key_sends_little_and_the_screen_is_as_if_drawn_anew(
    size: tuple[int, int],
    look: str,
    slow: bool,
    no_colour: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setenv("NO_COLOR", no_colour)
    monkeypatch.setattr(Commits, "slow", slow)  # a busy disk must not change what is shown
    settings = Settings(look=look, review=False, basket=30)  # type: ignore[arg-type]
    dice = random.Random(f"{size}{look}")
    console = Console(file=StringIO(), force_terminal=True, color_system="truecolor")
    terminal = pyte.Screen(*size)
    sent: list[int] = []
    of_feeding: list[int] = []

    def display(_: object, renderable: RenderableType | None) -> None:
        if isinstance(renderable, CompositorUpdate):
            feed(terminal, written(renderable))
            # Textual itself paints everything once when it has started.
            sent[-1] += len(written(renderable).encode()) * isinstance(renderable, ChopsUpdate)

    def written(update: CompositorUpdate) -> str:
        if isinstance(update, ChopsUpdate):
            update = ExactUpdate.of(update)
        return update.render_segments(console)

    async def then(pilot: Pilot[None], app: CourtlogApp) -> None:
        await pilot.pause()
        monkeypatch.setattr(app, "_display", display)
        feed(terminal, written(app.screen._compositor.render_full_update()))
        sent.append(0)
        feeding = False
        for number in range(70):
            key = dice.choice(OTHERS if number % 10 == 9 else FEEDING)
            feeds, feeding = feeding, key in FEEDING and under_way(app)
            feeds = feeds and feeding  # the first one may bring what came before it
            sent.append(0)
            await pilot.press(key)
            await pilot.pause()
            if feeds:
                of_feeding.append(sent[-1])
            anew = pyte.Screen(*size)
            feed(anew, written(app.screen._compositor.render_full_update()))
            assert cells(terminal) == cells(anew), key
            if not under_way(app):
                await pilot.press("escape", "tab")
                feeding = False

    on_court(desk_in(tmp_path, settings=settings), size=size, then=then)
    assert len(of_feeding) > 20
    assert max(of_feeding) <= LIMITS[size]


def under_way(app: CourtlogApp) -> bool:
    """Whether a round is fed on the screen on top."""
    view = app.screen.view if isinstance(app.screen, CourtScreen) else None
    return view is not None and view.live is not None and not view.ended


def feed(screen: pyte.Screen, text: str) -> None:
    """Show the text on the terminal; a new line begins at its left, as a terminal has it."""
    pyte.Stream(screen).feed(text.replace("\n", "\r\n"))


def cells(screen: pyte.Screen) -> list[object]:
    """Every cell with its colours; a wide character's second cell belongs to its first."""
    return [[screen.buffer[y][x] for x in range(screen.columns)] for y in range(screen.lines)]
