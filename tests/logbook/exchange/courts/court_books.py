"""A clinic on several courts, each with a desk on its own book, and a folder as the stick."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from courtlog.coaching.game.people import Player
from courtlog.coaching.plans.court_dealing import CourtGroup
from courtlog.courtside.commands.table import ACT_KEYS
from courtlog.courtside.desk.desk import Desk
from courtlog.logbook.exchange.courts.court_books import write_court_books
from courtlog.logbook.exchange.courts.court_files import file_of
from courtlog.logbook.file.open_book import create_or_open
from tests.court import DAY, LIBRARY, START, Clock, close_look, desk_in, player

PEOPLE = ("Maren", "Tove", "Ruben", "Aino", "Jorun", "Berit")


@dataclass
class Courts:
    """The desk of each court by its name; `1` is the head coach's own book."""

    stick: Path
    desks: dict[str, Desk]

    def player(self, name: str) -> Player:
        """The player of that name."""
        return player(self.desks["1"], name)

    def close(self) -> None:
        """Close every book."""
        for desk in self.desks.values():
            desk.book.close()


def dealt_courts(folder: Path, minor: str = "", **named: str) -> Courts:
    """`c1="Maren Tove"` deals the two to court 1; every court has its book open at a desk."""
    people = tuple(name for names in named.values() for name in names.split())
    folder.mkdir(exist_ok=True)
    head = desk_in(folder, people, drill=None)
    with head.book.writing() as db:
        db.execute("UPDATE player SET age_group = 'minor' WHERE name = ?", [minor])
    stick = folder / "stick"
    groups = [
        CourtGroup(court[1:], tuple(player(head, name) for name in names.split()))
        for court, names in named.items()
    ]
    write_court_books(head.book, head.view.clinic.id, DAY, groups, "1", stick, START)
    desks = {"1": head}
    for group in groups:
        if group.court != "1":
            own = folder / f"laptop-{group.court}"
            own.mkdir()
            path = file_of(own, group.court)
            path.write_bytes(file_of(stick, group.court).read_bytes())
            desks[group.court] = opened(path)
    head.clinic.open_court_of_book()
    head.state.resume()
    return Courts(stick, desks)


def opened(path: Path, at_ms: int = START) -> Desk:
    """A desk on a court's book, as its laptop opens it."""
    book = create_or_open(path, START)
    desk = Desk(book, lambda: LIBRARY, close_look(review=False), Clock(at_ms))
    desk.state.act_keys = ACT_KEYS
    desk.clinic.open_court_of_book()
    desk.state.resume()
    return desk
