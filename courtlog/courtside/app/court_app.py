"""The application: themes, the first screen of a new book, and the court."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

from textual.message import Message
from textual.worker import get_current_worker

from courtlog import settings as settings_file
from courtlog.coaching.game.drills import Ladder
from courtlog.courtside.app.court import CourtScreen, DayBegun
from courtlog.courtside.app.own_app import OwnApp
from courtlog.courtside.desk.book_sync import first_words
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.desk.people_desk import NOTHING, Beginning, Known, PeopleDesk
from courtlog.errors import CourtlogError
from courtlog.settings import Settings

KeepCopy = Callable[[Callable[[], bool]], list[str]]
"""Makes a backup unless it is told to stop; gives back what could not be done, in sentences."""


class BackupFailed(Message):
    """No backup could be made, or not in both places."""

    def __init__(self, words: str) -> None:
        super().__init__()
        self.words = words


class CourtlogApp(OwnApp):
    """Opens where the book was left, or asks what a new book needs."""

    def __init__(
        self,
        desk: Desk,
        settings_path: Path | None,
        zone: str,
        keep_copy: KeepCopy | None = None,
        said: str = "",
    ) -> None:
        """`said` is shown with the first screen."""
        self._desk = desk
        self._keep_copy = keep_copy
        self._settings_path = settings_path
        self._zone = zone
        self._said = said
        super().__init__(desk.settings)

    def on_mount(self) -> None:
        self._desk.open_last_day()
        known = PeopleDesk(self._desk).asks(self._zone)
        if known is None:
            self._desk.resume(first_words(self._desk))
            if self._said:
                self._desk.refuse(self._said)
            self._to_court()
        else:
            self._set_up(known, caution=self._said)

    def _set_up(self, known: Known, typed: Mapping[str, str] = NOTHING, caution: str = "") -> None:
        """Ask what a clinic without a day still needs, then go straight to its first ball."""
        from courtlog.courtside.screens.setup import SetUpScreen

        people = PeopleDesk(self._desk)

        def begin(beginning: Beginning | None) -> None:
            if beginning is not None:
                self._begin(people, beginning, known)
            elif self._desk.is_begun():
                self._desk.resume(first_words(self._desk))
                self._to_court()
            else:
                self.exit()

        self.push_screen(SetUpScreen(known, self._ladders(), typed, caution), begin)

    def _begin(self, people: PeopleDesk, beginning: Beginning, known: Known) -> None:
        try:
            people.begin(beginning, known)
        except CourtlogError as error:
            self._set_up(known, beginning.typed, str(error))
            return
        try:
            if people.use_pad_and_coach(beginning):
                self._keep_settings(self._desk.settings)
        except CourtlogError as error:
            self._desk.refuse(str(error))
        screen = self._to_court()
        if self._desk.view.live is None:
            screen.call_after_refresh(lambda: screen.put_on(self._desk.view.rotation.next_up))

    def _ladders(self) -> list[Ladder]:
        """Every stroke; none where a drill file has mistakes, which the court screen then tells."""
        try:
            return list(self._desk.library.ladders.values())
        except CourtlogError:
            return []

    def _to_court(self) -> CourtScreen:
        screen = CourtScreen(self._desk, self._keep_settings)
        self.push_screen(screen)
        screen.call_after_refresh(self._keep_a_copy)
        return screen

    def on_day_begun(self, _: DayBegun) -> None:
        self._keep_a_copy()

    def on_backup_failed(self, event: BackupFailed) -> None:
        for screen in self.screen_stack:
            if isinstance(screen, CourtScreen):
                screen.say(event.words)

    def _keep_a_copy(self) -> None:
        """In a thread of its own: no key waits for it."""
        keep_copy = self._keep_copy
        if keep_copy is None:
            return

        def copy() -> None:
            troubles = keep_copy(lambda: get_current_worker().is_cancelled)
            if troubles:
                self.post_message(BackupFailed(" ".join(troubles)))

        self.run_worker(copy, thread=True)

    def _keep_settings(self, settings: Settings) -> None:
        self.dress(settings)
        if self._settings_path is not None:
            settings_file.write(self._settings_path, settings)
