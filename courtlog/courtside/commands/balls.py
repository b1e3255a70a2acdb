"""Commands for single balls and the basket."""

from __future__ import annotations

from courtlog.coaching.game.people import Player
from courtlog.coaching.on_court.feeding import ToughLast
from courtlog.coaching.on_court.next_act import Act
from courtlog.courtside.commands.base import Command, Court
from courtlog.courtside.dialogs.questions import Choice, PickList, TextQuestion


class TakeBack(Command):
    """Take back the last key; again for the one before, across balls and back into rounds."""

    keys, shown, label = ("backspace",), "Backspace", "take back"
    act = Act.BACK_IN
    letter = "k"

    def run(self, court: Court) -> None:
        court.desk.balls.take_back()


class LastWasTough(Command):
    """The last ball was tough (again: it was not)."""

    keys, shown, label, in_foot = ("=", "#"), "=", "last was tough", False
    letter = "t"

    def run(self, court: Court) -> None:
        court.desk.balls.press(ToughLast())


class Note(Command):
    """Write a note on this ball (before the first ball: on the round)."""

    keys, shown, label = ("n",), "n", "note"

    def run(self, court: Court) -> None:
        live = court.state.view.live
        if live is None:
            return
        number, _ = live.feeding.in_hand
        touched = live.feeding.touched or live.feeding.taken
        what = f"ball {number}" if touched else "this round"
        court.ask(
            TextQuestion(f"Note on {what} of {live.player.shown_name}"), court.desk.balls.note
        )


class Clip(Command):
    """Mark the time of day on this ball, to find it in a phone video later."""

    keys, shown, label = ("a",), "a", "clip mark"

    def run(self, court: Court) -> None:
        court.desk.balls.mark_clip()


class PickUp(Command):
    """The balls are picked up: the basket is full again."""

    keys, shown, label = ("b",), "b", "basket"
    act = Act.PICK_UP

    def run(self, court: Court) -> None:
        court.desk.balls.pick_up()


class Pause(Command):
    """Pause the time of the round; any feeding key goes on."""

    keys, shown, label = ("p",), "p", "pause"
    act = Act.GO_ON

    def run(self, court: Court) -> None:
        court.desk.balls.toggle_pause()


class WrongPlayer(Command):
    """The last balls were another player's: move them to that player's own round."""

    keys, shown, label, in_foot = ("f4",), "F4", "wrong player", False
    few = "whose"
    letter, after_escape = "w", True

    def run(self, court: Court) -> None:
        live = court.state.view.live
        count = len(live.feeding.taken) if live else 0
        if live is None or not count:
            court.state.turn_down("There is no ball in this round to move.")
            return
        everyone = court.state.view.rotation.court.next_first
        others = [player for player in everyone if player.id != live.player.id]

        def how_many(player: Player) -> None:
            def move(text: str) -> None:
                if text.strip().isdigit() and 1 <= int(text) <= count:
                    court.desk.amendments().give_last(player, int(text))
                else:
                    court.state.turn_down(f"Nothing moved: write a number from 1 to {count}.")

            court.ask(
                TextQuestion(
                    f"How many of the last balls are {player.shown_name}'s? (1 to {count})",
                    str(count),
                ),
                move,
            )

        court.ask(
            PickList("Whose balls are they?", [Choice(p, p.shown_name) for p in others]), how_many
        )
