"""The command for arms and heat: what it asks, and what it does with the answers."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from courtlog import times
from courtlog.coaching.care.arm_care import first_moment
from courtlog.coaching.care.heat_care import heat_words
from courtlog.coaching.game.clinic_record import CheckInMoment
from courtlog.coaching.game.people import Player
from courtlog.coaching.on_court.next_act import Act
from courtlog.courtside import screens
from courtlog.courtside.commands.base import Command, Court
from courtlog.courtside.dialogs.questions import Choice, PickList
from courtlog.logbook.reads.care_lookups import Red


class Care(Command):
    """Check in on an arm (Esc i 1 0 Enter: no pain), set a red, a clinician's word, heat."""

    keys, shown, label, in_foot = ("f8",), "F8", "arm", False
    act = Act.CHECK_IN
    letter, after_escape = "i", True

    def run(self, court: Court) -> None:
        view = court.state.view
        player = view.live.player if view.live else view.rotation.next_up
        first = [player] if player is not None else []
        others = [other for other in view.court_first if other != player]
        choices = [_check_in_choice(court, asked) for asked in (*first, *others)]
        if player is not None:
            choices += [
                Choice(lambda c: _set_red(c, player), "set red by hand"),
                Choice(_word, "a clinician's word on a red"),
            ]
        choices += [
            Choice(_heat, "heat: temperature, humidity, WBGT"),
            Choice(_lines, "your heat lines and the timer to rest"),
        ]
        court.ask(PickList("Arms and heat", choices), lambda action: action(court))


def _check_in_choice(court: Court, player: Player) -> Choice[Callable[[Court], None]]:
    words = f"check-in: {player.shown_name}, {_moment(court, player)}"
    return Choice(lambda asked: _check_in(asked, player), words)


def _moment(court: Court, player: Player) -> CheckInMoment:
    return first_moment(court.desk.care.check_ins(player), court.state.view.day.date)


def _check_in(court: Court, player: Player) -> None:
    roster = court.state.view.court_first
    index = [other.id for other in roster].index(player.id)

    def keep(answers: Mapping[str, str]) -> None:
        who = roster[int(answers["player"])]
        cautions = court.desk.care.check_in(who, screens.care.check_in_of(answers, who))
        caution = screens.care.caution_screen(who, cautions, court.state.view.letters)
        if caution is not None:
            court.open(caution)

    court.ask(screens.care.check_in_form(roster, index, _moment(court, player)), keep)


def _set_red(court: Court, player: Player) -> None:
    roster = court.state.view.court_first
    index = [other.id for other in roster].index(player.id)

    def keep(answers: Mapping[str, str]) -> None:
        court.desk.care.set_red(roster[int(answers["player"])], answers["reason"])

    court.ask(screens.care.red_form(roster, index), keep)


def _word(court: Court) -> None:
    names = {player.id: player.shown_name for player in court.state.view.roster}
    reds = court.desk.care.reds()
    if not reds:
        court.state.turn_down("There is no red in this clinic.")
        return

    def chosen(red: Red) -> None:
        form = screens.care.word_form(names[red.player_id], red.date, red.reason)
        court.ask(form, lambda a: court.desk.care.add_clinician_word(red, a["who"], a["text"]))

    choices = [
        Choice(red, f"{names[red.player_id]}, {times.date_words(red.date)}: {red.reason}")
        for red in reds
    ]
    court.ask(PickList("Which red", choices), chosen)


def _heat(court: Court) -> None:
    def keep(answers: Mapping[str, str]) -> None:
        asked = answers["temperature"], answers["humidity"], answers["wbgt"]
        reading = court.desk.care.keep_heat(*asked)
        lines = court.desk.care.plan.heat_lines
        court.open(screens.care.Notice("Heat", heat_words(reading, lines)))

    court.ask(screens.care.heat_form(), keep)


def _lines(court: Court) -> None:
    court.ask(screens.care.lines_form(court.desk.care.plan), court.desk.care.set_lines)
