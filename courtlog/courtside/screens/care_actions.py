"""What the command for arms and heat asks, and what it does with the answers."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from courtlog import times
from courtlog.coaching.care.arm_care import first_moment
from courtlog.coaching.care.heat_care import heat_words
from courtlog.coaching.game.people import Player
from courtlog.courtside.dialogs.form import Answers
from courtlog.courtside.dialogs.questions import Choice, Pick
from courtlog.courtside.screens import care
from courtlog.logbook.reads.care_lookups import Red

if TYPE_CHECKING:
    from courtlog.courtside.app.court import CourtScreen


def ask(court: CourtScreen) -> None:
    """The check-in of who is on court first, then all that belongs to it."""
    view = court.desk.view
    player = view.live.player if view.live else view.rotation.next_up
    choices: list[Choice[Callable[[CourtScreen], None]]] = []
    if player is not None:
        choices = [
            _check_in_choice(court, player),
            Choice(lambda c: _set_red(c, player), "set red by hand"),
            Choice(_word, "a clinician's word on a red"),
        ]
    choices += [
        Choice(_heat, "heat: temperature, humidity, WBGT"),
        Choice(_lines, "your heat lines and the timer to rest"),
    ]
    choices += [_check_in_choice(court, other) for other in view.roster if other != player]
    court.ask(Pick("Arms and heat", choices), lambda action: action(court))


def _check_in_choice(court: CourtScreen, player: Player) -> Choice[Callable[[CourtScreen], None]]:
    words = f"check-in: {player.shown_name}, {_moment(court, player)}"
    return Choice(lambda asked: _check_in(asked, player), words)


def _moment(court: CourtScreen, player: Player) -> str:
    return first_moment(court.desk.care.said_by(player), court.desk.view.day.date)


def _check_in(court: CourtScreen, player: Player) -> None:
    roster = court.desk.view.roster
    at = [other.id for other in roster].index(player.id)
    moment = first_moment(court.desk.care.said_by(player), court.desk.view.day.date)

    def keep(answers: Answers) -> None:
        who = roster[int(answers["player"])]
        found = court.desk.care.check_in(who, care.check_in_of(answers, who))
        caution = care.caution_screen(who, found, court.desk.view.letters)
        if caution is not None:
            court.open(caution)

    court.ask(care.check_in_form(roster, at, moment), keep)


def _set_red(court: CourtScreen, player: Player) -> None:
    roster = court.desk.view.roster
    at = [other.id for other in roster].index(player.id)

    def keep(answers: Answers) -> None:
        court.desk.care.set_red(roster[int(answers["player"])], answers["reason"])

    court.ask(care.red_form(roster, at), keep)


def _word(court: CourtScreen) -> None:
    names = {player.id: player.shown_name for player in court.desk.view.roster}
    reds = court.desk.care.reds()
    if not reds:
        court.desk.tell("There is no red in this clinic.")
        return

    def chosen(red: Red) -> None:
        form = care.word_form(names[red.player_id], red.date, red.reason)
        court.ask(form, lambda a: court.desk.care.clinician_word(red, a["who"], a["text"]))

    choices = [
        Choice(red, f"{names[red.player_id]}, {times.date_words(red.date)}: {red.reason}")
        for red in reds
    ]
    court.ask(Pick("Which red", choices), chosen)


def _heat(court: CourtScreen) -> None:
    def keep(answers: Answers) -> None:
        asked = answers["temperature"], answers["humidity"], answers["wbgt"]
        reading = court.desk.care.heat(*asked)
        lines = court.desk.care.plan.heat_lines
        court.open(care.CautionScreen("Heat", heat_words(reading, lines)))

    court.ask(care.heat_form(), keep)


def _lines(court: CourtScreen) -> None:
    court.ask(care.lines_form(court.desk.care.plan), court.desk.care.set_lines)
