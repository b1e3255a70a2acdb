"""A book as a coach left it mid-clinic, and the same book read back beside the running program."""

from __future__ import annotations

import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from datetime import date
from pathlib import Path

from courtlog.coaching.game.cards import PlayerCard
from courtlog.coaching.game.drills import UsedDrill
from courtlog.coaching.game.people import Clinic
from courtlog.coaching.game.rounds import Ball, Purpose
from courtlog.coaching.on_court import feeding
from courtlog.coaching.on_court.live_round import Bookmark, LiveRound
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.open_book import create_or_open, open_existing
from courtlog.logbook.reads import lookups
from courtlog.logbook.reads.clinic_lookups import FirstDay
from courtlog.logbook.rows import tallies
from courtlog.logbook.writes import clinic_writer
from courtlog.logbook.writes.people_writer import PeopleWriter
from courtlog.logbook.writes.round_writer import RoundWriter
from tests.court import LIBRARY
from tests.terminal.console import HANG, Console

MOMENT = 1_778_571_600_000
"""When the prepared book was written, milliseconds UTC."""

DAY = date(2099, 5, 12)
"""A day no clock has passed yet: the program never asks whether a new day begins."""

PLAYERS = ("Maren", "Tove", "Ruben")
DRILL = "forehand/racquet-feed"
CUES = ("turn", "spacing", "finish")
FOUR_CUES = ("turn", "spacing", "contact", "finish")


def prepare(
    path: Path,
    cues: Sequence[str] = CUES,
    players: Sequence[str] = PLAYERS,
    drill: str = DRILL,
    purpose: Purpose = Purpose.PRACTICE,
) -> None:
    """A clinic on its first day, its roster, and one round of the first player just begun."""
    book = create_or_open(path, MOMENT)
    try:
        door = RoundWriter(book)
        clinic = clinic_writer.begin_clinic(
            book, Clinic(0, "Harbour Week", "UTC"), FirstDay(), MOMENT
        ).id
        PeopleWriter(book).add_players(clinic, [PlayerCard(name=name) for name in players], MOMENT)
        first = lookups.players(book, clinic)[0]
        door.open_day(clinic, DAY, "2", "Ines", MOMENT)
        used = UsedDrill.of(*LIBRARY.drill(drill))
        door.start_round(first.id, used, purpose, cues, MOMENT)
    finally:
        book.close()


def rate(path: Path, balls: str) -> None:
    """These balls (as a sheet writes them, every cue seen) on the round on court."""
    with reading(path) as book:
        mark = lookups.bookmark(book)
        assert mark is not None
        assert mark.round_id is not None
        state, door = lookups.live_round(book, mark.round_id).feeding, RoundWriter(book)
        for token in balls.split():
            for row, grade in enumerate(Ball.from_token(token, state.cues).grades):
                assert grade is not None
                state, step = feeding.press(state, feeding.Rate(row, grade))
                assert step is not None
                door.store_key(mark.round_id, step, MOMENT)


@contextmanager
def reading(path: Path) -> Iterator[Book]:
    """The book through a connection of our own."""
    book = open_existing(path, MOMENT)
    try:
        yield book
    finally:
        book.close()


def on_court(path: Path) -> tuple[Bookmark, LiveRound]:
    """Where the book was left, and the round on court as the book holds it now."""
    with reading(path) as book:
        mark = lookups.bookmark(book)
        assert mark is not None
        assert mark.round_id is not None
        return mark, lookups.live_round(book, mark.round_id)


def journal(path: Path) -> list[tuple[str, int, str, str]]:
    """Every journal line in order: its kind, the ball's number, before and after."""
    with reading(path) as book:
        rows = book.db.execute(
            "SELECT kind, number, before, after FROM journal JOIN ball ON ball.id = ball_id"
            " ORDER BY journal.id"
        )
        return [(str(kind), int(number), str(old), str(new)) for kind, number, old, new in rows]


def wait_for_lines(path: Path, count: int, console: Console) -> None:
    """Wait until the journal has so many lines, reading what the screen shows meanwhile.

    Asks again and again: a burst may show nothing, and on a slow disk it shows every key.
    """
    deadline = time.monotonic() + HANG
    with reading(path) as book:
        while book.db.execute("SELECT count(*) FROM journal").fetchone()[0] < count:
            assert time.monotonic() < deadline, f"the journal never had {count} lines"
            console.read_for(0.001)


def tallies_differ(path: Path) -> list[tuple[object, ...]]:
    """Where the kept tallies and a recount of all balls differ."""
    with reading(path) as book:
        return tallies.proof(book.db)
