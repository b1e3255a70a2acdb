"""Commands for the people of the clinic, and for what the coach saw of them."""

from __future__ import annotations

from courtlog.coaching.game.drills import MOST_CUES
from courtlog.courtside import screens
from courtlog.courtside.commands.base import Command, Court
from courtlog.courtside.dialogs.questions import Choice, TickList


class People(Command):
    """The roster: open a player's card, add a player, change the order."""

    keys, shown, label, in_foot = ("f9",), "F9", "people", False

    def run(self, court: Court) -> None:
        live = court.state.view.live
        screen = screens.people.PeopleScreen(court.desk, live.player if live else None)
        court.open(screen, lambda _: court.look())


class ChooseCues(Command):
    """Choose the cues in view and say why; a round that has balls is followed by a new one."""

    keys, shown, label, in_foot = ("f3",), "F3", "cues", False

    def run(self, court: Court) -> None:
        live = court.state.view.live
        if live is None:
            return
        choices = [Choice(cue.key, f"{cue.name} ({cue.part})") for cue in live.drill.cues]
        people = court.desk.people
        stroke, player = live.drill.stroke, live.player

        def chosen(keys: tuple[str, ...]) -> None:
            focus = people.keep_cues(player, stroke, keys)
            court.desk.rounds.start(cues=keys)
            title = f"{player.shown_name}, {live.drill.title}"
            court.ask(
                screens.people.ReasonsScreen(focus, title),
                lambda reasons: people.keep_reasons(player, reasons),
            )

        title = "Cues: Space ticks, Enter takes"
        court.ask(TickList(title, choices, live.cue_keys, MOST_CUES), chosen)
