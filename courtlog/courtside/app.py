"""The application: themes, the first screen of a new book, and the court."""

from __future__ import annotations

import gc
import os
from pathlib import Path
from typing import ClassVar

from textual.app import App
from textual.binding import BindingType

from courtlog import settings as settings_file
from courtlog.courtside import blank
from courtlog.courtside.court import CourtScreen
from courtlog.courtside.desk import Desk
from courtlog.courtside.setup import Beginning, SetUpScreen
from courtlog.courtside.themes import NO_COLOUR, THEMES
from courtlog.settings import Settings, changed


class CourtlogApp(App[None]):
    """Opens where the book was left, or asks what a new book needs."""

    CSS_PATH = "court.tcss"
    TITLE = "courtlog"
    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar[list[BindingType]] = [blank.BINDING]

    def __init__(self, desk: Desk, settings_path: Path | None, zone: str) -> None:
        self._desk = desk
        self._settings_path = settings_path
        self._zone = zone
        # Decided before the first theme: Textual chooses its colour filters here.
        super().__init__(ansi_color=True if _no_colour() else None)
        for theme in (*THEMES.values(), NO_COLOUR):
            self.register_theme(theme)
        self._dress(desk.settings)

    def on_mount(self) -> None:
        if self._desk.is_begun():
            self._desk.resume()
            self._to_court()
        else:
            self.push_screen(SetUpScreen(self._desk.settings.coach, self._zone), self._begin)

    def action_blank(self) -> None:
        blank.blank(self)

    def _begin(self, beginning: Beginning | None) -> None:
        if beginning is None:
            self.exit()
            return
        self._desk.begin_clinic(
            beginning.clinic, beginning.zone, beginning.coach, beginning.court, beginning.players
        )
        if beginning.coach != self._desk.settings.coach:
            kept = changed(self._desk.settings, coach=beginning.coach)
            self._desk.use(kept, "")
            self._keep_settings(kept)
        screen = self._to_court()
        screen.call_after_refresh(lambda: screen.put_on(self._desk.view.rotation.next_up))

    def _to_court(self) -> CourtScreen:
        screen = CourtScreen(self._desk, self._keep_settings)
        self.push_screen(screen)
        # What is loaded by now stays: a full collection in mid-feed would cost 30 ms of one key.
        screen.call_after_refresh(gc.collect)
        screen.call_after_refresh(gc.freeze)
        return screen

    def _keep_settings(self, settings: Settings) -> None:
        self._dress(settings)
        if self._settings_path is not None:
            settings_file.write(self._settings_path, settings)

    def _dress(self, settings: Settings) -> None:
        self.theme = NO_COLOUR.name if _no_colour() else settings.theme


def _no_colour() -> bool:
    """NO_COLOR set to anything but nothing asks for no colour (no-color.org)."""
    return bool(os.environ.get("NO_COLOR"))
