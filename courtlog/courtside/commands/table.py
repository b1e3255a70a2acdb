"""Every command, in the order of the help; its keys, and what the foot of the screen says.

All of it comes from the command's class: its keys, and its word at the foot of the screen. So do
its lines in the help, in the list of all commands and in the manual.
"""

from __future__ import annotations

from courtlog.coaching.on_court.next_act import Act
from courtlog.courtside.commands.balls import (
    Clip,
    LastWasTough,
    Note,
    Pause,
    PickUp,
    TakeBack,
    WrongPlayer,
)
from courtlog.courtside.commands.base import Command
from courtlog.courtside.commands.care import Care
from courtlog.courtside.commands.courts import OtherCourts
from courtlog.courtside.commands.looks import (
    AllCommands,
    Bell,
    Blank,
    ChangeLook,
    ChangePad,
    ChangeTheme,
    Help,
    Manual,
    Quit,
    Slate,
    Suspend,
    Trends,
)
from courtlog.courtside.commands.paper import TypeSheet
from courtlog.courtside.commands.people import ChooseCues, People
from courtlog.courtside.commands.repairs import PutRight
from courtlog.courtside.commands.rotation import (
    Here,
    Late,
    Left,
    PlanOfTheDay,
    RepsAlone,
    WhoIsWhere,
)
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
from courtlog.courtside.surface.key_lines import Hint

COMMANDS: tuple[type[Command], ...] = (
    LastWasTough,
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
    Manual,
    AllCommands,
    ChooseCues,
    WrongPlayer,
    Care,
    WhoIsWhere,
    ChoosePurpose,
    Late,
    Left,
    Here,
    PassOver,
    FeedsOfRound,
    OtherSpot,
    MarkSpoken,
    PutRight,
    RepsAlone,
    PlanOfTheDay,
    Trends,
    ChangeTheme,
    ChangeLook,
    Bell,
    People,
    Blank,
    Slate,
    TypeSheet,
    OtherCourts,
    Suspend,
    Quit,
)

BY_KEY = {key: command for command in COMMANDS for key in command.keys}

ACT_KEYS = {command.act: command.plain_shown() for command in COMMANDS if command.act} | {
    Act.SAME_AGAIN: "Enter",
    Act.PICK_CUES_AFTER: "Enter",
}
"""The keys for everything that a sentence can tell the coach to do, as plain as there are any."""

BY_LIST_WAY = {command.list_way(): command for command in COMMANDS if command is not AllCommands}
"""What each way over Esc leads to: the same plain keys on every pad."""

_WHERE_THERE_IS_ROOM = (Note, Pause, Clip)
"""Commands that the foot of a small terminal leaves out."""

FOOT_OF_80 = [
    Hint("space", "Space", "clean"),
    Hint("enter", "Enter", "take ball"),
    Hint("t", "t", "tough"),
    *(
        Hint(command.keys[0], command.shown, command.label)
        for command in COMMANDS
        if command.in_foot and command not in _WHERE_THERE_IS_ROOM
    ),
]
"""Keys at the foot of the court in 80 columns."""

FOOT = FOOT_OF_80 + [
    Hint(command.keys[0], command.shown, command.label) for command in _WHERE_THERE_IS_ROOM
]
"""The same where there is room for more."""

BEHIND_ESCAPE = [
    Hint(command.letter, command.letter, command.label, command.few)
    for command in COMMANDS
    if command.after_escape
]
"""What the foot shows of the list of all commands."""
