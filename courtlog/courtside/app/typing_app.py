"""The screen that types a sheet of paper in, as an application by itself."""

from __future__ import annotations

from courtlog.courtside.app.own_app import OwnApp
from courtlog.courtside.screens.paper.typing_screen import TypingScreen
from courtlog.courtside.screens.paper.typing_session import TypingSession
from courtlog.settings import Settings

__all__ = ["TypingApp", "TypingSession"]


class TypingApp(OwnApp):
    """Shows one sheet until it is kept or left; `outcome` says then what came of it."""

    def __init__(self, session: TypingSession, code: str, settings: Settings) -> None:
        super().__init__(settings)
        self._session, self._code = session, code
        self.outcome = ""

    def on_mount(self) -> None:
        def left(outcome: str | None) -> None:
            self.outcome = outcome or ""
            self.exit()

        self.push_screen(TypingScreen(self._session, self._code, self.is_repeat), left)
