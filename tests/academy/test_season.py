"""`courtlog academy season` says, line by line, what each book says of itself."""

from __future__ import annotations

import json
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from courtlog.academy.asking import ask_folder
from courtlog.academy.engine_name import EngineName
from courtlog.academy.folder import shipped
from courtlog.academy.index import INDEX
from courtlog.academy.season.models import Season
from courtlog.academy.season.season import season
from tests.academy.folders import GONE, STATES, WEEKEND_BOOK, add, as_of_version_one, sample_home
from tests.academy.own_season import changes, lines, own_balls, own_changes, own_lines
from tests.cli.program import WEEKEND, Home


@pytest.fixture
def home(tmp_path: Path) -> Home:
    return sample_home(tmp_path / "home")


def of_folder(home: Home) -> Season:
    return ask_folder(home.folder / "academy", EngineName.DUCKDB, season)


def balls_by_day(home: Home) -> list[tuple[object, ...]]:
    """Rounds, balls and tough ones by clinic, date and player, all courts together."""
    rows = ask_folder(
        home.folder / "academy",
        EngineName.DUCKDB,
        lambda engine, _: engine.rows(shipped("questions", "load")),
    ).rows
    return sorted(((one[0], one[2], one[4], *one[6:]) for one in rows), key=repr)


def newest(home: Home) -> tuple[Path, Path]:
    return home.folder / STATES[-1], home.folder / WEEKEND_BOOK


def test_both_invented_clinics_in_four_exports(home: Home) -> None:
    """One of them twice, one put right, one without a player who was erased."""
    add(home, *STATES, STATES[0], WEEKEND_BOOK)
    found = of_folder(home)
    assert lines(found) == own_lines(*newest(home))
    assert changes(found) == own_changes(*newest(home))
    assert balls_by_day(home) == own_balls(*newest(home))
    assert len(found.lines) > 100
    assert len(changes(found)) > 20
    assert {one.direction for clinic in found.clinics for one in clinic.changes} == {0, 1}


def test_a_ball_put_right_is_told_as_it_is_now(home: Home) -> None:
    add(home, STATES[0])
    before = lines(of_folder(home))
    add(home, STATES[1])
    now = lines(of_folder(home))
    assert len(set(before) ^ set(now)) >= 2
    assert now == own_lines(home.folder / STATES[1])


def test_books_that_share_balls_count_each_once(home: Home) -> None:
    """A joined book beside those that it was joined of, and a copy that went on by itself."""
    shutil.copyfile(home.folder / STATES[1], home.folder / "joined.db")
    assert home.run("gather", WEEKEND_BOOK, "--book", "joined.db").lines
    add(home, WEEKEND_BOOK, STATES[1], "joined.db")
    found = of_folder(home)
    assert found.books == 3
    assert lines(found) == own_lines(home.folder / "joined.db")
    assert changes(found) == own_changes(home.folder / "joined.db")
    assert balls_by_day(home) == own_balls(home.folder / "joined.db")


def test_a_person_of_two_books_is_one_once_a_book_says_so(home: Home) -> None:
    sheet = (
        "clinic Two-court Weekend  zone Europe/Lisbon\nroster Sanne\n"
        "day 2026-06-07  court 3  coach Bo\n"
        "player Sanne  drill forehand/hand-feed  purpose practice  cues turn spacing\n22 21 12\n"
    )
    (home.folder / "lake.txt").write_text(sheet, encoding="utf-8")
    assert home.run("sheet", "in", "lake.txt", "--book", "lake.db").lines
    add(home, "lake.db", WEEKEND_BOOK)
    assert len({one.player_id for one in of_folder(home).lines}) == 5
    assert len(of_folder(home).clinics) == 2
    shutil.copyfile(home.folder / "lake.db", home.folder / "joined.db")
    both = ("--same", "Sanne", "--same", "Two-court Weekend")
    assert home.run("gather", WEEKEND_BOOK, "--book", "joined.db", *both).lines
    add(home, "joined.db")
    found = of_folder(home)
    assert len({one.player_id for one in found.lines}) == 4
    assert len(found.clinics) == 1
    assert lines(found) == own_lines(home.folder / "joined.db")


def test_a_sheet_that_two_books_read_in_counts_once(home: Home) -> None:
    """Each gave its balls ids of its own; the joined book says which are one."""
    assert home.run("sheet", "in", WEEKEND, "--book", "again.db").lines
    shutil.copyfile(home.folder / "again.db", home.folder / "joined.db")
    names = ("Two-court Weekend", "Sanne", "Emrik", "Jorun", "Pilou")
    same = [word for name in names for word in ("--same", name)]
    assert home.run("gather", WEEKEND_BOOK, "--book", "joined.db", *same).lines
    with closing(sqlite3.connect(home.folder / "joined.db")) as db:
        (one,) = db.execute("SELECT count(*) FROM matched WHERE tbl = 'ball'").fetchone()
    assert one > 300
    add(home, "joined.db", "again.db", WEEKEND_BOOK)
    found = of_folder(home)
    assert lines(found) == own_lines(home.folder / "joined.db")
    assert changes(found) == own_changes(home.folder / "joined.db")


def test_who_was_erased_from_one_book_is_in_no_answer(home: Home) -> None:
    """Another book still has the player: its file stays, and no question sees it."""
    with closing(sqlite3.connect(home.folder / STATES[0])) as db:
        (gone,) = db.execute("SELECT id FROM player WHERE name = ?", [GONE]).fetchone()
        db.execute("UPDATE home SET place = 'another computer'")
        db.commit()
    add(home, *STATES)
    found = of_folder(home)
    assert found.books == 2
    assert gone not in {one.player_id for one in found.lines}
    assert lines(found) == own_lines(home.folder / STATES[-1])


def test_a_book_of_an_earlier_schema_is_read_with_the_others(home: Home) -> None:
    """As a courtlog of that time wrote it: tables and columns of later days are not there."""
    add(home, STATES[-1], WEEKEND_BOOK)
    before = of_folder(home)
    folder = home.folder / "academy"
    index = json.loads((folder / INDEX).read_text(encoding="utf-8"))
    as_of_version_one(folder, index)
    (folder / INDEX).write_text(json.dumps(index), encoding="utf-8")
    assert lines(of_folder(home)) == lines(before)
    assert changes(of_folder(home)) == changes(before)


def test_a_book_of_a_later_courtlog_is_named_and_left_out(home: Home) -> None:
    add(home, STATES[-1], WEEKEND_BOOK)
    path = home.folder / "academy" / INDEX
    index = json.loads(path.read_text(encoding="utf-8"))
    later = max(index["books"], key=lambda book: index["books"][book]["rows"]["ball"])
    index["books"][later]["schema"] = 999
    path.write_text(json.dumps(index), encoding="utf-8")
    found = of_folder(home)
    assert found.books_left_out == (later,)
    assert lines(found) == own_lines(home.folder / WEEKEND_BOOK)
    out = home.run("academy", "season", "--in", "academy").lines
    assert f"Book {later} is of a later courtlog, and is left out. Update courtlog." in out


def test_a_book_without_a_day_is_told_as_that(tmp_path: Path) -> None:
    home = Home(tmp_path)
    assert home.run("clinic", "new", "Harbour Week").lines
    add(home, home.book.name)
    told = home.run("academy", "season", "--in", "academy")
    assert told.lines == ["There is no day of a clinic in 1 book yet."]
    refused = home.run("academy", "season", "--in", "academy", "--clinic", "Weekend")
    assert "no day of a clinic yet" in refused.err
