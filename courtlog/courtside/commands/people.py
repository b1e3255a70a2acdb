"""Commands for the people of the clinic, and for what the coach saw of them."""

from __future__ import annotations

from courtlog.coaching.game.drills import MOST_CUES
from courtlog.coaching.on_court.next_act import Act
from courtlog.courtside import screens
from courtlog.courtside.commands.base import Command, Court
from courtlog.courtside.dialogs.cue_list import CueList, PickedCues


class People(Command):
    """The roster: open a player's card, add a player, change the order."""

    keys, shown, label, in_foot = ("f9",), "F9", "people", False
    act = Act.ADD_PLAYER
    letter = "9"

    def run(self, court: Court) -> None:
        live = court.state.view.live
        screen = screens.people.PeopleScreen(court.desk, live.player if live else None)
        court.open(screen, lambda _: court.look())


class ChooseCues(Command):
    """Pick the cues in view and name the main one; w says why. After balls a new round begins."""

    keys, shown, label, in_foot = ("f3",), "F3", "cues", False
    act = Act.PICK_CUES
    letter, after_escape = "c", True

    def run(self, court: Court) -> None:
        live = court.state.view.live
        if live is None:
            return
        people = court.desk.people
        if not court.carry_out(people.check_set_up):
            return  # before the coach has ticked anything
        stroke, player = live.drill.stroke, live.player

        def chosen(picked: PickedCues) -> None:
            focus = people.keep_cues(player, stroke, picked.cues, picked.main)
            court.desk.rounds.start(cues=picked.cues)
            if not picked.asks_why:
                return
            title = f"{player.shown_name}, {live.drill.title}"
            court.ask(
                screens.people.ReasonsScreen(focus, title),
                lambda reasons: people.keep_reasons(player, reasons),
            )

        main = people.main_cue(player, stroke)
        counts = people.last_counts(player, stroke, (cue.key for cue in live.drill.cues))
        court.ask(CueList(live.drill.cues, live.cue_keys, main, counts, MOST_CUES), chosen)
