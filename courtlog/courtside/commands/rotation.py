"""Commands for the day: who is where, what comes next by its plan, what was done alone."""

from __future__ import annotations

from courtlog.coaching.game.people import Player
from courtlog.coaching.on_court.next_act import Act
from courtlog.courtside import screens
from courtlog.courtside.commands.base import Command, Court
from courtlog.courtside.commands.on_court import put_on


class WhoIsWhere(Command):
    """Who is where and for how long, who is late or has left, swaps, the clock of a turn."""

    keys, shown, label, in_foot = ("f12",), "F12", "who is where", False
    act = Act.WHO_IS_WHERE

    def run(self, court: Court) -> None:
        def chosen(player: Player | None) -> None:
            court.look()
            if player is not None:
                put_on(court, player)

        court.open(screens.board.BoardScreen(court.desk), chosen)


class RepsAlone(Command):
    """Log what the player on court did alone, as the player says: then 3 is thirty."""

    keys, shown, label, in_foot = ("left",), "←", "reps alone", False

    def run(self, court: Court) -> None:
        view = court.state.view
        player = view.live.player if view.live else view.rotation.next_up
        if player is None:
            court.state.tell("Nobody is on the roster.")
            return
        screen = screens.reps.RepsScreen(court.desk, player)
        court.open(screen, lambda _: court.look())


class PlanOfTheDay(Command):
    """The plan of today, or of tomorrow once today was played: look, change, keep."""

    keys, shown, label, in_foot = ("ctrl+p",), "Ctrl+P", "plan", False

    def run(self, court: Court) -> None:
        def closed(_: object) -> None:
            court.carry_out(court.state.read_rotation)

        court.open(screens.plan.PlanScreen(court.state), closed)
