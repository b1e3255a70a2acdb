"""Typing a sheet of paper in: its code, its rows as they stand on the paper, a look through.

Nothing is lost on the way: the draft is kept after each key, and leaving asks before it forgets.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from textual.events import Key

from courtlog.coaching.game.drills import MOST_CUES, Drill, Ladder
from courtlog.coaching.game.round_versions import Keep, TwoVersions
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.game.sheet_code import SheetCode, SheetKind
from courtlog.coaching.paper.ball_rows import PutRowIn, TakeBack, TakeRowOut
from courtlog.coaching.paper.filled_sheet import FilledSheet, SheetTask
from courtlog.courtside.desk.keymap import key_name
from courtlog.courtside.dialogs.cue_list import CueList, PickedCues
from courtlog.courtside.dialogs.form import Answers
from courtlog.courtside.dialogs.questions import (
    Choice,
    PickList,
    TextQuestion,
    YesNoQuestion,
    drill_choices,
    purpose_choices,
)
from courtlog.courtside.screens.paper.form_screen import FormScreen
from courtlog.courtside.screens.paper.paper_screen import IsRepeat, PaperScreen
from courtlog.courtside.screens.paper.printed_tasks import printed_task, usual_cues
from courtlog.courtside.screens.paper.sheet_place import SheetPlace
from courtlog.courtside.screens.paper.typing_forms import (
    lines_form,
    lines_of,
    look_through_lines,
)
from courtlog.courtside.screens.paper.typing_lines import (
    FOOT,
    count_line,
    head_line,
    keys_line,
    row_lines,
    rows_word,
)
from courtlog.courtside.screens.paper.typing_session import TypingSession
from courtlog.courtside.screens.paper.versions_question import (
    EITHER_WAY,
    KEEP_CHOICES,
    VersionsQuestion,
)
from courtlog.courtside.surface.lettering import Line
from courtlog.logbook.reads.main_cue_lookups import MainCue
from courtlog.reports.layout.versions_text import versions_text

ASK_CODE = "The code at the top of the sheet (capitals, blanks and hyphens do not matter)"

_AROUND = 8
"""Lines that are none of a row: title, task, heads, keys, counts, message, and two at the foot."""


class TypingScreen(PaperScreen):
    """Types one sheet in."""

    _session: TypingSession

    def __init__(self, session: TypingSession, code: str, is_repeat: IsRepeat) -> None:
        """With an empty code it is asked for."""
        super().__init__(session, is_repeat)
        self._code = code

    def on_mount(self) -> None:
        self.show()
        if self._code:
            taken = self.carry_out(lambda: self._take_code(self._code))
            if taken:
                return
        if self._session.place is None:
            self._ask_code(self._code, self._session.message)

    def take_key(self, event: Key) -> None:
        session, name = self._session, key_name(event.key, event.character)
        if session.sheet is None:
            if name == "escape":
                self.dismiss(None)
            return
        marks = name not in ("up", "down", "left", "right", "pageup", "pagedown")
        if marks and self._is_repeat(lambda: session.act(TakeBack())):
            return
        if name == "escape":
            self._ask_what_next()
        elif name == "tab":
            session.switch_keys()
        elif name == "enter" and session.in_hand.rows.is_behind_all:
            self._finish()
        elif not session.press(name) and len(name) == 1:
            session.message = f"{name} is no key here: Tab changes between pad and digits."

    def take_paste(self, text: str) -> None:
        if self._session.sheet is not None:
            self._session.message = "Pasted text is no key of a row: type what the paper has."

    # From the code to the first row.

    def _ask_code(self, typed: str, why: str) -> None:
        question = TextQuestion(ASK_CODE, most=40)
        if why:
            question = question.again(typed, why)

        def answered(text: str | None) -> None:
            if text is None:
                self.dismiss(None)
            elif not self.carry_out(lambda: self._take_code(text)):
                self._ask_code(text, self._session.message)

        self.app.push_screen(question, answered)

    def _take_code(self, text: str) -> None:
        code = SheetCode.from_text(text)
        if code.kind is SheetKind.FORM:
            self._open_form(code)
            return
        places = self._session.places(text)
        if len(places) == 1:
            self._open(places[0])
        else:
            choices = [Choice(place, place.title) for place in places]
            self.ask(PickList("Whose sheet is it?", choices), self._open)

    def _open_form(self, code: SheetCode) -> None:
        """Type a form in instead, on a screen over this one, and leave with what came of it."""
        form = self._session.form_session()
        form.places(code)

        def left(outcome: str | None) -> None:
            self.dismiss(outcome)

        self.app.push_screen(FormScreen(form, code, self._is_repeat), left)

    def _open(self, place: SheetPlace) -> None:
        session = self._session
        if session.open(place):
            return
        task = printed_task(session.book, place, session.library)
        if task is not None:
            self._begin(task)  # the code fits a plan of that date, so that no date is asked about
            return
        strange = session.strange_day()
        if not strange:
            self._ask_task(self._begin, self.dismiss)
            return

        def answered(yes: bool | None) -> None:
            if yes:
                self._ask_task(self._begin, self.dismiss)
            else:
                self.dismiss(None)

        self.app.push_screen(YesNoQuestion(strange, "adds it", "leaves"), answered)

    def _ask_task(
        self, then: Callable[[SheetTask], None], otherwise: Callable[[], object] = lambda: None
    ) -> None:
        """Ask drill, purpose and cues as they are written on the sheet."""
        session = self._session

        def drilled(chosen: tuple[Ladder, Drill] | None) -> None:
            if chosen is None:
                otherwise()
                return
            self.app.push_screen(
                PickList("Which purpose is ringed?", purpose_choices(), 2),
                lambda purpose: purposed(chosen, purpose),
            )

        def purposed(chosen: tuple[Ladder, Drill], purpose: Purpose | None) -> None:
            if purpose is None:
                otherwise()
                return
            ladder = chosen[0]
            usual = usual_cues(session.book, session.at, session.library, ladder.stroke)
            cues = CueList(ladder.cues, usual[0] if usual else (), MainCue(), {}, MOST_CUES)
            self.app.push_screen(cues, lambda picked: cued(chosen, purpose, picked))

        def cued(chosen: tuple[Ladder, Drill], purpose: Purpose, picked: PickedCues | None) -> None:
            if picked is None:
                otherwise()
                return
            drill = f"{chosen[0].stroke}/{chosen[1].key}"
            task = SheetTask(drill=drill, purpose=purpose, cues=picked.cues)
            self.carry_out(lambda: then(task))

        ladders = sorted(session.library.ladders.values(), key=lambda one: one.title)
        self.app.push_screen(
            PickList("Which drill stands on the sheet?", drill_choices(ladders), digits=False),
            drilled,
        )

    def _begin(self, task: SheetTask) -> None:
        session = self._session
        session.begin(task, session.first_lines())

    # Behind Escape, and the end.

    def _ask_what_next(self) -> None:
        if not self._session.in_hand.is_begun:
            self.dismiss(None)
            return
        row = self._session.in_hand.rows.row + 1
        choices: list[Choice[Callable[[], object]]] = [
            Choice(self._finish, "look it through and keep it", "k"),
            Choice(self._ask_lines, "court, who, began, pain, effort, note", "n"),
            Choice(lambda: self._session.act(PutRowIn()), f"put an empty row in at row {row}", "i"),
            Choice(lambda: self._session.act(TakeRowOut()), f"take row {row} out", "x"),
            Choice(self._ask_other_task, "another drill, purpose or cues", "d"),
            Choice(self._leave, "leave, and go on with it later", "l"),
            Choice(self._ask_to_throw_away, "throw away what was typed", "t"),
        ]
        self.ask_what_next(choices)

    def _leave(self) -> None:
        self._session.keep_draft()
        balls = len(self._session.in_hand.rows.balls)
        self.dismiss(f"{balls} typed; the same code goes on with it.")

    def _ask_to_throw_away(self) -> None:
        balls = len(self._session.in_hand.rows.balls)
        words = f"{balls} typed rows are thrown away, and none of them is in the book."
        self.ask_to_throw_away(words, "them")

    def _ask_other_task(self) -> None:
        self._ask_task(self._session.change_task)

    def _ask_lines(self, then: Callable[[], None] = lambda: None) -> None:
        sheet = self._session.in_hand

        def answered(answers: Answers) -> None:
            self._session.write_lines(lines_of(sheet, answers))
            then()

        self.ask(lines_form(self._session, sheet), answered)

    def _finish(self) -> None:
        self._ask_lines(self._look_through)

    def _look_through(self) -> None:
        def answered(yes: bool | None) -> None:
            if yes:
                self.carry_out(self._keep)

        lines = list(look_through_lines(self._session))
        self.app.push_screen(YesNoQuestion(lines, "keeps it", "goes back to the rows"), answered)

    def _keep(self, answers: Mapping[TwoVersions, Keep] | None = None) -> None:
        open_versions = [] if answers else self._session.versions()
        if not open_versions:
            self.dismiss(self._session.keep(answers or {}))
            return
        versions = open_versions[0]
        words = versions_text(1, versions)
        if not self._session.is_home:
            words += EITHER_WAY
        question = VersionsQuestion(words, KEEP_CHOICES)
        self.ask(question, lambda keep: self._keep({versions: keep}))

    # What is seen.

    def seen(self, width: int, height: int) -> list[Line]:
        return self._lines(width, height) if self._session.sheet else self._waiting()

    def _waiting(self) -> list[Line]:
        place = self._session.place
        title = place.title if place else "A sheet of paper"
        return [(title, "bold"), (self._session.message, ""), ("Esc leaves", "")]

    def _lines(self, width: int, height: int) -> list[Line]:
        session, sheet = self._session, self._session.in_hand
        names = session.cue_names
        room = height - _AROUND - 1
        rows = row_lines(sheet.rows, names, width, room)
        word = rows_word(sheet.rows, width, room)
        task = f"{sheet.code} · {_task_words(session, sheet)}"
        return [
            (session.at.title, "bold"),
            (f"{task} · {word}" if word else task, ""),
            (head_line(names, width), "bold"),
            (keys_line(session.keys, width), ""),
            *rows,
            (count_line(sheet, names, width), "bold"),
            (session.message or self._hint(), ""),
            *((line, "") for line in FOOT),
        ]

    def _hint(self) -> str:
        rows = self._session.in_hand.rows
        if rows.is_behind_all and rows.balls:
            return "Is that all of the sheet? Enter looks it through."
        return ""


def _task_words(session: TypingSession, sheet: FilledSheet) -> str:
    task = sheet.task
    ladder, _, key = task.drill.partition("/")
    found = session.library.ladders.get(ladder)
    drill = found.drill(key) if found else None
    return f"{task.purpose} · {drill.name if drill else task.drill}"
