"""Both applications leave with their terminal, and sweep what comes after their first screen."""

from __future__ import annotations

import asyncio
from pathlib import Path
from unittest import mock

import pytest

from courtlog.courtside import own_app, terminal
from courtlog.courtside.app import CourtlogApp
from courtlog.courtside.own_app import OwnApp
from courtlog.courtside.second_look import Seat, SecondLookApp
from courtlog.settings import Settings
from tests.court import desk_in


@pytest.mark.parametrize("which", ["court", "second look"])
def test_an_application_leaves_and_sweeps(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, which: str
) -> None:
    left: list[object] = []
    swept = mock.Mock()
    monkeypatch.setattr(own_app, "gc", swept)
    monkeypatch.setattr(terminal, "leave_with", left.append)
    desk = desk_in(tmp_path)
    seat = Seat(desk.book, desk.view.clinic, "Bo", 1, [], desk.clock)
    app: OwnApp = (
        CourtlogApp(desk, None, "UTC") if which == "court" else SecondLookApp(seat, Settings())
    )

    async def run() -> None:
        async with app.run_test() as pilot:
            await pilot.pause()

    asyncio.run(run())
    assert left == [app]
    assert swept.mock_calls == [mock.call.freeze(), mock.call.enable()]
