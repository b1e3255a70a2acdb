"""A book with a yardstick on two days, five balls each, and a film of each whose frames tell it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, time
from typing import NamedTuple

from courtlog import times
from courtlog.coaching.game.rounds import Purpose
from tests.cli.program import Home
from tests.court import LIBRARY, Clock, desk_in, feed, player
from tests.film.bar_films import made

LISBON = times.zone("Europe/Lisbon")
FIRST, LAST = (times.moment(date(2026, 5, day), time(8, 30), LISBON) for day in (11, 15))
KEYS = (8, 16, 24, 32, 40)
"""Seconds after half past eight at which a ball was rated, on both days."""

SLATE_AT = 2
"""Where each film shows half past eight."""

THEN, NOW = ("000", "101", "201", "112", "022"), ("220", "221", "102", "012", "222")
"""Turn, spacing and finish of each ball; the middle balls are 4, 3, 3 then and 5, 2, 4 now."""


class Yardstick(NamedTuple):
    """A yardstick round: its balls' grades, and the seconds after half past eight of each."""

    start: int
    balls: Sequence[str]
    player: str = "Maren"
    keys: Sequence[float] = KEYS
    drill: str = "forehand/racquet-feed"


BOTH = (Yardstick(FIRST, THEN), Yardstick(LAST, NOW))


def filmed(home: Home, how: str = "plain", rounds: Sequence[Yardstick] = BOTH) -> None:
    """The book at home, and its films `phone/first.mp4` and `phone/last.mp4`; Maren agrees."""
    fed(home, rounds)
    add_films(home, how)


def fed(home: Home, rounds: Sequence[Yardstick] = BOTH) -> None:
    """The book alone."""
    desk = desk_in(home.folder, drill=None)
    clock = desk.clock
    assert isinstance(clock, Clock)
    days: set[int] = set()
    for one in rounds:
        clock.at = one.start
        if one.start not in days:
            day = times.local_date(one.start, LISBON)
            desk.clinic.open_day(desk.view.clinic.id, day, "2", "Ines")
            days.add(one.start)
        drill = LIBRARY.drill(one.drill)
        desk.rounds.start(player(desk, one.player), drill=drill, purpose=Purpose.YARDSTICK)
        for key, grades in zip(one.keys, one.balls, strict=False):
            clock.at = one.start + round(1000 * key)
            feed(desk, grades)
    desk.book.close()


def add_films(home: Home, how: str = "plain") -> None:
    """Film both days and take the films in; Maren agrees."""
    phone = home.folder / "phone"
    phone.mkdir()
    words = [["roster", "edit", "Maren", "--filming", "yes", "--adult"]]
    for name, day in (("first.mp4", "2026-05-11"), ("last.mp4", "2026-05-15")):
        made(phone / name, how, 50 if name == "first.mp4" else 49)
        shows = ["--at", str(SLATE_AT), "--shows", "08:30:00", "--date", day]
        words.append(["film", "add", f"phone/{name}", *shows])
    for one in words:
        said = home.run(*one)
        assert said.code == 0, said.err
