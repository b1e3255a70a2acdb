"""What the coach can ask for besides rating: one command, one small class.

A command's keys, its word at the foot of the screen, its line in the help, in the list of all
commands and in the README all come from its class.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from typing import TYPE_CHECKING, ClassVar

from courtlog.coaching.drills import MOST_CUES, Drill, Ladder
from courtlog.coaching.people import Player
from courtlog.coaching.rounds import Purpose
from courtlog.courtside.dialogs import Ask, Choice, Pick, Tick
from courtlog.courtside.keymap import PADS, pad_of
from courtlog.settings import THEMES, changed

if TYPE_CHECKING:
    from courtlog.courtside.court import CourtScreen


class Command(ABC):
    """A thing the coach can ask for. The docstring of each is its help, in one sentence."""

    keys: ClassVar[tuple[str, ...]]
    shown: ClassVar[str]
    label: ClassVar[str]
    in_foot: ClassVar[bool] = True

    @classmethod
    def help(cls) -> str:
        """What the command does, in one sentence."""
        return (cls.__doc__ or "").strip()

    @abstractmethod
    def run(self, court: CourtScreen) -> None:
        """Do it; dialogs go on in callbacks, so that the next key already belongs to them."""


class TakeBack(Command):
    """Take back the last key; again for the one before, across balls and back into rounds."""

    keys, shown, label = ("backspace",), "Backspace", "take back"

    def run(self, court: CourtScreen) -> None:
        court.desk.take_back()


class NextPlayer(Command):
    """End this round and put the next player of the roster on court."""

    keys, shown, label = ("tab",), "Tab", "next player"

    def run(self, court: CourtScreen) -> None:
        court.put_on(court.desk.view.player_after(1))


class PreviousPlayer(Command):
    """Put the player before this one in the roster on court."""

    keys, shown, label, in_foot = ("shift+tab",), "Shift+Tab", "player before", False

    def run(self, court: CourtScreen) -> None:
        court.put_on(court.desk.view.player_after(-1))


class ChoosePlayer(Command):
    """Choose who is on court, by typing part of the name."""

    keys, shown, label = ("y",), "y", "player"

    def run(self, court: CourtScreen) -> None:
        choices = [Choice(player, player.name) for player in court.desk.view.roster]
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

    keys, shown, label = ("down",), "↓", "rung down"

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


class Note(Command):
    """Write a note on this ball (before the first ball: on the round)."""

    keys, shown, label = ("n",), "n", "note"

    def run(self, court: CourtScreen) -> None:
        live = court.desk.view.live
        if live is None:
            return
        number, ball = live.feeding.in_hand
        what = f"ball {number}" if ball.touched or live.feeding.taken else "this round"
        court.ask(Ask(f"Note on {what} of {live.player.name}"), court.desk.note)


class Clip(Command):
    """Mark the time of day on this ball, to find it in a phone video later."""

    keys, shown, label = ("a",), "a", "clip mark"

    def run(self, court: CourtScreen) -> None:
        court.desk.mark_clip()


class PickUp(Command):
    """The balls are picked up: the basket is full again."""

    keys, shown, label = ("b",), "b", "basket full"

    def run(self, court: CourtScreen) -> None:
        court.desk.pick_up()


class Pause(Command):
    """Pause the time of the round; any feeding key goes on."""

    keys, shown, label = ("p",), "p", "pause"

    def run(self, court: CourtScreen) -> None:
        court.desk.toggle_pause()


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


class ChooseCues(Command):
    """Choose the cues in view; the round starts anew when it has balls."""

    keys, shown, label, in_foot = ("f3",), "F3", "cues", False

    def run(self, court: CourtScreen) -> None:
        live = court.desk.view.live
        if live is None:
            return
        choices = [Choice(cue.key, f"{cue.name} ({cue.part})") for cue in live.drill.cues]

        def chosen(keys: tuple[str, ...]) -> None:
            court.desk.start(cues=keys)

        court.ask(Tick("Cues: Space ticks, Enter takes", choices, live.cue_keys, MOST_CUES), chosen)


class WrongPlayer(Command):
    """The last balls were another player's: move them to that player's own round."""

    keys, shown, label, in_foot = ("f4",), "F4", "wrong player", False

    def run(self, court: CourtScreen) -> None:
        live = court.desk.view.live
        count = len(live.feeding.taken) if live else 0
        if live is None or not count:
            court.desk.tell("There is no ball in this round to move.")
            return
        others = [p for p in court.desk.view.roster if p.id != live.player.id]

        def how_many(player: Player) -> None:
            def move(text: str) -> None:
                if text.strip().isdigit() and 1 <= int(text) <= count:
                    court.desk.move_balls(player, int(text))
                else:
                    court.desk.tell(f"Nothing moved: write a number from 1 to {count}.")

            court.ask(
                Ask(f"How many of the last balls are {player.name}'s? (1 to {count})", str(count)),
                move,
            )

        court.ask(Pick("Whose balls are they?", [Choice(p, p.name) for p in others]), how_many)


class Trends(Command):
    """Everyone's trends by cue across days and clinics; Enter opens one player's skill curve."""

    keys, shown, label, in_foot = ("f5",), "F5", "trends", False

    def run(self, court: CourtScreen) -> None:
        court.trends()


class ChangePad(Command):
    """The next pad: number pad, right hand, left hand, and the taught keys if there are any."""

    keys, shown, label = ("h",), "h", "pad"

    def run(self, court: CourtScreen) -> None:
        settings = court.desk.settings
        pads = [*PADS, *(["taught"] if settings.taught else [])]
        after = (
            pads[(pads.index(settings.pad) + 1) % len(pads)] if settings.pad in pads else "right"
        )
        settings = changed(settings, pad=after)
        court.keep(settings, f"Pad: {pad_of(settings).title}.")


class TeachPad(Command):
    """Teach a pad: press nine keys once, in order, on any keyboard or clicker."""

    keys, shown, label, in_foot = ("f6",), "F6", "teach a pad", False

    def run(self, court: CourtScreen) -> None:
        court.teach()


class ChangeTheme(Command):
    """The next theme: sun, shade, night."""

    keys, shown, label, in_foot = ("f7",), "F7", "theme", False

    def run(self, court: CourtScreen) -> None:
        settings = court.desk.settings
        after = THEMES[(THEMES.index(settings.theme) + 1) % len(THEMES)]
        court.keep(changed(settings, theme=after), f"Theme: {after}.")


class Bell(Command):
    """The bell at the end of a round or basket, on or off."""

    keys, shown, label, in_foot = ("f8",), "F8", "bell", False

    def run(self, court: CourtScreen) -> None:
        settings = court.desk.settings
        court.keep(
            changed(settings, bell=not settings.bell), f"Bell {'off' if settings.bell else 'on'}."
        )


class Help(Command):
    """Show the pad as it is now, and every command."""

    keys, shown, label = ("f1", "?"), "?", "help"

    def run(self, court: CourtScreen) -> None:
        court.show_help()


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


class Suspend(Command):
    """Back to the shell for a moment, where it can be done; fg comes back."""

    keys, shown, label, in_foot = ("ctrl+z",), "Ctrl+Z", "to the shell", False

    def run(self, court: CourtScreen) -> None:
        court.app.action_suspend_process()


class AddPlayer(Command):
    """Add a player to the end of the roster."""

    keys, shown, label, in_foot = ("f9",), "F9", "add a player", False

    def run(self, court: CourtScreen) -> None:
        court.ask(Ask("The new player's name", most=80), court.desk.add_player)


class Quit(Command):
    """Leave courtlog; everything is in the book already."""

    keys, shown, label = ("ctrl+q",), "Ctrl+Q", "quit"

    def run(self, court: CourtScreen) -> None:
        court.app.exit()


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
    PreviousPlayer,
    ChoosePurpose,
    ChooseCues,
    WrongPlayer,
    Trends,
    TeachPad,
    ChangeTheme,
    Bell,
    AddPlayer,
    Suspend,
    Quit,
)

BY_KEY = {key: command for command in COMMANDS for key in command.keys}

FOOT = [("Space", "clean ball"), ("Enter", "take ball"), ("t", "tough")] + [
    (command.shown, command.label) for command in COMMANDS if command.in_foot
]


def drill_choices(ladders: list[Ladder]) -> list[Choice[tuple[Ladder, Drill]]]:
    """Every drill of these ladders, by stroke and rung."""
    return [
        Choice((ladder, drill), f"{ladder.title} {drill.rung}/{ladder.top}  {drill.name}")
        for ladder in ladders
        for drill in ladder.in_rung_order()
    ]
