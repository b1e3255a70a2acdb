"""A dialog is answered once, and the court is never taken away."""

from __future__ import annotations

import importlib
import pkgutil
from pathlib import Path

from textual.pilot import Pilot
from textual.screen import Screen

from courtlog import courtside
from courtlog.courtside.app.court import CourtScreen
from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.dialogs.own_screen import OwnScreen
from courtlog.courtside.dialogs.questions import YesNoQuestion
from tests.court import desk_in
from tests.courtside.screen import on_court


def test_every_screen_is_one_of_ours() -> None:
    for module in pkgutil.walk_packages(courtside.__path__, "courtlog.courtside."):
        for name, found in vars(importlib.import_module(module.name)).items():
            if isinstance(found, type) and issubclass(found, Screen):
                ours = issubclass(found, OwnScreen) or found.__module__.startswith("textual.")
                assert ours, f"{module.name}.{name}"


def test_a_dialog_is_answered_once(tmp_path: Path) -> None:
    answers: list[bool | None] = []

    async def twice(pilot: Pilot[None], app: CourtlogApp) -> None:
        dialog = YesNoQuestion("Really?", "yes", "no")
        app.push_screen(dialog, answers.append)
        await pilot.pause()
        dialog.dismiss(True)
        dialog.dismiss(False)
        await pilot.pause()
        assert isinstance(app.screen, CourtScreen)

    on_court(desk_in(tmp_path), then=twice)
    assert answers == [True]


def test_the_court_stays_whatever_asks_it_to_go(tmp_path: Path) -> None:
    async def asked(pilot: Pilot[None], app: CourtlogApp) -> None:
        assert isinstance(app.screen, CourtScreen)
        app.screen.dismiss(None)
        app.pop_screen()
        await pilot.pause()
        assert isinstance(app.screen, CourtScreen)

    on_court(desk_in(tmp_path), then=asked)
