"""The screen for rating balls once more, as an application by itself."""

from __future__ import annotations

from courtlog.courtside.app.held_key import HELD
from courtlog.courtside.app.own_app import OwnApp
from courtlog.courtside.screens.second_look import RatingSession, SecondLookScreen
from courtlog.settings import Settings

__all__ = ["RatingSession", "SecondLookApp"]


class SecondLookApp(OwnApp):
    """Shows one coach's session until it is left."""

    def __init__(self, session: RatingSession, settings: Settings) -> None:
        super().__init__(settings)
        self._session, self._settings = session, settings

    def on_mount(self) -> None:
        self.push_screen(SecondLookScreen(self._session, self._settings, self._is_held))

    def _is_held(self) -> bool:
        """Whether the key being delivered is a repeat; says so, and undoes the first repeat."""
        if not self.is_repeat(self._session.as_before_repeat):
            return False
        self._session.message = HELD
        return True
