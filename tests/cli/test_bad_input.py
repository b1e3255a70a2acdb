"""A refusal is one clear sentence and the next step, exit code 1, and not one changed byte."""

from __future__ import annotations

import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from tests.cli.program import HARBOUR, Home, Said

CLINIC = "clinic X  zone UTC\nday 2026-05-12\nplayer Bo  drill forehand/live\n222\n"


def refused(home: Home, *args: str | Path, **env: str) -> Said:
    """Run the program, which must refuse without changing anything; what it said."""
    before = home.files()
    said = home.run(*args, **env)
    assert home.files() == before
    assert "Traceback" not in said.err
    assert (said.code, said.out) == (1, "")
    assert said.err.endswith(".\n")
    return said


def sentence(said: Said) -> str:
    """The one line of a refusal that has no list of problems."""
    assert said.err.count("\n") == 1, said.err
    assert said.err.startswith("courtlog: ")
    return said.err.removeprefix("courtlog: ").rstrip("\n")


UNKNOWN = {
    "day --player": (["day", "--player", "Zoe"], "'Zoe'", "Maren, Tove, Ruben"),
    "trend": (["trend", "Zoe"], "no player called 'Zoe'", "Maren, Tove, Ruben"),
    "trend, no name": (["trend", ""], "More than one player fits ''", "Write more"),
    "day --date": (["day", "--date", "2031-01-01"], "no day on 2031-01-01", "2026-05-11, 2026"),
    "no date": (["day", "--date", "yesterday"], "'yesterday' is no date", "like 2026-05-12"),
    "clinic": (["day", "--clinic", "Moon"], "no clinic called 'Moon'", "Harbour Week"),
    "sheet out, no day": (["sheet", "out", "--date", "2031-01-01"], "Harbour Week", "Nothing"),
    "drill": (["drills", "show", "forehand/moon"], "'forehand/moon'", "drills list forehand"),
    "no folder": (["drills", "check", "nowhere"], "no folder nowhere", "Name a folder"),
    "no book": (["day", "--book", "none.db"], "no book at none.db", "--book"),
    "no terminal": ([], "needs a terminal", "courtlog day"),
}


@pytest.mark.parametrize("case", UNKNOWN)
def test_a_name_that_is_not_there(harbour: Home, case: str) -> None:
    args, happened, next_step = UNKNOWN[case]
    said = sentence(refused(harbour, *args))
    assert happened in said
    assert next_step in said[said.index(happened) :]


@pytest.mark.parametrize("args", [["day"], ["trend", "Bo"], ["sheet", "out"]])
def test_no_book_makes_none(home: Home, args: list[str]) -> None:
    assert "There is no book" in sentence(refused(home, *args))


def test_no_terminal_makes_no_book(home: Home) -> None:
    assert "needs a terminal" in sentence(refused(home))


def test_a_beginning_that_fits_two_players(home: Home) -> None:
    (home.folder / "two.txt").write_text(CLINIC.replace("222", "roster Anna\nroster Annika"))
    home.run("sheet", "in", "two.txt")
    assert "fits 'ann': Anna, Annika" in sentence(refused(home, "trend", "ann"))
    assert home.run("trend", "anna").lines[0].startswith("Anna ")


def test_names_that_differ_in_capitals_can_both_be_asked_for(home: Home) -> None:
    (home.folder / "two.txt").write_text(CLINIC.replace("222", "roster bo\n"))
    home.run("sheet", "in", "two.txt")
    assert home.run("trend", "Bo").lines[0].startswith("Bo ")


WRONG_USE = [
    ["trend"],
    ["nonsense"],
    ["day", "--nonsense"],
    ["day", "--date"],
    ["drills", "show"],
    ["drills", "nonsense"],
    ["sheet", "in"],
    ["settings", "pad", "left", "right"],
]


@pytest.mark.parametrize("args", WRONG_USE, ids=" ".join)
def test_a_wrong_command_line_is_exit_code_two(home: Home, args: list[str]) -> None:
    said = home.run(*args)
    assert (said.code, said.out) == (2, "")
    assert "Error: " in said.err or "Usage: " in said.err
    assert "Traceback" not in said.err
    assert home.files() == {}


def text_file(path: Path) -> None:
    path.write_text("Maren 12 of 20\n" * 500, encoding="utf-8")


def picture(path: Path) -> None:
    path.write_bytes(b"\x89PNG\r\n\x1a\n" + bytes(range(256)) * 20)


def other_program(path: Path) -> None:
    with closing(sqlite3.connect(path)) as db:
        db.execute("CREATE TABLE music (title TEXT)")
        db.commit()


def cut_short(path: Path) -> None:
    path.write_bytes(path.read_bytes()[: path.stat().st_size // 2])


def only_a_header(path: Path) -> None:
    path.write_bytes(path.read_bytes()[:50])


def from_the_future(path: Path) -> None:
    with closing(sqlite3.connect(path)) as db:
        db.execute("PRAGMA user_version = 99")


def damage(table: str) -> Callable[[Path], None]:
    """Overwrite one page of the file: the first of that table."""

    def on(path: Path) -> None:
        with closing(sqlite3.connect(path)) as db:
            (size,) = db.execute("PRAGMA page_size").fetchone()
            root = db.execute("SELECT rootpage FROM sqlite_master WHERE name = ?", [table])
            at = (root.fetchone()[0] - 1) * size
        data = path.read_bytes()
        path.write_bytes(data[:at] + b"\xff" * size + data[at + size :])

    return on


def folder(path: Path) -> None:
    path.unlink()
    path.mkdir()


NO_BOOKS = {
    "a text": (text_file, "not a courtlog book"),
    "a picture": (picture, "not a courtlog book"),
    "another program's file": (other_program, "not a courtlog book"),
    "a book cut short": (cut_short, "not a courtlog book, or it is damaged"),
    "a header alone": (only_a_header, "not a courtlog book, or it is damaged"),
    "a page of balls lost": (damage("ball"), "not a courtlog book, or it is damaged"),
    "a later courtlog's": (from_the_future, "Update courtlog"),
    "a folder": (folder, "is a folder, not a book"),
}


@pytest.fixture
def kept(home: Home, harbour: Home) -> Home:
    """A home with a book of its own, to be broken."""
    shutil.copy(harbour.book, home.book)
    return home


WRITES = ["a text", "another program's file", "a later courtlog's"]


@pytest.mark.parametrize(
    ("what", "args"),
    [
        *((what, ["day"]) for what in NO_BOOKS),
        *((what, ["sheet", "in", str(HARBOUR)]) for what in WRITES),
    ],
)
def test_a_file_that_is_no_book(kept: Home, what: str, args: list[str]) -> None:
    spoil, happened = NO_BOOKS[what]
    if what == "another program's file":
        kept.book.unlink()
    spoil(kept.book)
    said = sentence(refused(kept, *args))
    assert happened in said
    assert str(kept.book) in said


def test_damage_that_is_found_while_reading(kept: Home) -> None:
    damage("tally")(kept.book)
    assert "damaged" in sentence(refused(kept, "day"))


def test_an_empty_file_is_left_as_it_is(home: Home) -> None:
    home.book.write_bytes(b"")
    refused(home, "day")


def test_a_sheet_with_mistakes(kept: Home) -> None:
    sheet = kept.folder / "sheet.txt"
    sheet.write_text(CLINIC + "22 333\npain 11\n", encoding="utf-8")
    *problems, last = refused(kept, "sheet", "in", sheet).err.splitlines()
    assert [problem.partition(": ")[0] for problem in problems] == [f"{sheet}:5", f"{sheet}:6"]
    assert last.startswith("courtlog: The sheet has 2 mistakes; nothing was written. Mend")


def test_a_sheet_with_mistakes_makes_no_book(home: Home) -> None:
    (home.folder / "sheet.txt").write_text("clinic X\n22\n", encoding="utf-8")
    refused(home, "sheet", "in", "sheet.txt")


def test_a_sheet_that_is_not_utf_8(kept: Home) -> None:
    sheet = kept.folder / "sheet.txt"
    sheet.write_bytes(CLINIC.replace("Bo", "Bjö").encode("latin-1"))
    problem, last = refused(kept, "sheet", "in", sheet).err.splitlines()
    assert problem.startswith(f"{sheet}:3: ")
    assert "not UTF-8" in last
    assert "Save it as UTF-8" in last


def test_a_day_that_is_in_the_book(kept: Home) -> None:
    other = kept.folder / "other.txt"
    other.write_text(HARBOUR.read_text(encoding="utf-8").replace(" 222 ", " 022 ", 1), "utf-8")
    *shown, said = refused(kept, "sheet", "in", other).err.splitlines()
    assert shown[0].startswith("1. ")
    assert "differ in 1 round (1); nothing was written" in said
    assert "--keep book" in said


@pytest.mark.parametrize(
    ("name", "said"), [("none.txt", "cannot be read"), (".", "is a folder, not a sheet")]
)
def test_a_sheet_that_is_not_there(home: Home, name: str, said: str) -> None:
    assert said in sentence(refused(home, "sheet", "in", name))


def test_a_sheet_that_is_not_there_has_a_next_step(home: Home) -> None:
    assert not sentence(refused(home, "sheet", "in", "none.txt")).endswith("directory).")


def test_a_sheet_out_never_writes_over_a_file(harbour: Home, tmp_path: Path) -> None:
    there = tmp_path / "there.txt"
    there.write_text("mine", encoding="utf-8")
    said = sentence(refused(harbour, "sheet", "out", "--to", there))
    assert str(there) in said
    assert "Name another file" in said
    assert there.read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize("to", ["none/out.txt", "."])
def test_a_sheet_out_to_a_place_that_is_none(harbour: Home, to: str) -> None:
    assert "cannot be written" in sentence(refused(harbour, "sheet", "out", "--to", to))


@pytest.mark.parametrize(
    "args",
    [["drills", "list"], ["drills", "show", "forehand/live"], ["sheet", "in", HARBOUR], ["demo"]],
)
def test_a_broken_own_drill_file_is_named_by_whoever_needs_drills(
    home: Home, args: list[str]
) -> None:
    home.drills.mkdir()
    (home.drills / "mine.toml").write_text('stroke = "lob"\ntitle = \n', encoding="utf-8")
    problem, last = refused(home, *args).err.splitlines()
    assert problem.startswith(f"{home.drills / 'mine.toml'}:2: ")
    assert last.startswith("courtlog: ")
    assert "courtlog drills check" in last


def test_a_broken_own_drill_file_does_not_hide_the_day(kept: Home) -> None:
    kept.drills.mkdir()
    (kept.drills / "mine.toml").write_text("stroke =", encoding="utf-8")
    assert kept.run("day").lines


def test_drills_check_names_every_mistake(home: Home) -> None:
    home.drills.mkdir()
    (home.drills / "a.toml").write_text("stroke =", encoding="utf-8")
    (home.drills / "b.toml").write_bytes(b"\xff\xfe")
    *problems, last = refused(home, "drills", "check").err.splitlines()
    assert [Path(p.partition(":")[0]).name for p in problems] == ["a.toml", "b.toml"]
    assert last == "courtlog: 2 mistakes."


BAD_SETTINGS = {
    "unknown": (["wind", "east"], "no setting called 'wind'", "pad, taught, clicker, theme"),
    "pad": (["pad", "feet"], "pad: ", "'right'"),
    "basket": (["basket", "many"], "basket: ", "integer"),
    "basket 0": (["basket", "0"], "basket: ", "1"),
    "bell": (["bell", "loud"], "bell: ", "boolean"),
    "no value": (["pad"], "a value after pad", ""),
    "long name": (["coach", "x" * 81], "coach: ", "80"),
}


@pytest.mark.parametrize("case", BAD_SETTINGS)
def test_a_setting_that_cannot_be(home: Home, case: str) -> None:
    args, happened, words = BAD_SETTINGS[case]
    said = sentence(refused(home, "settings", *args))
    assert happened in said
    assert words in said


@pytest.mark.parametrize("data", [b"", b"{", b'{"pad": 3}', b'{"wind": 1}', b"\xff", b"[]"])
def test_a_broken_settings_file(home: Home, data: bytes) -> None:
    home.settings.write_bytes(data)
    said = sentence(refused(home, "settings", "pad", "left"))
    assert str(home.settings) in said
    assert "Mend it, or delete it" in said
