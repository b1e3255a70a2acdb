"""`courtlog erase`: what it asks for, what it says went, and that nothing else went."""

from __future__ import annotations

import json
import shutil
import sqlite3
import sys
from contextlib import closing
from pathlib import Path

import pytest

from tests.cli.program import Home


@pytest.fixture
def own(home: Home, harbour: Home) -> Home:
    """The five-day sample with a backup beside it, to be changed at will."""
    (home.folder / "backups").mkdir()
    shutil.copy(harbour.book, home.book)
    shutil.copy(harbour.book, home.folder / "backups" / "book-1.db")
    return home


def with_name(home: Home, name: str) -> list[str]:
    """The files that hold the name."""
    return [path for path, text in home.files().items() if name.encode() in text]


def test_a_player_is_gone_from_the_book_the_backup_and_every_page(own: Home) -> None:
    others = {player["player"]: player for player in day(own)["players"]}
    assert with_name(own, "Maren") == ["backups/book-1.db", "book.db"]
    lines = own.run("erase", "Maren", "--yes").lines
    assert lines[0] == (
        "Maren is gone: 39 rounds, 494 balls, 15 notes, 15 check-ins, 2188 other lines."
    )
    assert "Gone from 1 backup too." in lines
    assert with_name(own, "Maren") == []
    assert "no player called" in own.run("player", "Maren").err
    del others["Maren"]
    assert {player["player"]: player for player in day(own)["players"]} == others


def test_a_sheet_says_which_rounds_are_not_on_it(own: Home) -> None:
    assert own.run("sheet", "out").err == ""
    assert own.run("erase", "Ruben", "--yes", "--keep-counts").lines
    said = own.run("sheet", "out")
    assert said.err == (
        "Not on the sheet: 39 rounds whose player was removed; the book keeps the balls.\n"
    )
    assert "Ruben" not in said.out


def day(home: Home) -> dict[str, list[dict[str, object]]]:
    found: dict[str, list[dict[str, object]]] = json.loads(home.run("day", "--json").out)
    return found


def test_every_page_still_prints_when_the_counts_are_kept(own: Home) -> None:
    lines = own.run("erase", "Maren", "--yes", "--keep-counts", "--in-notes").lines
    assert lines[1].startswith("Kept without a name, a time or a word: 39 rounds and 494 balls.")
    assert with_name(own, "Maren") == []
    for words in (["day"], ["sheet", "out"], ["player", "Tove"], ["trend", "Tove"]):
        said = own.run(*words)  # a sheet says on the side what is not on it
        assert said.code == 0
        page = said.out
        assert "someone" not in page
        assert "Maren" not in page


def test_the_last_player_can_go_as_well(own: Home) -> None:
    for player in ("Maren", "Tove", "Ruben", "Anouk", "Ilse", "Kasimir"):
        assert own.run("erase", player, "--yes").lines
    assert "No balls yet on this day." in own.run("day").lines


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["Maren"], "nobody can be asked here"),
        (["Mar", "--yes"], "only the beginning of 'Maren'"),
        (["maren", "--yes"], "only the beginning"),
        (["Nobody", "--yes"], "no player called 'Nobody'"),
        (["", "--yes"], "More than one player fits"),
        (["Maren", "--yes", "--clinic", "Other"], "no clinic called 'Other'"),
    ],
)
def test_nothing_goes_unless_it_is_the_full_name(own: Home, words: list[str], said: str) -> None:
    before = own.files()
    run = own.run("erase", *words)
    assert (run.code, run.out) == (1, "")
    assert said in run.err
    assert own.files() == before


def test_a_backup_that_cannot_be_read_is_named(own: Home) -> None:
    torn = own.folder / "backups" / "torn.db"
    torn.write_bytes(own.book.read_bytes()[:9000])
    run = own.run("erase", "Maren", "--yes")
    assert run.code == 1
    assert "torn.db" in run.err
    assert "Delete it by hand." in run.err
    assert with_name(own, "Maren") in ([], ["backups/torn.db"])


def test_the_second_place_for_backups_is_looked_through_too(own: Home) -> None:
    stick = own.folder / "stick"
    stick.mkdir()
    assert own.run("settings", "second_backup", stick).lines
    assert own.run("backup").lines
    (stick / "other.db").write_text("Maren plays the flute", encoding="utf-8")
    own.run("erase", "Maren", "--yes").lines  # noqa: B018 - went well
    assert with_name(own, "Maren") == ["stick/other.db"]


def test_what_a_program_that_died_left_half_made_goes_too(own: Home) -> None:
    """Drafts of a backup, of a restore and of the second place, with SQLite's files beside them."""
    stick = own.folder / "stick"
    stick.mkdir()
    assert own.run("settings", "second_backup", stick).lines
    for folder in (own.folder / "backups", own.folder, stick):
        (folder / "book-a1b2_x9z.new").write_bytes(own.book.read_bytes())
        (folder / "book-a1b2_x9z.new-journal").write_text("Maren", encoding="utf-8")
        (folder / "book-of-songs.new").write_text("a song", encoding="utf-8")
    assert len(with_name(own, "Maren")) == 8
    assert "half-made" not in own.run("erase", "Maren", "--yes").err
    assert with_name(own, "Maren") == []
    kept = {name for name in own.files() if ".new" in name}
    assert kept == {f"{place}book-of-songs.new" for place in ("", "backups/", "stick/")}


def test_a_clinic_says_which_of_two_is_meant(own: Home) -> None:
    sheet = 'clinic Other  zone UTC\nroster Maren\nroster "Maren Two"\n'
    Path(own.folder / "sheet.txt").write_text(sheet, encoding="utf-8")
    assert own.run("sheet", "in", "sheet.txt").lines
    assert "Maren Two is gone" in own.run("erase", "Maren Two", "--yes").out
    assert "Maren is gone: 39 rounds" in own.run("erase", "Maren", "--yes", "--clinic", "Other").out


def test_who_was_erased_elsewhere_goes_from_the_backups_here_too(own: Home) -> None:
    """The other laptop's copy of the book was erased from; this one only gathers it."""
    (own.folder / "away").mkdir()
    shutil.copy(own.book, own.folder / "away" / "book.db")
    assert own.run("--book", "away/book.db", "erase", "Maren", "--yes", "--in-notes").lines
    lines = own.run("gather", "away/book.db", "--yes").lines
    # The sample's own backup, and the one made before joining.
    assert (
        lines[1]
        == "Maren was erased from the other book, and is gone from this one and from 2 backups."
    )
    assert with_name(own, "Maren") == []
    assert "no player called" in own.run("erase", "Maren", "--yes").err


def test_the_whole_short_name_will_do(own: Home) -> None:
    assert own.run("roster", "edit", "Maren", "--short", "Mazurka").lines
    refused = own.run("erase", "Mazur", "--yes")
    assert "'Mazur' is only the beginning of 'Maren'" in refused.err
    assert own.run("erase", "Mazurka", "--yes").out.startswith("Maren is gone: 39 rounds")
    assert with_name(own, "Maren") == with_name(own, "Mazurka") == []


def test_two_of_one_name_are_told_apart_as_on_the_screen(own: Home) -> None:
    assert own.run("roster", "add", "Maren", "--another").lines
    refused = own.run("erase", "Maren", "--yes")
    assert refused.code == 1
    assert "fits 'Maren': Maren 1 of Harbour Week, Maren 2 of Harbour Week." in refused.err
    assert own.run("erase", "Maren 2", "--yes").out.startswith("Maren 2 is gone: 1 other line.")
    assert own.run("roster", "add", "Maren", "--another", "--short", "Mazurka").lines
    said = own.run("erase", "Maren (Mazurka)", "--yes").out
    assert said.startswith("Maren (Mazurka) is gone: 1 other line.")
    assert own.run("erase", "Maren", "--yes").out.startswith("Maren is gone: 39 rounds")


def test_a_number_counts_in_the_clinic_that_shows_it(own: Home) -> None:
    """Maren 1 of one clinic may be Maren 2 of another: then the clinic must be named."""
    own.run("roster", "add", "Maren", "--another").lines  # noqa: B018 - went well
    sheet = "clinic Other  zone UTC\nroster Jorun\n"
    (own.folder / "sheet.txt").write_text(sheet, encoding="utf-8")
    own.run("sheet", "in", "sheet.txt").lines  # noqa: B018
    with closing(sqlite3.connect(own.book)) as db, db:
        db.execute(
            "INSERT INTO roster (clinic_id, player_id, place) SELECT clinic.id, player.id,"
            " 100 - row_number() OVER (ORDER BY player.id) FROM clinic, player"
            " WHERE clinic.name = 'Other' AND player.name = 'Maren'"
        )
    refused = own.run("erase", "Maren 2", "--yes")
    assert refused.code == 1
    assert "fits 'Maren 2': Maren 2 of Harbour Week, Maren 2 of Other." in refused.err
    said = own.run("erase", "Maren 1", "--yes", "--clinic", "Other").out
    assert said.startswith("Maren 1 is gone: 2 other lines.")


BAY = """clinic Bay  zone UTC
day 2026-05-1{day}
player Ada  drill forehand/shadow
222 220 "Ada was late"
player Bo  drill forehand/shadow
222 220 "behind Ada"
"""


@pytest.fixture
def joined(home: Home) -> Home:
    """Two laptops that each wrote Ada into a book of their own, joined as one person."""
    for day, name in enumerate(("book.db", "away.db"), 1):
        (home.folder / "bay.txt").write_text(BAY.format(day=day), encoding="utf-8")
        assert home.run("--book", name, "sheet", "in", "bay.txt").lines
    assert home.run("backup").lines
    (home.folder / "bay.txt").unlink()
    return home


@pytest.mark.parametrize("other_way", [False, True], ids=["here first", "there first"])
def test_whom_a_joining_made_one_goes_by_every_id(joined: Home, other_way: bool) -> None:
    """The backup from before the joining knows her by an id that the book has no more."""
    if other_way:
        shutil.move(joined.book, joined.folder / "swap.db")
        shutil.move(joined.folder / "away.db", joined.book)
        shutil.move(joined.folder / "swap.db", joined.folder / "away.db")
    shutil.copy(joined.folder / "away.db", joined.folder / "later.db")
    same = [word for name in ("Bay", "Ada", "Bo") for word in ("--same", name)]
    assert joined.run("gather", "away.db", *same).lines
    assert joined.run("erase", "Ada", "--yes", "--in-notes").lines
    for name in ("away.db", "later.db"):
        assert joined.run("gather", name, *same).lines
        assert "no player called 'Ada'" in joined.run("player", "Ada").err
    for name in ("away.db", "later.db"):
        (joined.folder / name).unlink()
    assert with_name(joined, "Ada") == []
    assert "Bo" in joined.run("day").out


def test_a_third_book_that_knows_an_id_of_hers_does_not_bring_her_back(joined: Home) -> None:
    """Only the third book knows that two ids are one; the first erased her by one of them."""
    same = [word for name in ("Bay", "Ada", "Bo") for word in ("--same", name)]
    shutil.copy(joined.book, joined.folder / "third.db")
    assert joined.run("--book", "third.db", "gather", "away.db", *same).lines
    assert joined.run("erase", "Ada", "--yes").lines
    assert joined.run("gather", "third.db", "--same", "Bay", "--same", "Bo").lines
    assert "no player called 'Ada'" in joined.run("player", "Ada").err


def test_what_lies_in_a_second_place_that_is_out_is_owed_and_done_later(own: Home) -> None:
    stick, drawer = own.folder / "stick", own.folder / "drawer"
    stick.mkdir()
    assert own.run("settings", "second_backup", stick).lines
    assert own.run("backup").lines
    stick.rename(drawer)
    lines = own.run("erase", "Maren", "--yes", "--in-notes").lines
    assert any(f"{stick}) is not there, so Maren is still in what lies in it" in x for x in lines)
    (held,) = with_name(own, "Maren")
    assert held.startswith("drawer/book-")
    drawer.rename(stick)
    lines = own.run("backup").lines
    assert "Who had been erased before is gone from 1 older backup." in lines
    assert with_name(own, "Maren") == []


def test_what_a_killed_export_left_in_another_folder_goes_too(own: Home) -> None:
    out = own.folder / "out"
    out.mkdir()
    kill = "import os, courtlog.drafts as d; d.put_folder = lambda *_: os._exit(9); "
    kill += "from courtlog.cli.start import main; main()"
    program = [sys.executable, "-c", kill]
    own.run("export", "out/whole", "--with-minors", program=program)
    assert [name for name in with_name(own, "Maren") if name.startswith("out/")]
    assert own.run("erase", "Maren", "--yes", "--in-notes").lines
    assert with_name(own, "Maren") == []
