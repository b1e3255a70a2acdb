"""`courtlog film chapters`: five files beside a film, and what it refuses to write over."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from urllib.parse import unquote

import pytest
import srt as other_srt
import webvtt as other_webvtt
import xspf_lib

from courtlog.film.film_start import StartSource
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.reads.film.films import films
from courtlog.logbook.writes.film import film_writer
from courtlog.reports.pages.film_text import KNOWN_BY
from tests.cli.program import Home
from tests.court import START, Clock, desk_in, feed, player
from tests.film.built import mvhd, track, video
from tests.film.test_playlists import of_edl

ENDINGS = ("ffmetadata", "vtt", "srt", "xspf", "edl")
FILM = "first day.mp4"
SHEET = """clinic "Harbour Week"  zone Europe/Lisbon
day 2026-05-12  court 3  coach Ines
player Maren  drill forehand/live  cues turn spacing finish
222 212@08:30:30
"""


@pytest.fixture
def own(home: Home) -> Home:
    """Maren's balls 10 s, 20 s and 22 s after half past eight, Tove's at 40 s; a film of a minute.

    The film shows 08:30:00 at its second second. Maren agreed to be filmed, Tove did not.
    """
    desk = desk_in(home.folder)
    clock = desk.clock
    assert isinstance(clock, Clock)
    for seconds, keys in ((10, "222"), (20, "202"), (22, "2-1/@")):
        clock.at = START + 1000 * seconds
        feed(desk, keys)
    clock.at = START + 30_000
    desk.rounds.start(player(desk, "Tove"))
    clock.at = START + 40_000
    feed(desk, "012")
    desk.book.close()
    (home.folder / FILM).write_bytes(video(mvhd(0, 1000, 60_000), track()))
    for words in (
        ("roster", "edit", "Maren", "--filming", "yes", "--adult"),
        ("film", "add", FILM, "--at", "0:02", "--shows", "08:30:00"),
    ):
        said = home.run(*words)
        assert said.code == 0, said.err
    return home


def titles(home: Home, folder: str = ".") -> list[str]:
    """What the playlist plays."""
    return [one["title"] for one in of_edl((home.folder / folder / "first day.edl").read_text())]


def files(folder: Path) -> Iterator[tuple[str, bytes]]:
    for ending in ENDINGS:
        path = folder / f"first day.{ending}"
        if path.exists():
            yield ending, path.read_bytes()


def refused(home: Home, *words: str) -> str:
    """What is said where nothing is written."""
    before = dict(files(home.folder))
    film = (home.folder / FILM).read_bytes()
    said = home.run("film", "chapters", *words)
    assert said.code == 1
    assert (dict(files(home.folder)), (home.folder / FILM).read_bytes()) == (before, film)
    return " ".join(said.err.split())


def test_five_files_stand_beside_the_film(own: Home) -> None:
    before = (own.folder / FILM).read_bytes()
    lines = own.run("film", "chapters", FILM).lines
    assert lines == [
        "Left out, since filming is not agreed: 1 of Tove.",
        "3 balls of first day.mp4 went into five files beside it:",
        "  first day.ffmetadata  chapters, for mpv and ffmpeg",
        "  first day.vtt         captions (WebVTT)",
        "  first day.srt         captions (SRT)",
        "  first day.xspf        these balls alone, for VLC",
        "  first day.edl         these balls alone, for mpv",
        KNOWN_BY[StartSource.SLATE],
        "A film may show others too: look before you show it to anyone. No yes from Tove"
        " and Ruben.",
    ]
    assert (own.folder / FILM).read_bytes() == before
    assert {ending for ending, _ in files(own.folder)} == set(ENDINGS)
    captions = other_webvtt.read(str(own.folder / "first day.vtt")).captions
    spans = [(c.start_in_seconds, c.end_in_seconds) for c in captions]
    assert spans == [(8, 13), (18, 20), (20, 25)], "the film began 2 s before half past eight"
    assert captions[1].text == "Maren · Racquet feed, two spots · ball 2\n" + (
        "turn made · spacing missed · finish made"
    )
    assert captions[2].text.endswith("\nturn made · spacing not seen · finish near · marked")
    read = list(other_srt.parse((own.folder / "first day.srt").read_text()))
    assert [one.content for one in read] == [one.text for one in captions]
    tracks = xspf_lib.Playlist.parse(str(own.folder / "first day.xspf"))
    assert [unquote(str(one.location[0])) for one in tracks] == [f"./{FILM}"] * 3
    entries = of_edl((own.folder / "first day.edl").read_text())
    assert [(one["start"], one["length"]) for one in entries] == [
        ("8.000", "5.000"),
        ("18.000", "5.000"),
        ("20.000", "5.000"),
    ]
    told = (own.folder / "first day.ffmetadata").read_text()
    assert [line for line in told.splitlines() if line.startswith("START")] == [
        "START=0",
        "START=8000",
        "START=18000",
        "START=20000",
    ]


@pytest.mark.parametrize(
    ("words", "balls"),
    [
        ("--player maren", [1, 2, 3]),
        ("--drill racquet-feed", [1, 2, 3]),
        ("--cue spacing --grade missed", [2]),
        ("--cue spacing --grade not-seen", [3]),
        ("--grade near", [3]),
        ("--cue turn", [1, 2, 3]),
        ("--marked", [3]),
    ],
)
def test_filters(own: Home, words: str, balls: list[int]) -> None:
    assert own.run("film", "chapters", FILM, *words.split()).code == 0
    assert [int(title.split("ball ")[1].split()[0]) for title in titles(own)] == balls


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("--player Nobody", "There is no player called 'Nobody'."),
        ("--drill live", "The clinic's drills: forehand/racquet-feed."),
        ("--cue balance", "The clinic's cues: finish, spacing, turn."),
        ("--grade good", "Write one of: missed, near, made, not seen."),
        ("--cue turn --grade missed", "shows no ball of anybody who agreed to be filmed."),
        ("--cue finish --grade missed", "shows no ball that was asked for. Nothing was written."),
        ("--player Tove", "shows no ball of anybody who agreed to be filmed. Nothing was written."),
    ],
)
def test_what_is_not_there_is_said(own: Home, words: str, said: str) -> None:
    assert said in refused(own, FILM, *words.split())


def test_balls_from_a_sheet_are_said_and_not_guessed(own: Home) -> None:
    (own.folder / "sheet.txt").write_text(SHEET, encoding="utf-8")
    assert own.run("sheet", "in", "sheet.txt").code == 0
    lines = own.run("film", "chapters", FILM).lines
    assert "2 balls of that day have no moment, such as those from a sheet." in lines
    assert len(titles(own)) == 3


def test_the_files_may_go_into_a_new_folder(own: Home) -> None:
    assert own.run("film", "chapters", FILM, "--to", "out/balls").code == 0
    assert list(files(own.folder)) == []
    assert len(titles(own, "out/balls")) == 3
    (first, *_) = of_edl((own.folder / "out/balls/first day.edl").read_text())
    where = own.folder / "out" / "balls" / first["file"]
    assert where.samefile(own.folder / FILM)
    (one, *_) = xspf_lib.Playlist.parse(str(own.folder / "out/balls/first day.xspf"))
    assert (own.folder / "out/balls" / unquote(str(one.location[0]))).samefile(own.folder / FILM)


def test_its_own_files_are_written_again(own: Home) -> None:
    assert own.run("film", "chapters", FILM).code == 0
    assert own.run("film", "chapters", FILM, "--marked").code == 0
    assert len(titles(own)) == 1


@pytest.mark.parametrize("ending", ENDINGS)
def test_what_somebody_else_wrote_is_replaced_only_when_asked(own: Home, ending: str) -> None:
    theirs = own.folder / f"first day.{ending}"
    theirs.write_bytes(b"mine \xff")
    assert f"Not as courtlog wrote it: {theirs.name}." in refused(own, FILM)
    assert own.run("film", "chapters", FILM, "--replace").code == 0
    assert len(titles(own)) == 3


def test_what_was_changed_since_is_replaced_only_when_asked(own: Home) -> None:
    assert own.run("film", "chapters", FILM).code == 0
    with (own.folder / "first day.srt").open("a", encoding="utf-8") as file:
        file.write("\n9\n00:00:59,000 --> 00:01:00,000\nlook at the feet\n")
    assert "Not as courtlog wrote it: first day.srt." in refused(own, FILM)


@pytest.mark.parametrize("how", ["name", "link"])
def test_the_film_itself_is_never_written_over(own: Home, how: str) -> None:
    if how == "name":
        (own.folder / FILM).rename(own.folder / "film.srt")
        name = "film.srt"
    else:
        os.link(own.folder / FILM, own.folder / "first day.vtt")
        name = FILM
    before = (own.folder / name).read_bytes()
    for words in ([], ["--replace"]):
        said = own.run("film", "chapters", name, *words)
        assert (said.code, "has the name of a file that would be written" in said.err) == (1, True)
    assert (own.folder / name).read_bytes() == before


def test_a_film_under_another_name_is_known(own: Home) -> None:
    (own.folder / FILM).rename(own.folder / "%5% a,b;#?.mp4")
    assert own.run("film", "chapters", "%5% a,b;#?.mp4").code == 0
    (first, *_) = of_edl((own.folder / "%5% a,b;#?.edl").read_text())
    assert first["file"] == "%5% a,b;#?.mp4"


def test_a_file_that_is_no_film_of_the_clinic_is_refused(own: Home) -> None:
    (own.folder / "other.mp4").write_bytes(video(mvhd(0, 1000, 50_000), track()))
    assert "other.mp4 is no film of Harbour Week yet. `courtlog film add FILE`" in refused(
        own, "other.mp4"
    )
    assert "missing.mp4 cannot be read" in refused(own, "missing.mp4")
    (own.folder / "text.mp4").write_text("text", encoding="utf-8")
    assert "text.mp4" in refused(own, "text.mp4")


@pytest.mark.skipif(os.name != "posix", reason="names of bytes")
def test_a_name_that_is_no_text_is_refused(own: Home) -> None:
    (own.folder / FILM).rename(own.folder / os.fsdecode(b"a\xff.mp4"))
    said = own.run("film", "chapters", os.fsdecode(b"a\xff.mp4"))
    assert (said.code, "a name or a folder that is no text" in said.err) == (1, True)
    assert [path.name for path in own.folder.glob("a*")] == [os.fsdecode(b"a\xff.mp4")]


def test_a_moved_hit_moves_its_window(own: Home) -> None:
    """All of the film by half a second, the second ball by a second more; one leaves the film."""
    with closing(create_or_open(own.book, START)) as book:
        ((film, clinic),) = book.db.execute("SELECT id, clinic_id FROM film").fetchall()
        first, second, third = book.db.execute("SELECT id FROM ball WHERE taken LIMIT 3").fetchall()
        film_writer.move_hits(book, film, 500)
        film_writer.move_hit(book, film, second[0], 1000)
        film_writer.move_hit(book, film, third[0], -30_000)
        assert first[0] < second[0] < third[0]
        assert [one.hit_ms for one in films(book, clinic)] == [500]
    assert own.run("film", "chapters", FILM).code == 0
    entries = of_edl((own.folder / "first day.edl").read_text())
    assert [(one["start"], one["length"]) for one in entries] == [
        ("8.500", "5.000"),
        ("19.500", "5.000"),
    ]


def second_film(home: Home, name: str) -> Path:
    """Another film of the same minute, in the book too."""
    path = home.folder / name
    path.parent.mkdir(exist_ok=True)
    path.write_bytes(video(mvhd(0, 1000, 50_000), track()))
    assert home.run("film", "add", name, "--at", "0:02", "--shows", "08:30:00").code == 0
    return path


def test_films_of_a_folder_have_their_files_in_one_run(own: Home) -> None:
    second_film(own, "second.mov")
    third = second_film(own, "third.mp4")
    third.write_bytes(video(mvhd(0, 1000, 4_000), track()))
    assert own.run("film", "add", "third.mp4", "--at", "0:02", "--shows", "08:30:40").code == 0
    lines = own.run("film", "chapters", ".").lines
    assert "Left out, since filming is not agreed: 3 of Tove." in lines
    assert [line.split() for line in lines if ". " not in line and "ball" in line][:2] == [
        ["first", "day.mp4", "3", "balls"],
        ["second.mov", "3", "balls"],
    ]
    assert f"3 films: {KNOWN_BY[StartSource.SLATE]}" in lines
    assert len(list(own.folder.glob("second.*"))) == 6
    assert len(list(own.folder.glob("third.*"))) == 1


def test_one_file_that_is_no_film_keeps_no_other_from_its_files(own: Home) -> None:
    (own.folder / "text.mp4").write_text("text", encoding="utf-8")
    said = own.run("film", "chapters", FILM, "text.mp4")
    assert said.code == 1
    assert "1 of 2 files went without files beside them." in said.err
    assert "text.mp4 is no MP4 or MOV video." in said.err
    assert len(titles(own)) == 3


@pytest.mark.parametrize("together", [True, False], ids=["one run", "two runs"])
@pytest.mark.parametrize("to", [(), ("--to", "out")], ids=["beside", "in a folder"])
@pytest.mark.parametrize("name", ["first day.mov", "phone/first day.mp4"])
def test_two_films_of_one_name_never_share_their_files(
    own: Home, together: bool, to: tuple[str, ...], name: str
) -> None:
    second_film(own, name)
    folder = own.folder / (to[-1] if to else ".")
    runs = [(FILM, name)] if together else [(FILM,), (name,)]
    said = [own.run("film", "chapters", *films, *to) for films in runs]
    shared = bool(to) or "/" not in name
    assert said[-1].code == (1 if shared else 0)
    told = " ".join(said[-1].err.split())
    refusal = "The files named first day there are of another film of that name. Nothing was"
    assert (refusal in told) is shared
    first = of_edl((folder / "first day.edl").read_text())[0]["file"]
    assert (folder / first).samefile(own.folder / FILM)
    if shared and not together:
        assert own.run("film", "chapters", name, *to, "--replace").code == 0
    elif shared:
        said_again = own.run("film", "chapters", FILM, name, *to, "--replace")
        assert "Give one of the two films another name." in said_again.err


def test_files_of_a_film_that_shows_nobody_any_more_are_named(own: Home) -> None:
    assert own.run("film", "chapters", FILM).code == 0
    assert own.run("roster", "edit", "Maren", "--filming", "no").code == 0
    said = own.run("film", "chapters", FILM)
    assert said.code == 1
    assert "Still there from before, and yours to delete: first day.ffmetadata," in said.err


def test_balls_of_another_court_are_told_apart(own: Home) -> None:
    """Tove played on another court at the same time, in a book that was joined with this one."""
    assert own.run("roster", "edit", "Tove", "--adult", "--filming", "yes").code == 0
    with closing(create_or_open(own.book, START)) as book, book.writing() as db:
        db.execute(
            "INSERT INTO day (id, clinic_id, date, court, coach_id)"
            " SELECT id + 1, clinic_id, date, 'north', coach_id FROM day"
        )
        db.execute(
            "UPDATE round SET day_id = day_id + 1"
            " WHERE player_id = (SELECT id FROM player WHERE name = 'Tove')"
        )
        ((first,),) = db.execute("SELECT court FROM day WHERE court <> 'north'").fetchall()
        # As in a book from before films had a court.
        db.execute("DELETE FROM film_court")
    listed = " ".join(own.run("film").out.split())
    assert f"court not known: court {first} and court north were open while it ran." in listed
    assert f"balls 4: court {first}: Maren 3; court north: Tove 1" in listed
    assert "Nothing is made of the film until" in refused(own, FILM)
    said = own.run("film", "add", FILM, "--court", "north").out
    assert "court     north" in said
    assert "to a tenth of a second" in said
    assert own.run("film", "chapters", FILM).code == 0
    assert [title.split(" ")[0] for title in titles(own)] == ["Tove"]
    assert own.run("film", "add", FILM, "--court", first).code == 0
    assert own.run("film", "chapters", FILM).code == 0
    assert {title.split(" ")[0] for title in titles(own)} == {"Maren"}
    assert "shows no ball that was asked for" in refused(own, FILM, "--court", "north")
    assert f"The clinic's: {first}, north." in refused(own, FILM, "--court", "9")
