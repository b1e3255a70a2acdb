"""Commands for the people of the clinic."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.courtside.commands.base import Command
from courtlog.courtside.dialogs import Ask

if TYPE_CHECKING:
    from courtlog.courtside.court import CourtScreen


class AddPlayer(Command):
    """Add a player to the end of the roster."""

    keys, shown, label, in_foot = ("f9",), "F9", "add a player", False

    def run(self, court: CourtScreen) -> None:
        court.ask(Ask("The new player's name", most=80), court.desk.add_player)
