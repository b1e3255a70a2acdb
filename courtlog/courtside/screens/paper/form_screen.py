"""Typing a form in: its numbered lines as they stand on the paper, and a look through.

Nothing is lost on the way: the draft is kept after each key, and leaving asks before it forgets.
"""

from __future__ import annotations

from collections.abc import Callable

from textual.events import Key

from courtlog.coaching.game.sheet_code import SheetCode
from courtlog.courtside.dialogs.questions import Choice, PickList, TextQuestion, YesNoQuestion
from courtlog.courtside.screens.paper.form_lines import FOOT, form_lines, hint_line
from courtlog.courtside.screens.paper.form_session import FormPlace, FormSession
from courtlog.courtside.screens.paper.paper_screen import IsRepeat, PaperScreen
from courtlog.courtside.surface.lettering import Line, fit_short
from courtlog.plain_text import plain

ASK_NAME = "The name on this form"

_AROUND = 5
"""Lines that are none of a question: title, code, message, and two at the foot."""

_MOST_ROWS = 2
"""Rows of one answer in the look through."""

_WORDS = 30
"""Cells of a row for the words around the value and the one before it."""


class FormScreen(PaperScreen):
    """Types one form in."""

    _session: FormSession

    def __init__(self, session: FormSession, code: SheetCode, is_repeat: IsRepeat) -> None:
        super().__init__(session, is_repeat)
        self._code = code

    def on_mount(self) -> None:
        self.show()
        self.carry_out(self._take_code)

    def take_key(self, event: Key) -> None:
        session = self._session
        # Not the names of the pad: a name on a form has capitals.
        typed = event.character or ""
        name = typed if len(typed) == 1 and typed.isprintable() else event.key
        if session.form is None:
            if name == "escape":
                self.dismiss(None)
        elif name == "escape":
            self._ask_what_next()
        elif name == "enter" and session.in_hand.is_behind_all:
            # A key held down goes on to the end of the form, and no further.
            if not self._is_repeat(lambda: None):
                self._finish()
        elif not session.press(name) and len(name) == 1:
            session.message = "That key is no answer here, or the line is full."

    def take_paste(self, text: str) -> None:
        if self._session.form is not None:
            self._session.paste(text)

    # From the code to the first line.

    def _take_code(self) -> None:
        places = self._session.places(self._code)
        if len(places) == 1:
            self._open(places[0])
        else:
            choices = [Choice(place, place.title) for place in places]
            self.ask(PickList("Whose form is it?", choices), self._open)

    def _open(self, place: FormPlace) -> None:
        if not self._session.open(place):
            self._ask_name(TextQuestion(ASK_NAME, most=80))

    def _ask_name(self, question: TextQuestion) -> None:
        def answered(name: str | None) -> None:
            if name is None:
                self.dismiss(None)
            elif not self.carry_out(lambda: self._take_name(name)):
                self._ask_name(question.again(name, self._session.message))

        self.app.push_screen(question, answered)

    def _take_name(self, name: str) -> None:
        session = self._session
        player = session.namesake(name)
        if player is None:
            session.begin_new(name)
            return

        def answered(yes: bool | None) -> None:
            if yes:
                self.carry_out(lambda: session.begin_known(player))
            else:
                self._ask_name(TextQuestion(ASK_NAME, name, 80))

        words = f"{player.shown_name} is on the roster already. Is the form of the same person?"
        question = YesNoQuestion(words, "fills in that card", "goes back to the name")
        self.app.push_screen(question, answered)

    # Behind Escape, and the end.

    def _ask_what_next(self) -> None:
        if not self._session.in_hand.is_changed:
            self.dismiss(None)
            return
        choices: list[Choice[Callable[[], object]]] = [
            Choice(self._finish, "look it through and keep it", "k"),
            Choice(self._leave, "leave, and go on with it later", "l"),
            Choice(self._ask_to_throw_away, "throw away what was typed", "t"),
        ]
        self.ask_what_next(choices)

    def _leave(self) -> None:
        self._session.keep_draft()
        self.dismiss("Half typed; the same code goes on with it.")

    def _ask_to_throw_away(self) -> None:
        words = "What was typed is thrown away, and none of it is on the card."
        self.ask_to_throw_away(words, "it")

    def _finish(self) -> None:
        # A long answer is cut, so that the keys below it stay in sight; its line has all of it.
        room = max(_MOST_ROWS * (self.size.width - 6), 1)
        each = max((room - _WORDS) // 2, 1)
        lines = [fit_short(plain(line), room) for line in self._session.look_through(each)]
        self._session.keep_draft()

        def answered(yes: bool | None) -> None:
            if yes:
                self.carry_out(lambda: self.dismiss(self._session.keep()))

        self.app.push_screen(YesNoQuestion(lines, "keeps it", "goes back to the lines"), answered)

    # What is seen.

    def seen(self, width: int, height: int) -> list[Line]:
        return self._lines(width, height) if self._session.form else self._waiting()

    def _waiting(self) -> list[Line]:
        return [("A form", "bold"), (self._session.message, ""), ("Esc leaves", "")]

    def _lines(self, width: int, height: int) -> list[Line]:
        session, form = self._session, self._session.in_hand
        questions = session.lines()
        if form.is_behind_all:
            hint = "Is that all of the form? Enter looks it through."
        else:
            hint = hint_line(questions[form.line])
        return [
            (session.title, "bold"),
            (str(self._code), ""),
            *form_lines(form, questions, width, height - _AROUND),
            (session.message or hint, ""),
            *((line, "") for line in FOOT),
        ]
