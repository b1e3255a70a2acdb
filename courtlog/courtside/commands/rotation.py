"""Commands for the day: who is where, what comes next by its plan, what was done alone."""

from __future__ import annotations

from courtlog.coaching.game.people import Player
from courtlog.coaching.on_court.next_act import Act
from courtlog.coaching.plans.rotation import Presence
from courtlog.courtside import screens
from courtlog.courtside.commands.base import Command, Court
from courtlog.courtside.commands.on_court import put_on
from courtlog.courtside.dialogs.questions import Choice, PickList


class WhoIsWhere(Command):
    """Who is where and for how long, who is late or has left, swaps, the clock of a rotation."""

    keys, shown, label, in_foot = ("f12",), "F12", "who is where", False
    few = "who"
    act = Act.WHO_IS_WHERE
    letter, after_escape = "o", True

    def run(self, court: Court) -> None:
        def chosen(player: Player | None) -> None:
            court.look()
            if player is not None:
                put_on(court, player)

        court.open(screens.board.BoardScreen(court.desk), chosen)


class Late(Command):
    """Say who comes later: not fed until they are here."""

    keys, label, in_foot = (), "late", False
    letter, after_escape = "l", True

    def run(self, court: Court) -> None:
        _attend(court, "Who comes later?", Presence.LATE)


class Left(Command):
    """Say who has left for today."""

    keys, label, in_foot = (), "left", False
    letter, after_escape = "x", True

    def run(self, court: Court) -> None:
        _attend(court, "Who has left?", Presence.LEFT)


class Here(Command):
    """Say who is here after all: a late comer is at the feed as often as the others from now on."""

    keys, label, in_foot = (), "here", False
    act = Act.SAY_WHO_IS_BACK
    letter, after_escape = "e", True

    def run(self, court: Court) -> None:
        _attend(court, "Who is here now?", Presence.HERE)


def _attend(court: Court, question: str, presence: Presence) -> None:
    """Ask for one of those it is not known of yet."""
    rotation = court.state.view.rotation.court
    players = [
        player
        for player in rotation.next_first
        if rotation.away.get(player.id, Presence.HERE) is not presence
    ]
    if not players:
        court.state.turn_down(f"Everyone is {presence}." if court.state.view.roster else "Nobody.")
        return
    choices = [Choice(player, player.full_name) for player in players]
    court.ask(
        PickList(question, choices), lambda player: court.desk.rotation.attend(player, presence)
    )


class RepsAlone(Command):
    """Log what the player on court did alone, as the player says; a digit is tens: 3 is thirty."""

    keys, shown, label, in_foot = ("left",), "←", "done alone", False
    letter = "m"

    def run(self, court: Court) -> None:
        view = court.state.view
        player = view.live.player if view.live else view.rotation.next_up
        if player is None:
            court.state.turn_down("Nobody is on the roster.")
            return
        screen = screens.reps.RepsScreen(court.desk, player)
        court.open(screen, lambda _: court.look())


class PlanOfTheDay(Command):
    """The plan of today, or of tomorrow once today was played: look, change, keep."""

    keys, shown, label, in_foot = ("ctrl+p",), "Ctrl+P", "plan", False
    letter = "3"

    def run(self, court: Court) -> None:
        def closed(_: object) -> None:
            court.carry_out(court.state.read_rotation)

        court.open(screens.plan.PlanScreen(court.state), closed)
