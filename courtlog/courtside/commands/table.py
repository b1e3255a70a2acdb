"""Every command, in the order of the help; its key, and its word at the foot of the screen.

All of it comes from the command's class: its keys, and its word at the foot of the screen. So do
its lines in the help, in the list of all commands and in the README.
"""

from __future__ import annotations

from courtlog.coaching.on_court.next_act import Act
from courtlog.courtside.commands.balls import Clip, Note, Pause, PickUp, TakeBack, WrongPlayer
from courtlog.courtside.commands.base import Command
from courtlog.courtside.commands.care import Care
from courtlog.courtside.commands.looks import (
    AllCommands,
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
from courtlog.courtside.commands.repairs import PutRight
from courtlog.courtside.commands.rotation import PlanOfTheDay, RepsAlone, WhoIsWhere
from courtlog.courtside.commands.rounds import (
    ChooseDrill,
    ChoosePlayer,
    ChoosePurpose,
    EndDay,
    EndRound,
    FeedsOfRound,
    MarkSpoken,
    NextPlayer,
    OtherSpot,
    PassOver,
    Review,
    RungDown,
    RungUp,
)

COMMANDS: tuple[type[Command], ...] = (
    TakeBack,
    NextPlayer,
    ChoosePlayer,
    ChooseDrill,
    EndRound,
    EndDay,
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
    MarkSpoken,
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

ACT_KEYS = {command.act: command.shown for command in COMMANDS if command.act} | {
    Act.SAME_AGAIN: "Enter"
}
"""The key of everything that can be the next thing to do at a standstill."""

FOOT = [("Space", "clean ball"), ("Enter", "take ball"), ("t", "tough")] + [
    (command.shown, command.label) for command in COMMANDS if command.in_foot
]
