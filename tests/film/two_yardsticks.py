"""A clinic of two yardsticks fed by keys, each ball at a moment of its own, and films of both."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from courtlog.coaching.game.people import Clinic
from courtlog.coaching.game.rounds import Purpose
from courtlog.courtside.desk.desk import Desk
from courtlog.film.film_start import FilmStart, StartSource
from courtlog.film.video_times import read_video
from courtlog.logbook.file.book import Book
from courtlog.logbook.writes.film import film_writer
from courtlog.times import local_date
from tests.court import LIBRARY, NAMES, START, Clock, desk_in, feed, player
from tests.film.bar_films import made

DRILL = "forehand/racquet-feed"
DAYS_MS = (START, START + 3 * 86_400_000)
FIRST_S, APART_S = (6.0, 7.5), 3.0
"""When the first ball of each day is rated, and the time between two; no two moments are alike."""

THEN = ["012", "212", "002", "112", "200", "022"] * 3
NOW = ["222", "212", "202", "122", "220", "222"] * 3
FILMS = ("monday.mp4", "thursday.mp4")


@dataclass(frozen=True, slots=True)
class TwoYardsticks:
    """The desk, and when each ball's first key came: the day (0 or 1) and seconds into it."""

    desk: Desk
    moments: dict[int, tuple[int, float]]

    @property
    def book(self) -> Book:
        return self.desk.book

    @property
    def clinic(self) -> Clinic:
        return self.desk.view.clinic


def two_yardsticks(
    folder: Path, then: list[str] = THEN, now: list[str] = NOW, names: tuple[str, ...] = NAMES
) -> TwoYardsticks:
    """Maren's first yardstick, practice, and the yardstick again three days later."""
    desk = desk_in(folder, names, drill=None)
    clock = desk.clock
    assert isinstance(clock, Clock)
    clinic, who = desk.view.clinic, player(desk, names[0])
    moments: dict[int, tuple[int, float]] = {}
    for day, balls in enumerate((then, now)):
        clock.at = DAYS_MS[day]
        desk.clinic.open_day(clinic.id, local_date(clock.at, clinic.place), "2", "Ines")
        desk.rounds.start(who, LIBRARY.drill(DRILL), Purpose.YARDSTICK)
        for place, ball in enumerate(balls):
            at_s = FIRST_S[day] + APART_S * place
            clock.at = DAYS_MS[day] + round(1000 * at_s)
            before = {row for (row,) in desk.book.db.execute("SELECT id FROM ball WHERE taken")}
            feed(desk, ball)
            after = {row for (row,) in desk.book.db.execute("SELECT id FROM ball WHERE taken")}
            (taken,) = after - before
            moments[taken] = day, at_s
        desk.rounds.end_round()
        if day == 0:
            desk.rounds.start(who, LIBRARY.drill(DRILL), Purpose.PRACTICE)
            feed(desk, "222 212 022")
            desk.rounds.end_round()
    return TwoYardsticks(desk, moments)


def filmed(clinic: TwoYardsticks, folder: Path) -> None:
    """Two films that begin with their days: each frame shows its time."""
    seconds = round(max(FIRST_S) + APART_S * len(THEN)) + 2
    for name, began, how in zip(FILMS, DAYS_MS, ("plain", "variable"), strict=True):
        made(folder / name, how, seconds)
        film_writer.add_film(
            clinic.book,
            clinic.clinic.id,
            name,
            read_video(folder / name),
            FilmStart(began, StartSource.SLATE),
            clinic.desk.view.day.court,
            began,
        )
