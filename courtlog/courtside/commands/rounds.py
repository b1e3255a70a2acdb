"""Commands for the round on court: who, which drill, why, and its end."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.coaching.game.drills import Drill, Ladder
from courtlog.coaching.game.rounds import Purpose
from courtlog.courtside.commands.base import Command
from courtlog.courtside.dialogs.questions import Choice, Pick

if TYPE_CHECKING:
    from courtlog.courtside.app.court import CourtScreen


class NextPlayer(Command):
    """End this round and put the next player up on court: fewest balls, then longest wait."""

    keys, shown, label = ("tab",), "Tab", "next player"

    def run(self, court: CourtScreen) -> None:
        court.put_on(court.desk.view.rotation.next_up)


class PassOver(Command):
    """Pass over the player who is next up, this once: the one after goes on court."""

    keys, shown, label, in_foot = ("shift+tab",), "Shift+Tab", "pass over", False

    def run(self, court: CourtScreen) -> None:
        waiting = court.desk.view.rotation.waiting
        if len(waiting) < 2:
            court.desk.tell("Nobody else is waiting.")
        else:
            court.put_on(waiting[1])


class ChoosePlayer(Command):
    """Choose who is on court, by typing part of the name."""

    keys, shown, label = ("y",), "y", "player"

    def run(self, court: CourtScreen) -> None:
        choices = [Choice(player, player.full_name) for player in court.desk.view.roster]
        court.ask(Pick("Player", choices), court.put_on)


class ChooseDrill(Command):
    """Choose the drill of the player on court, by typing part of its name."""

    keys, shown, label = ("g",), "g", "drill"

    def run(self, court: CourtScreen) -> None:
        court.choose_drill(None)


class RungUp(Command):
    """The same player, one rung up the ladder."""

    keys, shown, label = ("up",), "↑", "rung up"

    def run(self, court: CourtScreen) -> None:
        court.desk.change_rung(1)


class RungDown(Command):
    """The same player, one rung down the ladder."""

    keys, shown, label, in_foot = ("down",), "↓", "rung down", False

    def run(self, court: CourtScreen) -> None:
        court.desk.change_rung(-1)


class EndRound(Command):
    """End the round on court and review it; Backspace goes back in."""

    keys, shown, label = ("z",), "z", "end round"

    def run(self, court: CourtScreen) -> None:
        court.end_round()


class Review(Command):
    """Review this round: what is made, what changed, what comes next."""

    keys, shown, label = ("q",), "q", "review"

    def run(self, court: CourtScreen) -> None:
        court.review()


class ChoosePurpose(Command):
    """Say what the next round is for: choosing, yardstick, practice, hold or transfer."""

    keys, shown, label, in_foot = ("f2",), "F2", "purpose", False

    def run(self, court: CourtScreen) -> None:
        choices = [Choice(purpose, f"{purpose}: {purpose.meaning}") for purpose in Purpose]
        live = court.desk.view.live
        at = list(Purpose).index(live.purpose) if live else 0

        def chosen(purpose: Purpose) -> None:
            court.desk.start(purpose=purpose)

        court.ask(Pick("Purpose of the round", choices, at), chosen)


def drill_choices(ladders: list[Ladder]) -> list[Choice[tuple[Ladder, Drill]]]:
    """Every drill of these ladders, by stroke and rung."""
    return [
        Choice((ladder, drill), f"{ladder.title} {drill.rung}/{ladder.top}  {drill.name}")
        for ladder in ladders
        for drill in ladder.in_rung_order()
    ]
