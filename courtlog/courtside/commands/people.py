"""Commands for the people of the clinic, and for what the coach saw of them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog.coaching.game.drills import MOST_CUES
from courtlog.courtside.commands.base import Command
from courtlog.courtside.desk.people_desk import PeopleDesk
from courtlog.courtside.dialogs.questions import Choice, Tick

if TYPE_CHECKING:
    from courtlog.courtside.app.court import CourtScreen


class People(Command):
    """The roster: open a player's card, add a player, change the order."""

    keys, shown, label, in_foot = ("f9",), "F9", "people", False

    def run(self, court: CourtScreen) -> None:
        from courtlog.courtside.screens.people import PeopleScreen

        view = court.desk.view
        live = view.live.player.id if view.live else None
        ids = [player.id for player in view.roster]
        court.show(
            PeopleScreen(
                PeopleDesk(court.desk), view.clinic.name, ids.index(live) if live in ids else 0
            )
        )


class ChooseCues(Command):
    """Choose the cues in view and say why; the round starts anew when it has balls."""

    keys, shown, label, in_foot = ("f3",), "F3", "cues", False

    def run(self, court: CourtScreen) -> None:
        live = court.desk.view.live
        if live is None:
            return
        choices = [Choice(cue.key, f"{cue.name} ({cue.part})") for cue in live.drill.cues]
        people = PeopleDesk(court.desk)
        stroke, player = live.drill.stroke, live.player

        def chosen(keys: tuple[str, ...]) -> None:
            from courtlog.courtside.screens.people import SawScreen

            focus = people.keep_cues(player, stroke, keys)
            court.desk.start(cues=keys)
            court.ask(
                SawScreen(focus, f"{player.shown_name}, {live.drill.title}"),
                lambda said: people.keep_words(player, said),
            )

        court.ask(Tick("Cues: Space ticks, Enter takes", choices, live.cue_keys, MOST_CUES), chosen)
