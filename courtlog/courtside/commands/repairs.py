"""The command for putting right what is in the book already."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.courtside import screens
from courtlog.courtside.commands.base import Command, Court
from courtlog.courtside.dialogs.questions import Choice, PickList
from courtlog.reports import pages

if TYPE_CHECKING:
    from courtlog.courtside.desk.amend_desk import AmendDesk
    from courtlog.logbook.writes.past_steps import PastStep

_PUT_RIGHT_BEFORE = 0
"""No round has this id: it stands for the list of what was put right."""


class PutRight(Command):
    """Put any ball or round right, of today or of an earlier day, or take that back."""

    keys, shown, label, in_foot = ("ctrl+a",), "Ctrl+A", "put right", False
    letter = "j"

    def run(self, court: Court) -> None:
        desk = court.desk.amendments()
        choices = [Choice(past.id, words) for past, words in desk.rounds()]
        if not choices:
            court.state.turn_down("There is no ball in this clinic yet.")
            return
        live = court.state.view.live
        rounds = [choice.value for choice in choices]
        index = rounds.index(live.id) if live is not None and live.id in rounds else 0
        if desk.has_amendments:
            choices.append(Choice(_PUT_RIGHT_BEFORE, "what was put right: take it back"))
        # A round is searched for by its date or time, which begin with digits.

        def chosen(round_id: int) -> None:
            if round_id == _PUT_RIGHT_BEFORE:
                self._take_back(court, desk)
            else:
                court.ask(screens.amend.AmendScreen(desk, round_id), court.state.tell)

        court.ask(PickList("Put right in which round", choices, index, digits=False), chosen)

    def _take_back(self, court: Court, desk: AmendDesk) -> None:
        place = court.state.view.clinic.place
        line = pages.past_steps_text.step_line
        choices = [Choice(step, line(step, place).strip()) for step in desk.amendments()]

        def chosen(step: PastStep) -> None:
            desk.take_back(step)

        court.ask(PickList("Take back", choices, digits=False), chosen)
