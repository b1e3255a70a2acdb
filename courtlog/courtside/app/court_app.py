"""The application: themes, the first screen of a new book, and the court."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path

from textual.message import Message
from textual.worker import get_current_worker

from courtlog import settings as settings_file
from courtlog.coaching.game.drills import Ladder
from courtlog.courtside import screens
from courtlog.courtside.app.court import CourtScreen
from courtlog.courtside.app.new_day import DayBegun
from courtlog.courtside.app.own_app import OwnApp
from courtlog.courtside.commands.on_court import put_on
from courtlog.courtside.commands.table import ACT_KEYS
from courtlog.courtside.desk.book_sync import first_message
from courtlog.courtside.desk.clinic_desk import NO_ANSWERS, SetUpAnswers, SetUpQuestions
from courtlog.courtside.desk.desk import Desk
from courtlog.errors import CourtlogError
from courtlog.settings import Settings

MakeBackup = Callable[[Callable[[], bool]], list[str]]
"""Makes a backup unless it is told to stop; returns what could not be done, in sentences."""


class BackupFailed(Message):
    """No backup could be made, or not in both places."""

    def __init__(self, message: str) -> None:
        super().__init__()
        self.message = message


class CourtlogApp(OwnApp):
    """Opens where the book was left, or asks what a new book needs."""

    def __init__(
        self,
        desk: Desk,
        settings_path: Path | None,
        zone: str,
        make_backup: MakeBackup | None = None,
        message: str = "",
    ) -> None:
        """`message` is shown with the first screen."""
        self._desk = desk
        desk.state.act_keys = ACT_KEYS
        self._make_backup = make_backup
        self._settings_path = settings_path
        self._zone = zone
        self._message = message
        super().__init__(desk.settings)

    def on_mount(self) -> None:
        self._desk.clinic.open_last_day()
        questions = self._desk.clinic.set_up_questions(self._zone)
        if questions is None:
            self._desk.state.resume(first_message(self._desk.book))
            if self._message:
                self._desk.state.refuse(self._message)
            self._to_court()
        else:
            self._set_up(questions, caution=self._message)

    def _set_up(
        self,
        questions: SetUpQuestions,
        typed: Mapping[str, str] = NO_ANSWERS,
        caution: str = "",
    ) -> None:
        """Ask what a clinic without a day still needs, then go straight to its first ball."""

        def begin(answers: SetUpAnswers | None) -> None:
            if answers is not None:
                self._begin(answers, questions)
            elif self._desk.clinic.has_day():
                self._desk.state.resume(first_message(self._desk.book))
                self._to_court()
            else:
                self.exit()

        screen = screens.setup.SetUpScreen(questions, self._ladders(), typed, caution)
        self.push_screen(screen, begin)

    def _begin(self, answers: SetUpAnswers, questions: SetUpQuestions) -> None:
        clinic, state = self._desk.clinic, self._desk.state
        try:
            clinic.begin(answers, questions)
        except CourtlogError as error:
            self._set_up(questions, answers.typed, str(error))
            return
        try:
            if clinic.use_pad_and_coach(answers):
                self._keep_settings(state.settings)
        except CourtlogError as error:
            state.refuse(str(error))
        screen = self._to_court()
        if state.view.live is None:
            screen.call_after_refresh(lambda: put_on(screen, state.view.rotation.next_up))

    def _ladders(self) -> list[Ladder]:
        """Every stroke; none where a drill file has mistakes, which the court screen then tells."""
        try:
            return list(self._desk.state.library.ladders.values())
        except CourtlogError:
            return []

    def _to_court(self) -> CourtScreen:
        screen = CourtScreen(self._desk, self._keep_settings)
        self.push_screen(screen)
        screen.call_after_refresh(self._back_up)
        return screen

    def on_day_begun(self, _: DayBegun) -> None:
        self._back_up()

    def on_backup_failed(self, event: BackupFailed) -> None:
        for screen in self.screen_stack:
            if isinstance(screen, CourtScreen):
                screen.carry_out(partial(screen.state.tell, event.message))

    def _back_up(self) -> None:
        """Make a backup in a thread of its own: no key waits for it."""
        make_backup = self._make_backup
        if make_backup is None:
            return

        def copy() -> None:
            troubles = make_backup(lambda: get_current_worker().is_cancelled)
            if troubles:
                self.post_message(BackupFailed(" ".join(troubles)))

        self.run_worker(copy, thread=True)

    def _keep_settings(self, settings: Settings) -> None:
        self.dress(settings)
        if self._settings_path is not None:
            settings_file.write(self._settings_path, settings)
