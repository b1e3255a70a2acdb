"""What the coach can ask for besides rating: one command, one small class.

A command's keys, its word at the foot of the screen, its line in the help, in the list of all
commands and in the README all come from its class.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.courtside.commands.balls import Clip, Note, Pause, PickUp, TakeBack, WrongPlayer
from courtlog.courtside.commands.base import Command
from courtlog.courtside.commands.care import Care
from courtlog.courtside.commands.feeds import FeedsOfRound, OtherSpot, SaidIt
from courtlog.courtside.commands.looks import (
    Bell,
    Blank,
    ChangePad,
    ChangeTheme,
    Help,
    Quit,
    Suspend,
    Trends,
)
from courtlog.courtside.commands.people import ChooseCues, People
from courtlog.courtside.commands.plan import PlanOfTheDay
from courtlog.courtside.commands.repairs import PutRight
from courtlog.courtside.commands.rotation import RepsAlone, WhoIsWhere
from courtlog.courtside.commands.rounds import (
    ChooseDrill,
    ChoosePlayer,
    ChoosePurpose,
    EndRound,
    NextPlayer,
    PassOver,
    Review,
    RungDown,
    RungUp,
)
from courtlog.courtside.dialogs.questions import Choice, Pick

if TYPE_CHECKING:
    from courtlog.courtside.app.court import CourtScreen


class AllCommands(Command):
    """List every command; type to find one."""

    keys, shown, label = ("escape",), "Esc", "all commands"

    def run(self, court: CourtScreen) -> None:
        choices = [
            Choice(command, f"{command.label} ({command.shown}): {command.help()}")
            for command in COMMANDS
            if command is not AllCommands
        ]
        court.ask(Pick("All commands", choices), lambda command: court.run(command()))


COMMANDS: tuple[type[Command], ...] = (
    TakeBack,
    NextPlayer,
    ChoosePlayer,
    ChooseDrill,
    EndRound,
    Review,
    PickUp,
    Note,
    Clip,
    Pause,
    RungUp,
    RungDown,
    ChangePad,
    Help,
    AllCommands,
    PassOver,
    ChoosePurpose,
    ChooseCues,
    FeedsOfRound,
    OtherSpot,
    SaidIt,
    WrongPlayer,
    PutRight,
    RepsAlone,
    WhoIsWhere,
    PlanOfTheDay,
    Trends,
    Care,
    ChangeTheme,
    Bell,
    People,
    Blank,
    Suspend,
    Quit,
)

BY_KEY = {key: command for command in COMMANDS for key in command.keys}

FOOT = [("Space", "clean ball"), ("Enter", "take ball"), ("t", "tough")] + [
    (command.shown, command.label) for command in COMMANDS if command.in_foot
]
