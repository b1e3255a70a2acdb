"""Commands for the rotation: who is where, and what was done alone."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.courtside.commands.base import Command

if TYPE_CHECKING:
    from courtlog.courtside.app.court import CourtScreen


class WhoIsWhere(Command):
    """Who is where and for how long, who is late or has left, swaps, the clock of a turn."""

    keys, shown, label, in_foot = ("f12",), "F12", "who is where", False

    def run(self, court: CourtScreen) -> None:
        court.who_is_where()


class RepsAlone(Command):
    """Log what the player on court did alone, in the player's word: then 3 is thirty."""

    keys, shown, label, in_foot = ("left",), "←", "reps alone", False

    def run(self, court: CourtScreen) -> None:
        court.reps_alone()
