"""The laptop's clock is set, sleeps through the afternoon, or passes midnight in mid-round."""

from __future__ import annotations

import os
import time
from collections.abc import Callable
from pathlib import Path
from unittest.mock import patch

from courtlog.courtside.desk.desk import Desk
from courtlog.library.sheet_in import read_sheet
from courtlog.library.sheet_out import write_sheet
from courtlog.logbook.reads import day_lookups
from courtlog.logbook.rows import tallies
from courtlog.logbook.rows.ids import COUNT_BITS
from tests.court import DAY, LIBRARY, START, Clock, again, desk_in, feed, player, written
from tests.faults.figures import Figure, lost

HOUR = 3600
DAY_LONG = 24 * HOUR


def steps(folder: Path, _long: bool) -> Figure:
    """The clock jumps between any two things a coach does; order, minutes and sheet stay right."""
    figure = Figure("clock set back or forward between two keys")
    for name, jump in (
        ("an hour back", -HOUR),
        ("a day back", -DAY_LONG),
        ("to the year 2000", -26 * 365 * DAY_LONG),
        ("a week on", 7 * DAY_LONG),
        ("a week on and back", 7 * DAY_LONG),
    ):
        for number, (moment, deed) in enumerate(DEEDS.items()):
            with figure.trial(f"{name} before {moment}"):
                desk = desk_in(folder / f"{name} {number}")
                clock = desk.clock
                assert isinstance(clock, Clock)
                for at, (other, act) in enumerate(DEEDS.items()):
                    clock.pass_seconds(40)
                    if other == moment:
                        clock.pass_seconds(jump)
                    if name.endswith("and back") and at == number + 1:
                        clock.pass_seconds(-jump)
                    act(desk)
                _check(desk, figure)
                assert deed is DEEDS[moment]
    return figure


def sleeps(folder: Path, _long: bool) -> Figure:
    """Hours without a key are no minutes of the round, and the screen says so."""
    figure = Figure("laptop asleep for hours in mid-round")
    for number, (name, deed) in enumerate(GOING_ON.items()):
        for hours in (1, 9, 72):
            with figure.trial(f"{hours} hours, then {name}"):
                desk = desk_in(folder / f"{number}-{hours}")
                clock = desk.clock
                assert isinstance(clock, Clock)
                feed(desk, "222 2")
                clock.pass_seconds(120)
                feed(desk, "10")
                clock.pass_seconds(hours * HOUR)
                desk = again(desk)
                deed(desk)
                assert "counted as a pause" in desk.view.message, desk.view.message
                clock.pass_seconds(60)
                if not desk.view.ended:
                    desk.rounds.end_round()
                first = _minutes(desk)[0]
                assert 1.9 <= first <= 3.1, f"{first} minutes"
                _check(desk, figure)
    return figure


def zones(folder: Path, _long: bool) -> Figure:
    """Days are counted in the clinic's zone, wherever the laptop believes to be."""
    figure = Figure("laptop's time zone changed")
    for zone in ("Pacific/Kiritimati", "Pacific/Pago_Pago", "Asia/Kathmandu", "UTC"):
        with figure.trial(zone), patch.dict(os.environ, {"TZ": zone}):
            time.tzset()
            desk = desk_in(folder / zone.replace("/", "-"))
            feed(desk, "222 210")
            assert desk.view.day.date == DAY
            assert desk.state.today() == DAY
            assert again(desk).state.today() == DAY
            _check(desk, figure)
    time.tzset()
    return figure


def midnight(folder: Path, _long: bool) -> Figure:
    """A round begun before midnight stays on its day; only the next one may be another day's."""
    figure = Figure("midnight in mid-round")
    with figure.trial("in mid-round"):
        desk = desk_in(folder)
        clock = desk.clock
        assert isinstance(clock, Clock)
        clock.at = START + (15 * HOUR + 1740) * 1000  # 23:59 in Lisbon
        desk.rounds.start(player=player(desk, "Tove"))
        feed(desk, "222 2")
        clock.pass_seconds(120)
        assert desk.state.today() > DAY
        assert not desk.clinic.day_is_over()
        feed(desk, "10")
        assert desk.view.day.date == DAY
        desk.rounds.end_round()
        assert desk.clinic.day_is_over()
        desk.clinic.begin_day(desk.state.today())
        assert desk.view.day.date > DAY
        assert desk.view.day.number == 2
        dates = desk.book.db.execute(
            "SELECT date, count(*) FROM ball JOIN round ON round.id = round_id"
            " JOIN day ON day.id = day_id GROUP BY date"
        ).fetchall()
        assert dates == [(DAY.isoformat(), 2)], dates
    return figure


def _next(desk: Desk) -> None:
    desk.rounds.start(player=player(desk, "Tove"))
    feed(desk, "111")


def _start_next(desk: Desk) -> None:
    desk.rounds.start(player=player(desk, "Tove"))


def _pause(desk: Desk) -> None:
    desk.balls.toggle_pause()


DEEDS: dict[str, Callable[[Desk], None]] = {
    "a key": lambda desk: feed(desk, "222 0"),
    "the ball's end": lambda desk: feed(desk, "12"),
    "a note": lambda desk: desk.balls.note("feet first"),
    "a pause": _pause,
    "its end": _pause,
    "a key taken back": lambda desk: feed(desk, "<2"),
    "the next player": _next,
    "the end of the round": lambda desk: desk.rounds.end_round(),
}
"""What is done in each trial, in this order."""

GOING_ON: dict[str, Callable[[Desk], None]] = {
    "a key": lambda desk: feed(desk, "2"),
    "a clean ball": lambda desk: feed(desk, "_"),
    "the end of the round": lambda desk: desk.rounds.end_round(),
    "the next player": _start_next,
}
"""What a coach may do first with a laptop that wakes up."""


def _check(desk: Desk, figure: Figure) -> None:
    """The book as it must be whatever the clock said."""
    shown = desk.view.live
    resumed = again(desk).view.live
    if shown is not None and resumed is not None:
        figure.lost += lost(shown.feeding, resumed.feeding)
        assert written(shown.feeding) == written(resumed.feeding)
    db = desk.book.db
    assert tallies.proof(db) == []
    journal = [row[0] for row in db.execute("SELECT id FROM journal ORDER BY rowid")]
    assert journal == sorted(journal)
    assert all((number & ((1 << COUNT_BITS) - 1)) > 0 for number in journal)
    begun = [row[0] for row in db.execute("SELECT id FROM round ORDER BY place")]
    assert begun == sorted(begun), "the rounds are out of order"
    for minutes in _minutes(desk):
        assert 0 <= minutes < 60, f"a round of {minutes} minutes"
    record = day_lookups.record(desk.book, desk.view.clinic, None)
    assert read_sheet(write_sheet(record), "sheet", LIBRARY, "UTC").days[0].rounds


def _minutes(desk: Desk) -> list[float]:
    return [
        (ended - started - paused) / 60_000
        for started, ended, paused in desk.book.db.execute(
            "SELECT started_at, ended_at, paused_ms FROM round WHERE ended_at IS NOT NULL"
            " ORDER BY place"
        )
    ]
