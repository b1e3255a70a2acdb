"""The command for arms and heat."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.courtside.commands.base import Command

if TYPE_CHECKING:
    from courtlog.courtside.app.court import CourtScreen


class Care(Command):
    """Check in on an arm (F8 Enter 0 Enter: no pain), set a red, a clinician's word, heat."""

    keys, shown, label, in_foot = ("f8",), "F8", "check-in, heat", False

    def run(self, court: CourtScreen) -> None:
        from courtlog.courtside.screens.care_actions import ask

        ask(court)
