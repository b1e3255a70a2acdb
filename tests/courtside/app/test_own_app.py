"""Both applications leave with their terminal, and keep their memory from growing."""

from __future__ import annotations

import asyncio
import gc
import itertools
import weakref
from pathlib import Path
from unittest import mock

import pytest
from textual import _time
from textual._styles_cache import StylesCache
from textual.app import ComposeResult
from textual.screen import ModalScreen
from textual.widgets import Static

from courtlog.courtside.app import own_app, terminal
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.app.own_app import OwnApp
from courtlog.courtside.app.second_look_app import SecondLookApp
from courtlog.courtside.screens.second_look import RatingSession
from courtlog.courtside.surface.surface import Surface
from tests.court import close_look, desk_in


@pytest.mark.parametrize("which", ["court", "second look"])
def test_an_application_leaves_and_sweeps(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, which: str
) -> None:
    left: list[object] = []
    swept = mock.Mock()
    monkeypatch.setattr(own_app, "gc", swept)
    monkeypatch.setattr(terminal, "leave_with", left.append)
    desk = desk_in(tmp_path)
    session = RatingSession(desk.book, desk.view.clinic, "Bo", 1, [], desk.clock)
    app: OwnApp = (
        CourtlogApp(desk, None, "UTC") if which == "court" else SecondLookApp(session, close_look())
    )

    async def run() -> None:
        async with app.run_test() as pilot:
            await pilot.pause()

    asyncio.run(run())
    assert left == [app]
    assert swept.mock_calls == [mock.call.collect(), mock.call.freeze(), mock.call.enable()]


def test_a_change_of_size_is_followed_however_late_its_timer_runs(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Textual leaves out a timer whose moment has passed before it begins, as on a busy laptop."""
    app = CourtlogApp(desk_in(tmp_path), None, "UTC")
    sizes = []

    async def run() -> None:
        async with app.run_test(size=(80, 24)) as pilot:
            await pilot.pause()
            monkeypatch.setattr(_time, "get_time", itertools.count().__next__)
            for size in ((20, 5), (80, 24)):
                await pilot.resize_terminal(*size)
                sizes.append(tuple(app.screen.query_one(Surface).size))

    asyncio.run(run())
    assert sizes == [(20, 5), (80, 24)]


class Page(ModalScreen[None]):
    """A line over the court."""

    def compose(self) -> ComposeResult:
        yield Static("a line")


def test_a_screen_that_has_gone_leaves_nothing_behind(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Textual keeps the colours of what was painted by who painted it, with all its lines."""
    # The start of a busy laptop may freeze the first page with everything else that it loaded.
    monkeypatch.setattr(gc, "freeze", lambda: None)
    app = CourtlogApp(desk_in(tmp_path), None, "UTC")
    painters: list[weakref.ref[StylesCache]] = []

    async def run() -> None:
        async with app.run_test() as pilot:
            for _ in range(4):
                app.push_screen(page := Page())
                await pilot.pause()
                painters.append(weakref.ref(page.query_one(Static)._styles_cache))
                del page
                await app.pop_screen()
                await pilot.pause()

    asyncio.run(run())
    gc.collect()  # by now the timers of those screens have ended, too
    assert [painter() is None for painter in painters[:3]] == [True] * 3
