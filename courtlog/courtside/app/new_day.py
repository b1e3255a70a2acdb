"""The question whether a new day begins: once midnight has passed, before anything else is done."""

from __future__ import annotations

from datetime import date
from typing import Protocol

from textual.message import Message

from courtlog import times
from courtlog.coaching.on_court.next_act import days_are_over
from courtlog.courtside.commands.base import Court
from courtlog.courtside.dialogs.questions import YesNoQuestion


class DayBegun(Message):
    """A new day of the clinic was begun."""


class _PostingCourt(Court, Protocol):
    def post_message(self, message: Message) -> bool:
        """Post a message to the application."""


class NewDay:
    """Asks before the next round, since a round stays on its day; a no is not asked again."""

    def __init__(self, court: _PostingCourt) -> None:
        self._court = court
        self._refused: date | None = None

    def ask_if_later(self) -> None:
        """Ask if the book was left on an earlier day, whether or not a round is open."""
        state = self._court.state
        if state.today() > state.view.day.date and not state.book.read_only:
            self._ask(state.today())

    def ask_if_due(self) -> bool:
        """Ask if midnight has passed since the last key and no round is open; whether it did."""
        today = self._court.state.today()
        if not self._court.desk.clinic.day_is_over() or today == self._refused:
            return False
        self._ask(today)
        return True

    def _ask(self, today: date) -> None:
        court, view = self._court, self._court.state.view
        days = view.clinic.planned_days
        over = f" {days_are_over(days)}" if days and view.day.number >= days else ""
        question = YesNoQuestion(
            f"{view.clinic.name} was left on {view.day.words()}. Today is"
            f" {times.date_words(today)}.{over}",
            "begins a new day",
            f"goes on with {times.date_words(view.day.date)}",
        )

        def answered(begin: bool | None) -> None:
            if not begin:
                self._refused = today
                return
            court.carry_out(lambda: court.desk.clinic.begin_day(today))
            court.post_message(DayBegun())

        court.open(question, answered)
