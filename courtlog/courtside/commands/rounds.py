"""Commands for the round on court: who, which drill, why, how it is fed, and its end."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from courtlog.coaching.game.people import Player
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.on_court.next_act import Act
from courtlog.courtside import screens
from courtlog.courtside.commands.base import Command, Court
from courtlog.courtside.commands.courts import show_other_courts
from courtlog.courtside.commands.on_court import (
    choose_drill,
    end_round,
    go_on,
    keys_over_court,
    put_on,
    review,
)
from courtlog.courtside.dialogs.questions import Choice, PickList, purpose_choices


class NextPlayer(Command):
    """End this round; next: fewest balls (a late comer's credit counts), then the longest wait."""

    keys, shown, label = ("tab",), "Tab", "next player"
    act = Act.NEXT_PLAYER

    def run(self, court: Court) -> None:
        put_on(court, court.state.view.rotation.next_up)


class PassOver(Command):
    """Pass over the player who is next up, this once: the one after goes on court."""

    keys, shown, label, in_foot = ("shift+tab",), "Shift+Tab", "pass over", False
    letter = "2"

    def run(self, court: Court) -> None:
        waiting = court.state.view.rotation.waiting
        if len(waiting) < 2:
            court.state.turn_down("Nobody else is waiting.")
        else:
            put_on(court, waiting[1])


class ChoosePlayer(Command):
    """Choose who is on court, whoever is next first: by digit, or by typing part of the name."""

    keys, shown, label = ("y",), "y", "player"

    def run(self, court: Court) -> None:
        on_court = court.state.view.rotation.court
        choices: list[Choice[Callable[[], None]]] = [
            Choice(partial(put_on, court, player), _with_caution(court, player))
            for player in on_court.next_first
        ]
        if len(court.state.view.roster) > len(on_court.roster):
            others = partial(show_other_courts, court, True)
            choices.append(Choice(others, "somebody from another court"))
        court.ask(PickList("Player", choices), lambda act: act())


def _with_caution(court: Court, player: Player) -> str:
    """`Maren Berg   ■ RED`, or the name alone."""
    view = court.state.view
    mark = view.care.mark_of(player, view.letters)
    return f"{player.full_name}   {mark}" if mark else player.full_name


class ChooseDrill(Command):
    """Choose the drill of the player on court: by digit, or by typing part of its name."""

    keys, shown, label = ("g",), "g", "drill"

    def run(self, court: Court) -> None:
        choose_drill(court, None)


class RungUp(Command):
    """The same player, one rung up the ladder."""

    keys, shown, label, in_foot = ("up",), "↑", "rung up", False
    letter = "u"

    def run(self, court: Court) -> None:
        court.desk.rounds.change_rung(1)


class RungDown(Command):
    """The same player, one rung down the ladder."""

    keys, shown, label, in_foot = ("down",), "↓", "rung down", False
    letter = "d"

    def run(self, court: Court) -> None:
        court.desk.rounds.change_rung(-1)


class EndRound(Command):
    """End the round on court and review it; Backspace goes back in."""

    keys, shown, label = ("z",), "z", "end round"
    act = Act.END_ROUND

    def run(self, court: Court) -> None:
        end_round(court)


class EndDay(Command):
    """End the day: the round on court is over, and the day's page is shown; Tab plays on."""

    keys, shown, label, in_foot = ("ctrl+e",), "Ctrl+E", "end the day", False
    letter = "v"
    act = Act.SHOW_DAY

    def run(self, court: Court) -> None:
        state = court.state
        if state.open_round is not None and not state.book.read_only:
            court.desk.rounds.end_round()
        if not state.book.read_only:
            court.desk.rounds.end_day()
        court.desk.read_next_act()
        act, view = state.view.next_act, state.view
        then = act.with_keys(keys_over_court(court)) if act else None
        page = screens.printed_page.day_page(state.book, view.clinic, view.day.date)
        court.open(screens.printed_page.PageScreen(page, then), partial(go_on, court))


class Review(Command):
    """Review this round: what is made, what changed, what comes next."""

    keys, shown, label = ("q",), "q", "review"

    def run(self, court: Court) -> None:
        review(court)


class ChoosePurpose(Command):
    """Say what the next round is for: choosing, yardstick, practice, hold or transfer."""

    keys, shown, label, in_foot = ("f2",), "F2", "purpose", False
    act = Act.CHANGE_PURPOSE
    letter, after_escape = "r", True

    def run(self, court: Court) -> None:
        live = court.state.view.live
        index = list(Purpose).index(live.purpose) if live else 0

        def chosen(purpose: Purpose) -> None:
            court.desk.rounds.start(purpose=purpose)

        court.ask(PickList("Purpose of the round", purpose_choices(), index), chosen)


class MarkSpoken(Command):
    """You spoke after this ball: first wording, again second wording, again not after all."""

    keys, shown, label, in_foot = ("h", "+"), "h", "you spoke", False

    def run(self, court: Court) -> None:
        court.desk.feeds.mark_spoken()


class OtherSpot(Command):
    """The next ball goes to the drill's next other spot; a later one changes places with it."""

    keys, shown, label, in_foot = ("right",), "→", "other spot", False
    letter = "s"

    def run(self, court: Court) -> None:
        court.desk.feeds.other_spot()


class FeedsOfRound(Command):
    """Feeds of this round: order, tough balls, rate every ball or every second, when to speak."""

    keys, shown, label, in_foot = ("f10",), "F10", "feeds", False
    letter = "f"

    def run(self, court: Court) -> None:
        feeds = court.desk.feeds
        screen = screens.feeds_screen.FeedsScreen(feeds.live(), court.state.view.speak)
        court.ask(screen, feeds.choose)
