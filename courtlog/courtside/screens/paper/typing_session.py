"""One sheet from its code to the book: where it belongs, its rows as they are typed, and its draft.

Knows no screen. What is shown was kept in the draft after each key; the book changes at the end, in
one step that `history` takes back.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from contextlib import AbstractContextManager, nullcontext
from dataclasses import replace
from datetime import date

from courtlog import times
from courtlog.coaching.game.clinic_record import ClinicRecord, DayRecord
from courtlog.coaching.game.drills import UsedDrill
from courtlog.coaching.game.round_versions import Keep, TwoVersions
from courtlog.coaching.game.sheet_code import SheetKind
from courtlog.coaching.paper import ball_rows
from courtlog.coaching.paper.filled_sheet import (
    FilledSheet,
    SheetLines,
    SheetTask,
    draft_of,
    draft_text,
)
from courtlog.courtside.desk.keymap import pad_of
from courtlog.courtside.screens.paper import at_home
from courtlog.courtside.screens.paper.form_session import FormSession
from courtlog.courtside.screens.paper.sheet_place import SheetPlace, sheet_places
from courtlog.courtside.screens.paper.typing_keys import TypingKeys
from courtlog.errors import CourtlogError
from courtlog.library.drill_files import Library
from courtlog.logbook.file import sheet_drafts
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.logbook.writes.past_steps import number_of_step
from courtlog.logbook.writes.sheets.take_in import NO_ANSWERS, take_in, versions_to_decide
from courtlog.plain_text import listed, many
from courtlog.settings import Settings

ROWS = 20
"""Rows of a block of a sheet."""


class TypingSession:
    """Takes keys and lines for one sheet; a new code begins the next one."""

    def __init__(
        self,
        book: Book,
        library: Callable[[], Library],
        settings: Settings,
        clock: Callable[[], int],
        book_alone: Callable[[], AbstractContextManager[Book]] | None = None,
    ) -> None:
        """`book_alone` opens the book to replace what was rated live; None: it is open so."""
        self.book = book
        self._library, self._settings, self._clock = library, settings, clock
        self._book_alone = book_alone or (lambda: nullcontext(book))
        self.place: SheetPlace | None = None
        self._draft: sheet_drafts.SheetDraft
        self.sheet: FilledSheet | None = None
        self.keys: TypingKeys = TypingKeys(pad_of(settings), 1)
        self.message = ""

    @property
    def library(self) -> Library:
        """The drills as they read now."""
        return self._library()

    def places(self, text: str) -> list[SheetPlace]:
        """Where the sheet of a typed code can belong, nearly always one place.

        Raises CourtlogError.
        """
        return sheet_places(self.book, text, self._clock())

    def form_session(self) -> FormSession:
        """A form in the same book, where the code is of one."""
        return FormSession(self.book, self._clock)

    def open(self, place: SheetPlace) -> bool:
        """Take this sheet in hand; whether it goes on with what was typed before."""
        self.place, self.sheet = place, None
        self._draft = sheet_drafts.SheetDraft(self.book.path, place.code)
        draft = self._draft.read()
        if draft is None:
            return False
        try:
            self._take(draft_of(draft))
        except ValueError:
            self.message = "What was typed of it before cannot be read, and is typed once more."
            return False
        typed = self.in_hand.rows
        self.message = f"Going on: {many(len(typed.balls), 'ball')} of it were typed before."
        return True

    def strange_day(self) -> str:
        """A question where the clinic has no day of the sheet's date yet; else nothing."""
        place = self.at
        dates = lookups.dates(self.book, place.owner.clinic.id)
        if place.code.kind is not SheetKind.COURT or place.code.on in dates:
            return ""
        held = ", ".join(map(times.date_words, dates)) or "no day"
        return (
            f"{place.owner.clinic.name} has no day on {times.date_words(place.code.on)} yet;"
            f" it has {held}. Is that day to be added with this sheet?"
        )

    def begin(self, task: SheetTask, lines: SheetLines) -> None:
        """Begin to type a round of this task."""
        blocks = max(-(-task.balls // ROWS), 1)
        sheet = FilledSheet.fresh(str(self.at.code), task, blocks * ROWS)
        self._take(replace(sheet, lines=lines))

    def first_lines(self) -> SheetLines:
        """What the lines of a fresh sheet most likely say."""
        place = self.at
        clinic = place.owner.clinic
        if place.code.kind is SheetKind.HOME:
            return SheetLines(date=self._today(place).isoformat())
        courts = self.courts()
        days = lookups.days(self.book, clinic.id)
        coach = self._settings.coach or (days[-1].coach if days else "")
        return SheetLines(court=courts[0] if len(courts) == 1 else "", who=coach)

    def courts(self) -> list[str]:
        """The courts of the sheet's date, else those of the clinic's last date."""
        days = lookups.days(self.book, self.at.owner.clinic.id)
        on = self.at.code.on
        dates = [day.date for day in days]
        on = on if on in dates else max(dates, default=on)
        return list(dict.fromkeys(day.court for day in days if day.date == on))

    def new_court(self) -> str:
        """That nothing was rated on this court so far, in a sentence; empty where something was.

        A slip of the finger would make a second day of one date.
        """
        court, courts = self.in_hand.lines.court, self.courts()
        if self.is_home or court in courts or not any(courts):
            return ""
        named = f"Court {court}" if court else "No court"
        return f"{named} is new: so far there is {listed(courts)}. Escape mends it."

    @property
    def at(self) -> SheetPlace:
        """Where the sheet in hand belongs."""
        assert self.place is not None
        return self.place

    @property
    def in_hand(self) -> FilledSheet:
        """The sheet in hand."""
        assert self.sheet is not None
        return self.sheet

    @property
    def cue_names(self) -> tuple[str, ...]:
        """The names over the boxes."""
        ladder = self.library.ladders.get(self.in_hand.task.drill.partition("/")[0])
        cues = self.in_hand.task.cues
        known = {cue.key: cue.name for cue in ladder.cues} if ladder else {}
        return tuple(known.get(cue, cue) for cue in cues)

    def press(self, name: str) -> bool:
        """Act on a key of the rows; whether it is one. Raises CourtlogError."""
        key = self.keys.meaning(name)
        if key is None:
            return False
        self._change(ball_rows.press(self.in_hand.rows, key))
        return True

    def act(self, key: ball_rows.RowKey) -> None:
        """Act on the rows. Raises CourtlogError."""
        self._change(ball_rows.press(self.in_hand.rows, key))

    def switch_keys(self) -> None:
        """Go on typing the other way: by the pad, or by the digits on the paper."""
        self.keys = self.keys.switched()
        self.message = "0, 1 and 2 as on the paper." if self.keys.by_digits else "Your pad."

    def write_lines(self, lines: SheetLines) -> None:
        """Keep what stands on the lines around the boxes. Raises CourtlogError."""
        self.sheet = replace(self.in_hand, lines=lines)
        self.keep_draft()

    def change_task(self, task: SheetTask) -> None:
        """Say what was played instead. Raises CourtlogError."""
        try:
            self.sheet = self.in_hand.with_task(task)
        except ValueError as error:
            raise CourtlogError(f"{error}.".capitalize(), "Throw it away to begin anew.") from None
        self.keep_draft()

    def versions(self) -> list[TwoVersions]:
        """The round of the book that differs from this sheet, if there is one.

        Raises CourtlogError.
        """
        if self.is_home:
            return at_home.versions_at_home(self.book, self.at.owner, self.in_hand)
        return versions_to_decide(self.book, self._record(), self.at.code.number)

    @property
    def is_home(self) -> bool:
        """Whether the sheet in hand was filled in at home, by another eye."""
        return self.at.code.kind is SheetKind.HOME

    def keep(self, answers: Mapping[TwoVersions, Keep] = NO_ANSWERS) -> str:
        """Put the sheet into the book as one step, and say what came. Raises CourtlogError."""
        if self.is_home:
            return self._keep_home(answers)
        record = self._record()
        used = {self.in_hand.task.drill: self._drill()}
        who = self._settings.coach or self.in_hand.lines.who
        replaces = Keep.SHEET in answers.values()
        with self._book_alone() if replaces else nullcontext(self.book) as book:
            number = self.at.code.number
            came = take_in(book, record, used, self._clock(), answers, who, number)
            step = None
            if came.amendment_id is not None:
                step = number_of_step(book, came.amendment_id)
        self._draft.delete()
        whose = f"{self.at.owner.player.shown_name}, round {self.at.code.number} of"
        whose += f" {times.date_words(self.at.code.on)}"
        what = "in the book"
        if came.kept:
            lines = ", and what the sheet's lines say came in" if came.texts else ""
            what = f"the balls of the book were kept{lines}"
        elif step is None:
            what = "the book had it already, ball for ball"
        back = "" if step is None else f" `courtlog history back {step}` takes it back."
        return f"{whose}: {what}.{back}"

    def _keep_home(self, answers: Mapping[TwoVersions, Keep]) -> str:
        row = at_home.keep_at_home(
            self.book, self.at.owner, self.in_hand, self._drill(), self._clock(), answers
        )
        self._draft.delete()
        whose = f"{self.at.owner.player.shown_name}, the yardstick at home"
        if row is None:
            return f"{whose}: the book stays as it is."
        step = number_of_step(self.book, row)
        return f"{whose}: in the book. `courtlog history back {step}` takes it back."

    def throw_away(self) -> None:
        """Forget what was typed of this sheet. Raises CourtlogError."""
        self._draft.delete()
        self.sheet = None

    def wrong_with(self, lines: SheetLines) -> str:
        """What is wrong with these lines, in a sentence; nothing where they can be kept."""
        sheet = replace(self.in_hand, lines=lines)
        if self.is_home:
            return at_home.wrong_at_home(sheet, self._today(self.at))
        mistakes = sheet.mistakes()
        courts = self.courts()
        if len(courts) > 1 and not lines.court and self.at.code.kind is SheetKind.COURT:
            return f"Which court was it? That day has {listed(courts)}."
        return next((sentence for _, sentence in mistakes), "")

    def _record(self) -> ClinicRecord:
        owner, sheet = self.at.owner, self.in_hand
        clinic = owner.clinic
        try:
            round_ = sheet.round_record(owner.player.shown_name, self.at.code.on, clinic.place)
        except ValueError as error:
            raise CourtlogError(str(error), "The line is changed behind Esc.") from None
        if not round_.has_something:
            raise CourtlogError("Nothing was typed of this sheet yet.", "Esc leaves it.")
        day = DayRecord(self.at.code.on, sheet.lines.court, sheet.lines.who, (round_,))
        return ClinicRecord(clinic.name, clinic.zone, (), (day,))

    def _drill(self) -> UsedDrill:
        return UsedDrill.of(*self.library.drill(self.in_hand.task.drill))

    def _today(self, place: SheetPlace) -> date:
        return place.today(self._clock())

    def _take(self, sheet: FilledSheet) -> None:
        self.sheet = sheet
        self.keys = TypingKeys(self.keys.pad, len(sheet.task.cues), self.keys.by_digits)

    def _change(self, rows: ball_rows.BallRows) -> None:
        self.sheet = replace(self.in_hand, rows=rows)
        self.message = ""
        self.keep_draft()

    def keep_draft(self) -> None:
        """Keep what was typed so far beside the book. Raises CourtlogError."""
        if self.in_hand.is_begun:
            self._draft.write(draft_text(self.in_hand))
        else:
            self._draft.delete()
