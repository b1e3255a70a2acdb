"""The command for the plan of a day."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.courtside.commands.base import Command

if TYPE_CHECKING:
    from courtlog.courtside.app.court import CourtScreen


class PlanOfTheDay(Command):
    """The plan of today, or of tomorrow once today was played: look, change, keep."""

    keys, shown, label, in_foot = ("ctrl+p",), "Ctrl+P", "plan", False

    def run(self, court: CourtScreen) -> None:
        court.plan()
