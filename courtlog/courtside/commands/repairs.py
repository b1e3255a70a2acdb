"""Commands for putting right what is in the book already."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.courtside.commands.base import Command
from courtlog.courtside.dialogs.questions import Choice, Pick

if TYPE_CHECKING:
    from courtlog.courtside.app.court import CourtScreen
    from courtlog.courtside.desk.amend_desk import AmendDesk
    from courtlog.logbook.writes.past_steps import PastStep

_PUT_RIGHT_BEFORE = 0
"""No round has this id: it stands for the list of what was put right."""


class PutRight(Command):
    """Put any ball or round right, of today or of an earlier day, or take that back."""

    keys, shown, label, in_foot = ("ctrl+a",), "Ctrl+A", "put right", False

    def run(self, court: CourtScreen) -> None:
        from courtlog.courtside.desk.amend_desk import AmendDesk

        desk = AmendDesk(court.desk)
        choices = [Choice(past.id, words) for past, words in desk.rounds()]
        if not choices:
            court.desk.tell("There is no ball in this clinic yet.")
            return
        live = court.desk.view.live
        here = [choice.value for choice in choices]
        at = here.index(live.id) if live is not None and live.id in here else 0
        if desk.has_amendments:
            choices.append(Choice(_PUT_RIGHT_BEFORE, "what was put right: take it back"))

        def chosen(round_id: int) -> None:
            if round_id == _PUT_RIGHT_BEFORE:
                self._take_back(court, desk)
                return
            from courtlog.courtside.screens.amend import AmendScreen

            court.ask(AmendScreen(desk, round_id), court.desk.tell)

        court.ask(Pick("Put right in which round", choices, at), chosen)

    def _take_back(self, court: CourtScreen, desk: AmendDesk) -> None:
        from courtlog.reports.pages.past_steps_text import step_line

        place = court.desk.view.clinic.place
        choices = [Choice(step, step_line(step, place).strip()) for step in desk.amendments()]

        def chosen(step: PastStep) -> None:
            desk.take_back(step)

        court.ask(Pick("Take back", choices), chosen)
