"""`courtlog backup`, `restore` and `doctor` as a coach starts them."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from tests.cli.program import HARBOUR, WEEKEND, Home, home_with


@pytest.fixture
def week(tmp_path: Path) -> Home:
    """A home with the five-day sample, to be changed at will."""
    folder = tmp_path / "home"
    folder.mkdir()
    return home_with(folder, HARBOUR)


def sql(home: Home, statement: str) -> None:
    """Change the book behind the program's back."""
    with closing(sqlite3.connect(home.book)) as db, db:
        db.execute(statement)


def test_backup_then_restore(week: Home) -> None:
    (first,) = week.run("backup").lines
    assert first.endswith("holds 2934 balls.")
    (same,) = week.run("backup").lines
    assert "holds the same as the book" in same
    name = Path(first.split()[0]).name
    assert week.run("sheet", "in", WEEKEND).lines
    day = week.run("day", "--clinic", "Harbour Week").out

    refused = week.run("restore", name)
    assert refused.code == 1
    more = "474 balls, 37 rounds, 4 players, 23 notes and 17 check-ins"
    assert f"The book holds {more} that this backup does not." in refused.err
    assert "Two-court Weekend" in week.run("sheet", "out").out

    done = week.run("restore", name, "--yes")
    assert done.lines[0].endswith("2934 balls.")
    assert week.run("day").out == day
    replaced = Path(done.lines[1].rpartition(" ")[2].rstrip("."))
    assert "Two-court Weekend" in week.run("sheet", "out", "--book", replaced).out
    assert week.run("restore").lines[0].split()[2:4] == ["2934", "balls"]
    assert week.run("doctor").lines[0] == "The book is sound."


def test_a_backup_as_a_file_of_its_own_overwrites_nothing(week: Home) -> None:
    assert week.run("backup", "copy.db").lines == ["copy.db holds 2934 balls."]
    again = week.run("backup", "copy.db")
    assert (again.code, again.out) == (1, "")
    assert "There is a file copy.db already." in again.err
    week.book.unlink()
    assert week.run("restore", "copy.db").lines[0].endswith("2934 balls.")
    assert week.run("doctor").lines[0] == "The book is sound."


def test_a_second_place_that_is_not_there_is_said(week: Home) -> None:
    week.run("settings", "second_backup", str(week.folder / "stick"))
    said = week.run("backup")
    assert said.code == 1
    assert "is not there; the backup beside the book is there." in said.err
    (week.folder / "stick").mkdir()
    assert len(week.run("backup").lines) == 2
    assert len(week.run("restore").lines) == 3


def test_nothing_to_keep_and_nothing_to_restore(home: Home) -> None:
    assert "There is no book" in home.run("backup").err
    assert home.run("restore").lines[0].startswith("There is no backup of")
    assert "There is no book" in home.run("doctor").err
    assert home.run("restore", "none.db").code == 1
    assert home.files() == {}


def test_the_doctor_says_mends_and_ends_with_its_code(week: Home) -> None:
    sql(week, "UPDATE tally SET made = made + 1 WHERE cue = 'turn' AND tough")
    sick = week.run("doctor")
    assert (sick.code, sick.err) == (1, "")
    assert sick.out.startswith("The kept counts differ from the balls in ")
    assert "The book is sound." in week.run("doctor", "--mend").lines
    assert len(week.run("restore").lines) == 2, "a backup was made before"
    assert week.run("doctor").lines[0] == "The book is sound."


def test_what_cannot_be_mended_is_said_and_left(week: Home) -> None:
    sql(week, "DELETE FROM round_cue WHERE round_id = (SELECT min(round_id) FROM round_cue)")
    said = week.run("doctor", "--mend")
    assert said.code == 1
    assert "Not mended: 1 round with balls has no cues." in said.out


def test_a_damaged_book_is_read_into_a_new_one_and_left_as_it_is(week: Home) -> None:
    assert week.run("backup").lines
    content = bytearray(week.book.read_bytes())
    for page in (20, 40, 60, 80):
        content[page * 4096 : (page + 1) * 4096] = b"\x55" * 4096
    week.book.write_bytes(content)
    said = week.run("doctor")
    assert said.code == 1
    assert "The book is damaged on disk" in said.out
    mended = week.run("doctor", "--mend")
    assert mended.code == 1
    assert "2934 balls could be saved" in mended.out
    assert week.book.read_bytes() == content
    (new,) = (week.folder / "backups").glob("saved-*.db")
    assert week.run("doctor", "--book", new).lines[0] == "The book is sound."
    assert "is not known" in week.run("restore", new).err  # what cannot be read is not counted
    assert week.run("restore", new, "--yes").code == 0
    assert week.run("doctor").lines[0] == "The book is sound."


def test_a_book_with_a_schema_of_its_own_is_saved_by_the_names_of_its_tables(week: Home) -> None:
    endless = "WITH RECURSIVE n(x) AS (SELECT 1 UNION ALL SELECT x + 1 FROM n)"
    with closing(sqlite3.connect(week.book)) as db:
        (balls,) = db.execute("SELECT count(*) FROM ball WHERE taken").fetchone()
        db.execute("DROP TABLE heat")
        db.execute(f"CREATE VIEW heat AS {endless} SELECT x AS id FROM n")
        db.execute(
            'CREATE TABLE "x; DROP TABLE ball" (id INTEGER PRIMARY KEY REFERENCES gone (id))'
        )
        db.commit()
    said = week.run("day")
    assert (said.code, said.out) == (1, "")
    assert "is not a book as courtlog makes it" in said.err
    said = week.run("doctor")
    assert "The book is not as courtlog makes it: it has a" in said.out
    said = week.run("doctor", "--mend")
    assert f"{balls} balls could be saved" in said.out
    (saved,) = (week.folder / "backups").glob("saved-*.db")
    assert week.run("restore", saved, "--yes").lines
    assert week.run("doctor").lines[0] == "The book is sound."
