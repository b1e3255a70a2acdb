"""`courtlog film add` and `courtlog film`: what comes in, what does not, and what is said of it."""

from __future__ import annotations

import json
import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest
from rich.cells import cell_len

from courtlog.coaching.game.court_book import Arrival
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.writes.courts.deal_writer import move_player
from courtlog.reports.layout.picture_words import PICTURE_WORDS
from courtlog.times import as_moment, clock_words, zone
from tests.cli.program import Home
from tests.court import DAY, START, desk_in, feed, player
from tests.film.built import creation_date, mvhd, since_1904, track, video


@pytest.fixture
def own(home: Home) -> Home:
    """Five balls of Maren and three of Tove, fed on 12 May from 8:30 on, Lisbon time."""
    desk = desk_in(home.folder)
    feed(desk, "222 2-1!/ 012 _ _@")
    desk.rounds.start(player(desk, "Tove"))
    feed(desk, "222 012 _")
    desk.book.close()
    return home


def film(
    home: Home,
    name: str,
    began: int | None = None,
    length_ms: int = 600_000,
    recorded: str = "",
    pictures: int = 10,
) -> Path:
    """A video file whose header has that start."""
    when = 0 if began is None else since_1904(datetime.fromtimestamp(began // 1000, UTC))
    parts = [mvhd(when, 1000, length_ms), track()]
    parts += [creation_date(recorded)] if recorded else []
    path = home.folder / name
    path.parent.mkdir(exist_ok=True)
    path.write_bytes(video(*parts, pictures=pictures))
    return path


def kept(home: Home) -> list[tuple[str, int, str]]:
    """Name, start after START in milliseconds, and how it is known, of every film in the book."""
    with sqlite3.connect(home.book) as db:
        rows = db.execute("SELECT name, began_at, known_by FROM film ORDER BY id").fetchall()
    return [(name, began - START, source) for name, began, source in rows]


def words(home: Home, *typed: str | Path) -> str:
    """What a command that goes well prints, on one line; none of its lines is too long."""
    lines = home.run(*typed).lines
    assert max(map(cell_len, lines)) <= 78
    return " ".join(" ".join(lines).split())


def refusal(home: Home, *typed: str | Path) -> str:
    """What a command that writes nothing says."""
    before = kept(home)
    said = home.run(*typed)
    assert (said.code, kept(home)) == (1, before)
    return " ".join(said.err.split())


def test_a_film_with_its_start_in_its_name_comes_in(own: Home) -> None:
    name = "VID_20260512_082955.mp4"
    said = words(own, "film", "add", film(own, name, START - 5000 + 600_000))
    assert kept(own) == [(name, -5000, "file")], "the header had the end"
    assert "runs Tue 12 May 08:29:55 to 08:39:55 (10:00)" in said
    assert "balls 8: Maren 5, Tove 3" in said
    assert "told by its name: it may be some seconds off" in said
    assert "makes a start exact: `courtlog film add FILE --at 0:02 --shows 09:31:07.4`." in said
    listed = words(own, "film")
    assert listed.startswith("Harbour Week · 1 film =")
    assert listed.endswith(said)


def test_the_book_never_has_the_picture(own: Home) -> None:
    words(own, "film", "add", film(own, "20260512_083000.mp4", pictures=50_000))
    before = own.book.stat().st_size
    (own.folder / "20260512_083000.mp4").unlink()
    assert "balls 8" in words(own, "film")
    assert own.book.stat().st_size == before


def test_a_slate_goes_before_whatever_the_phone_says(own: Home) -> None:
    """37 s, three hours and a phone that knows no date: the book's clock decides."""
    for number, off in enumerate((37_000, 3 * 3600_000, None)):
        path = film(own, f"{number}.mp4", None if off is None else START + off, 500_000 + number)
        said = words(own, "film", "add", path, "--at", "0:02", "--shows", "08:30:01.5")
        assert kept(own)[-1] == (f"{number}.mp4", -500, "slate")
        assert "the start is known to a tenth of a second" in said
        assert "seconds off" not in said
    facts = json.loads(own.run("film", "--json").out)
    assert [one["to_the_tenth"] for one in facts["films"]] == [True] * 3


def test_a_clip_mark_at_a_clap_gives_the_start(own: Home) -> None:
    with sqlite3.connect(own.book) as db:
        ((mark,),) = db.execute("SELECT clip_at FROM ball WHERE clip_at IS NOT NULL").fetchall()
    shown = clock_words(mark, zone("Europe/Lisbon"))
    path = film(own, "a.mp4", START + 400_000)
    said = words(own, "film", "add", path, "--at", "12.5", "--mark", shown)
    assert kept(own) == [("a.mp4", mark - 12_500 - START, "mark")]
    assert "known to about a second" in said
    assert "No clip mark was made at 05:00:00." in refusal(
        own, "film", "add", film(own, "b.mp4", START, 7), "--at", "1", "--mark", "05:00:00"
    )


def test_a_header_alone_is_asked_about(own: Home) -> None:
    path = film(own, "a.mp4", START + 600_000)
    said = refusal(own, "film", "add", path)
    assert "a.mp4 says 08:40:00, and not whether it began or ended then." in said
    assert "read as you said" in words(own, "film", "add", path, "--time", "end")
    assert kept(own) == [("a.mp4", 0, "said")]
    assert "not 'middle'" in refusal(own, "film", "add", path, "--time", "middle")


def test_a_date_with_its_zone_is_the_start(own: Home) -> None:
    path = film(own, "a.mov", START + 600_000, recorded="2026-05-12T09:30:00+0200")
    assert "The start is the date in the file" in words(own, "film", "add", path)
    assert kept(own) == [("a.mov", 0, "zone")]


def test_a_film_is_known_again_under_another_name(own: Home) -> None:
    path = film(own, "20260512_083000.mp4")
    words(own, "film", "add", path)
    again = path.rename(own.folder / "Maren.mp4")
    assert words(own, "film", "add", again) == (
        "Maren.mp4 is in the book already, as 20260512_083000.mp4."
    )
    words(own, "film", "add", again, "--at", "0:01", "--shows", "08:29:59.0")
    assert kept(own) == [("20260512_083000.mp4", -2000, "slate")]
    assert "is in the book already." in words(own, "film", "add", again.rename(path))


def test_what_cannot_come_in_is_one_sentence_each(own: Home) -> None:
    other_day = film(own, "20260513_083000.mp4")
    assert "shows no ball of Harbour Week: it runs on Wed 13 May, 08:30:00 to 08:40:00." in (
        refusal(own, "film", "add", other_day)
    )
    timeless = film(own, "a.mp4")
    assert "does not say when it was filmed" in refusal(own, "film", "add", timeless)
    text = own.folder / "text.mp4"
    text.write_text("no video at all")
    assert "text.mp4 is no MP4 or MOV video." in refusal(own, "film", "add", text)
    assert "cannot be read" in refusal(own, "film", "add", own.folder / "gone.mp4")
    for typed in (["--at", "0:02"], ["--shows", "08:30:00"], ["--mark", "08:30:00"]):
        assert "needs a place" in refusal(own, "film", "add", timeless, *typed)
    for typed in (["--at", "x", "--shows", "08:30:00"], ["--at", "1", "--shows", "24:00:00"]):
        assert "write it like" in refusal(own, "film", "add", timeless, *typed)
    late = ["--at", "11:00", "--shows", "08:30:00"]
    assert "a.mp4 is only 10:00 long." in refusal(own, "film", "add", timeless, *late)


def test_balls_of_a_sheet_are_never_guessed(home: Home) -> None:
    (home.folder / "sheet.txt").write_text(
        "clinic Bay  zone Europe/Lisbon\nday 2026-05-12  court 1  coach Ines\n"
        "player Maren  drill forehand/live  cues turn spacing finish\n222 212\n"
    )
    assert home.run("sheet", "in", "sheet.txt").lines
    said = refusal(home, "film", "add", film(home, "20260512_083000.mp4"))
    assert "Balls from a sheet have no moment, so no film shows them." in said


def test_of_a_folder_the_videos_come_in_and_the_others_are_told(own: Home) -> None:
    for name in ("20260512_082958.mp4", "20260512_082959.MOV", "20260513_083000.mp4"):
        film(own, f"phone/{name}", pictures=int(name[14]))
    (own.folder / "phone" / "picture.jpg").write_text("")
    said = own.run("film", "add", own.folder / "phone")
    assert said.code == 1
    assert [name for name, _, _ in kept(own)] == ["20260512_082958.mp4", "20260512_082959.MOV"]
    assert "1 of 3 files did not come in." in said.err
    assert "20260513_083000.mp4 shows no ball" in said.err
    assert "what was asked for is in the book" in said.err
    assert "picture.jpg" not in said.out + said.err
    both = sorted((own.folder / "phone").glob("20260512*"))
    sight = ["--at", "1", "--shows", "08:30:00"]
    assert "name one file" in refusal(own, "film", "add", *both, *sight)
    (own.folder / "empty").mkdir()
    assert "There is no video in" in refusal(own, "film", "add", own.folder / "empty")


def test_who_has_not_agreed_is_told_and_minors_by_a_guardian(own: Home) -> None:
    said = words(own, "film", "add", film(own, "20260512_083000.mp4"))
    not_asked = "not yet asked about filming"
    assert f"no yes Maren: {not_asked} Tove: {not_asked} Whoever has not" in said
    assert "guardian" not in said
    assert "A film may show others too: look before you show it to anyone." in said
    said = words(own, "roster", "edit", "Maren", "--filming", "yes")
    assert "The yes counts once it says whose it is (--filming-by), or --adult." in said
    assert "Maren: a yes, but nobody wrote whose, nor that this is an adult" in words(own, "film")
    words(own, "roster", "edit", "Maren", "--adult")
    said = words(own, "roster", "edit", "Tove", "--filming", "yes", "--minor")
    assert "The yes counts once a guardian's name is beside it: --filming-by." in said
    said = words(own, "film")
    assert "no yes Tove: a minor, and no guardian's name stands beside the yes Who" in said
    assert PICTURE_WORDS[-1] in said
    words(own, "roster", "edit", "Tove", "--filming-by", "her mother")
    assert "no yes" not in words(own, "film")
    said = words(own, "roster", "edit", "Tove", "--filming", "no", "--filming-on", "2026-05-14")
    assert "Tove may be in these: 20260512_083000.mp4 The name Tove may stand beside" in said
    listed = words(own, "film")
    assert "Tove: said no on 14 May; a minor, so a guardian answers" in listed
    assert "What was made of films while there was a yes is yours to delete." in listed


def test_a_film_of_several_courts_has_the_one_that_is_said(own: Home) -> None:
    """Tove plays on court north meanwhile, as a joined book says."""
    with closing(create_or_open(own.book, START)) as book, book.writing() as db:
        db.execute(
            "INSERT INTO day (id, clinic_id, date, court, coach_id)"
            " SELECT id + 1, clinic_id, date, 'north', coach_id FROM day"
        )
        db.execute(
            "UPDATE round SET day_id = day_id + 1"
            " WHERE player_id = (SELECT id FROM player WHERE name = 'Tove')"
        )
    path = film(own, "20260512_083000.mp4")
    said = refusal(own, "film", "add", path)
    assert "shows one court, and court 2 and court north were open while it ran. Write" in said
    assert "shows no ball of court north" in refusal(
        own, "film", "add", film(own, "20260513_083000.mp4"), "--court", "north"
    )
    said = words(own, "film", "add", path, "--court", "North")
    assert "court north balls 3: Tove 3" in said
    assert "court 2 balls 5: Maren 5" in words(own, "film", "add", path, "--court", "2")
    other = film(own, "VID_20260512_083000.mp4", length_ms=500_000)
    said = words(own, "film", "add", path, other, "--court", "north")
    assert said.startswith("20260512_083000.mp4 is in the book already, of court 2. VID_2026")
    assert "court north" in said, "of a folder only what is new gets its court"
    gone = own.run("erase", "Tove", "--yes").out
    assert "Tove may be in these:\n  VID_20260512_083000.mp4\nThe name" in gone


def test_a_court_of_which_nothing_has_come_may_be_the_films(own: Home) -> None:
    path = film(own, "20260512_083000.mp4")
    with closing(create_or_open(own.book, START)) as book, book.writing() as db:
        (clinic, who) = db.execute("SELECT clinic_id, max(player_id) FROM roster").fetchone()
        move_player(book, clinic, DAY, who, "3", Arrival.DEALT, START)
    assert "court 2 and court 3 were open" in refusal(own, "film", "add", path)
    with closing(create_or_open(own.book, START)) as book, book.writing() as db:
        db.execute("INSERT INTO court_book VALUES (1, '2', 'assistant', 2, '', 1)")
    assert "court 2 balls 8" in words(own, "film", "add", path), "an assistant films their court"


def test_a_film_over_midnight_says_both_dates(own: Home) -> None:
    night = as_moment(datetime(2026, 5, 12, 22, 50, tzinfo=UTC))
    long = night - START + 3600_000
    words(own, "film", "add", film(own, "a.mp4", START, long), "--time", "start")
    assert "runs Tue 12 May 08:30:00 to Wed 13 May 00:50:00" in words(own, "film")


def test_erasing_a_person_names_the_films_that_stay(own: Home) -> None:
    words(own, "film", "add", film(own, "20260512_083000.mp4"))
    said = own.run("erase", "Tove", "--yes").out
    assert "nor files made of it. Tove may be in these:\n  20260512_083000.mp4\n" in said
    assert "\n  20260512_083000.ffmetadata, .vtt, .srt, .xspf, .edl\n" in said
    assert "balls 5: Maren 5" in words(own, "film")


def test_a_hostile_name_is_only_text(own: Home) -> None:
    name = "20260512_083000 \x1b[31m[bold]x.mp4"
    said = words(own, "film", "add", film(own, name))
    assert "␛[31m[bold]x.mp4" in said
    assert "\x1b" not in own.run("film", "--json").out


def test_a_name_that_is_no_text_comes_in_as_one(own: Home) -> None:
    try:
        film(own, "phone/20260512_083000 \udcff.mp4")
    except (OSError, UnicodeError):
        pytest.skip("this file system takes only text for names")
    assert "20260512_083000 \ufffd.mp4" in words(own, "film", "add", own.folder / "phone")
    assert [name for name, _, _ in kept(own)] == ["20260512_083000 \ufffd.mp4"]
