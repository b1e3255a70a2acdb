"""Films in the book: the surest start of two, and the hit moved for one ball or a whole film."""

from __future__ import annotations

from pathlib import Path

import pytest

from courtlog.courtside.desk.desk import Desk
from courtlog.errors import CourtlogError
from courtlog.film.film_start import FilmStart, StartSource
from courtlog.film.video_times import VideoTimes
from courtlog.logbook.file import doctor
from courtlog.logbook.reads.film.ball_moments import ALL_BALLS
from courtlog.logbook.reads.film.filmed_balls import filmed_balls
from courtlog.logbook.reads.film.films import films, moved_hits
from courtlog.logbook.reads.film.round_balls import film_places, round_balls
from courtlog.logbook.writes.film import film_writer
from tests.court import START, desk_in, feed

VIDEO = VideoTimes(600_000, 1, "print", None, None)


def add(desk: Desk, source: StartSource, began: int = START, video: VideoTimes = VIDEO) -> int:
    return film_writer.add_film(
        desk.book, desk.view.clinic.id, "a.mp4", video, FilmStart(began, source), "1", START
    )


@pytest.mark.parametrize("first", [True, False])
def test_of_two_rows_of_one_film_the_surer_start_counts(tmp_path: Path, first: bool) -> None:
    """Joined books may both have it."""
    desk = desk_in(tmp_path)
    for source in sorted((StartSource.SLATE, StartSource.NAME), reverse=first):
        add(desk, source, START + (source is StartSource.NAME))
    (film,) = films(desk.book, desk.view.clinic.id)
    assert (film.began_ms, film.source, film.ended_ms) == (
        START,
        StartSource.SLATE,
        START + 600_000,
    )


def test_films_stand_by_their_start(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    later = add(desk, StartSource.NAME, START + 1)
    earlier = add(desk, StartSource.NAME, START, VideoTimes(5, 1, "other", None, None))
    assert [film.id for film in films(desk.book, desk.view.clinic.id)] == [earlier, later]


def test_the_hit_is_moved_for_a_film_and_for_one_ball(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "222 _")
    (first, second) = (row[0] for row in desk.book.db.execute("SELECT id FROM ball LIMIT 2"))
    film = add(desk, StartSource.SLATE)
    film_writer.move_hits(desk.book, film, -300)
    film_writer.move_hit(desk.book, film, first, 200)
    film_writer.move_hit(desk.book, film, second, 100)
    film_writer.move_hit(desk.book, film, first, 400)
    film_writer.move_hit(desk.book, film, second, 0)
    assert films(desk.book, desk.view.clinic.id)[0].hit_ms == -300
    assert moved_hits(desk.book, film) == {first: 400}
    with pytest.raises(CourtlogError, match="not in the book any more"):
        film_writer.move_hit(desk.book, film, 1, 200)
    assert doctor.findings(desk.book) == []


@pytest.mark.parametrize("later", [StartSource.SLATE, StartSource.NAME])
def test_a_moved_hit_outlives_a_joining(tmp_path: Path, later: StartSource) -> None:
    """Every row of the film gets it, and a row that comes after it, surer or not, loses nothing."""
    desk = desk_in(tmp_path)
    feed(desk, "222")
    (ball,) = (row[0] for row in desk.book.db.execute("SELECT id FROM ball LIMIT 1"))
    rows = [add(desk, StartSource.NAME), add(desk, StartSource.NAME)]
    other = add(desk, StartSource.SLATE, video=VideoTimes(600_000, 1, "other", None, None))

    def moved() -> tuple[int, dict[int, int]]:
        (film,) = (one for one in films(desk.book, desk.view.clinic.id) if one.id != other)
        return film.hit_ms, moved_hits(desk.book, film.id)

    film_writer.move_hits(desk.book, rows[1], 300)
    film_writer.move_hit(desk.book, rows[1], ball, -200)
    assert moved() == (300, {ball: -200})
    rows.append(add(desk, later))
    assert moved() == (300, {ball: -200})
    for table, column in (("moved_hit", "film_id"), ("film_court", "film_id"), ("film", "id")):
        desk.book.db.execute(f"DELETE FROM {table} WHERE {column} = ?", [rows[1]])
    assert moved() == (300, {ball: -200}), "the first row has it as well"
    film_writer.move_hits(desk.book, rows[2], 0)
    film_writer.move_hit(desk.book, rows[2], ball, 0)
    assert moved() == (0, {}), "taken back in every row"
    assert moved_hits(desk.book, other) == {}


def test_a_film_of_another_court_shows_no_ball_of_this_one(tmp_path: Path) -> None:
    """Two courts feed in the same minutes: a clip of the wrong one shows somebody else's child."""
    desk = desk_in(tmp_path)
    feed(desk, "222 _")
    clinic, day = desk.view.clinic, desk.view.day
    rounds = [row for (row,) in desk.book.db.execute("SELECT id FROM round")]
    balls = list(round_balls(desk.book, rounds).values())
    film = film_writer.add_film(
        desk.book, clinic.id, "a.mp4", VIDEO, FilmStart(START - 9000, StartSource.SLATE), "9", START
    )

    def shown() -> tuple[int, int]:
        (one,) = films(desk.book, clinic.id)
        every = filmed_balls(desk.book, clinic, one, ALL_BALLS)
        return len(film_places(desk.book, clinic, balls)), sum(every.not_agreed.values())

    assert shown() == (0, 0)
    film_writer.say_court(desk.book, film, day.court, START - 1)
    assert shown() == (2, 2), "what was said last counts, whatever the clock says"
    assert doctor.findings(desk.book) == []
