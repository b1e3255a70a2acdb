"""`courtlog film hit`: the book remembers a moved hit, and every file made afterwards follows."""

from __future__ import annotations

from contextlib import closing

import pytest

from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.reads import lookups
from courtlog.logbook.reads.film.films import films, moved_hits
from tests.cli.program import Home
from tests.cli.test_film_chapters import FILM, own
from tests.court import START, Clock, desk_in, feed
from tests.film.built import mvhd, track, video
from tests.film.test_playlists import of_edl

__all__ = ["own"]

ONE = ("--player", "Maren", "--at", "08:30:20")


def moved(home: Home) -> tuple[int, list[int]]:
    """By how much the book has moved the film's hits, and those of single balls."""
    with closing(create_or_open(home.book, START)) as book:
        (clinic,) = lookups.clinics(book)
        (film,) = films(book, clinic.id)
        return film.hit_ms, list(moved_hits(book, film.id).values())


def starts(home: Home) -> list[float]:
    """Where the playlist begins each of Maren's three balls, written again."""
    assert home.run("film", "chapters", FILM).code == 0
    return [float(one["start"]) for one in of_edl((home.folder / "first day.edl").read_text())]


def test_all_hits_of_a_film_move_along_and_back(own: Home) -> None:
    """Typed twice it is the same; the windows are four seconds before the keys otherwise."""
    assert starts(own) == [8, 18, 20]
    for _ in range(2):
        said = own.run("film", "hit", FILM, "--later", "0.3").lines
        assert said == [
            f"In {FILM} a ball's hit is now 0.3 s later than two seconds before its first key.",
            "The same with --later 0 takes it back.",
            "Chapters and pairs follow once they are written again.",
        ]
        assert moved(own) == (300, [])
    assert starts(own) == [8.3, 18.3, 20.3]
    assert own.run("film", "hit", FILM.upper(), "--earlier", "1,25").lines
    assert starts(own) == [6.75, 16.75, 18.75]
    assert own.run("film", "hit", f"phone/{FILM}", "--later", "0").lines[0] == (
        f"In {FILM} a ball's hit is two seconds before its first key again."
    )
    assert moved(own) == (0, [])
    assert starts(own) == [8, 18, 20]


def test_one_ball_moves_from_where_the_film_has_it(own: Home) -> None:
    assert own.run("film", "hit", FILM, "--earlier", "0.5").lines
    assert own.run("film", "hit", FILM, "--later", "1", *ONE).lines[0] == (
        f"The hit of Maren's ball of 08:30:20 is now 1 s later than the other hits of {FILM}."
    )
    assert moved(own) == (-500, [1000])
    assert starts(own) == [7.5, 18.5, 19.5]
    assert own.run("film", "hit", FILM, "--earlier", "0", *ONE).lines[0] == (
        f"The hit of Maren's ball of 08:30:20 is where the other hits of {FILM} are again."
    )
    assert moved(own) == (-500, [])


def test_two_balls_of_one_second_are_told_apart_by_the_tenth(home: Home) -> None:
    desk = desk_in(home.folder)
    clock = desk.clock
    assert isinstance(clock, Clock)
    for tenths in (202, 208):
        clock.at = START + 100 * tenths
        feed(desk, "222")
    desk.book.close()
    (home.folder / FILM).write_bytes(video(mvhd(0, 1000, 60_000), track()))
    add = ("film", "add", FILM, "--at", "0:02", "--shows", "08:30:00")
    assert home.run("roster", "edit", "Maren", "--filming", "yes", "--adult").code == 0
    assert home.run(*add).code == 0
    said = home.run("film", "hit", FILM, "--later", "1", *ONE)
    assert said.code == 1
    assert " ".join(said.err.split()) == (
        "courtlog: 2 balls of Maren were rated then: 08:30:20.2 and 08:30:20.8."
        " Write the tenth of a second too."
    )
    assert home.run("film", "hit", FILM, "--later", "1", *ONE[:-1], "8:30:20,8").code == 0
    assert starts(home) == [pytest.approx(18.2), pytest.approx(19.8)]


def test_of_two_films_of_one_name_the_file_that_is_there_is_meant(own: Home) -> None:
    (own.folder / "b").mkdir()
    other = own.folder / "b" / FILM
    other.write_bytes(video(mvhd(0, 1000, 50_000), track()))
    add = ("film", "add", f"b/{FILM}", "--at", "0:01", "--shows", "08:30:05")
    assert own.run(*add).code == 0
    (own.folder / "a").mkdir()
    (own.folder / FILM).rename(own.folder / "a" / FILM)
    said = own.run("film", "hit", FILM, "--later", "1")
    assert said.code == 1
    assert " ".join(said.err.split()) == (
        f"courtlog: 2 films of Harbour Week are called {FILM}."
        " Write the name of the file with its folder, so that it can be looked at."
    )
    for folder, far in (("a", "1"), ("b", "2")):
        assert own.run("film", "hit", f"{folder}/{FILM}", "--later", far).code == 0
    with closing(create_or_open(own.book, START)) as book:
        (clinic,) = lookups.clinics(book)
        assert [film.hit_ms for film in films(book, clinic.id)] == [1000, 2000]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ((FILM,), "The hit is moved one way."),
        ((FILM, "--later", "1", "--earlier", "1"), "The hit is moved one way."),
        ((FILM, "--later", "5.001"), "A hit is moved by 5 seconds at most."),
        ((FILM, "--later", "99999"), "A hit is moved by 5 seconds at most."),
        ((FILM, "--later=-0.3"), "'-0.3' is no number of seconds."),
        ((FILM, "--later", "nan"), "'nan' is no number of seconds."),
        ((FILM, "--later", "1e3"), "'1e3' is no number of seconds."),
        ((FILM, "--later", "٣"), "'٣' is no number of seconds."),
        ((FILM, "--later", ""), "'' is no number of seconds."),
        (("other.mp4", "--later", "1"), "Harbour Week has no film called other.mp4."),
        ((FILM, "--later", "1", "--at", "08:30:20"), "One ball needs its player and its time."),
        ((FILM, "--later", "1", "--player", "Maren"), "One ball needs its player and its time."),
        ((FILM, "--later", "1", "--player", "Maren", "--at", "8.30"), "'8.30' is no time of day."),
        (
            (FILM, "--later", "1", "--player", "Maren", "--at", "08:30:21"),
            f"{FILM} shows no ball of Maren that was rated at 08:30:21."
            " The nearest: 08:30:20 and 08:30:22.",
        ),
        (
            (FILM, "--later", "1", "--player", "Ruben", "--at", "08:30:20"),
            f"{FILM} shows no ball of Ruben that was rated at 08:30:20."
            " It shows no ball of Ruben at all",
        ),
        ((FILM, "--later", "1", "--player", "Nobody", "--at", "08:30:20"), "Nobody"),
    ],
)
def test_what_cannot_be_meant_is_refused_in_a_sentence(
    own: Home, words: tuple[str, ...], told: str
) -> None:
    said = own.run("film", "hit", *words)
    assert (said.code, said.out) == (1, "")
    assert told in said.err.replace("\n", " ")
    assert moved(own) == (0, [])
