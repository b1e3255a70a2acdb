"""A clinic and its roster from the command line: what is kept, what is refused, what is private."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from rich.cells import cell_len

from courtlog.courtside.desk.desk import Desk
from courtlog.logbook.file.open_book import create_or_open
from courtlog.settings import Settings
from tests.cli.program import Home
from tests.court import LIBRARY, START, Clock
from tests.courtside.screen import on_court


@pytest.fixture
def bay(home: Home) -> Home:
    """A book with a clinic that has no day yet, and two players."""
    said = home.run("clinic", "new", "Bay", "--zone", "Europe/Lisbon", "--court", "3")
    assert "Bay is in the book, in Europe/Lisbon." in said.lines[0]
    assert home.run("roster", "add", "Maren", "--hand", "right").lines
    tove = ("Tove", "--short", "To", "--minor", "--contact", "home 7", "--limit", "120")
    assert home.run("roster", "add", *tove, "--level", "Sundays").lines
    return home


def refused(home: Home, *args: str | Path) -> str:
    """What standard error said of a command that changed nothing."""
    before = home.run("roster", "list", "--cards").out, home.run("clinic", "show").out
    said = home.run(*args)
    assert (said.code, said.out) == (1, ""), said
    assert "Traceback" not in said.err
    assert before == (home.run("roster", "list", "--cards").out, home.run("clinic", "show").out)
    return said.err


def test_the_roster_is_a_table_that_keeps_private_things_private(bay: Home) -> None:
    lines = bay.run("roster", "list").lines
    assert lines[0] == "Bay · 2 players"
    assert lines[4].split() == ["2", "Tove", "(To)", "Sundays", "120", "minor"]
    page = "\n".join(lines)
    assert "home 7" not in page
    assert "hand: To" in page
    assert "goal: everyone" in page
    assert all(cell_len(line) <= 80 for line in lines)
    assert "home 7" in "\n".join(bay.run("roster", "list", "to").lines)
    assert "home 7" in "\n".join(bay.run("roster", "list", "--cards").lines)


def test_the_court_screen_opens_the_clinic_that_was_set_up(bay: Home) -> None:
    desk = Desk(
        create_or_open(bay.book, START),
        lambda: LIBRARY,
        Settings(coach="Ines", look="close"),
        Clock(),
    )
    text = on_court(desk, ["enter", "enter", "space"])
    assert "Bay · day 1 · Tue 12 May · court 3 · coach Ines" in text
    assert "Maren   right-handed" in text


def test_a_card_changes_value_by_value(bay: Home) -> None:
    assert bay.run("roster", "edit", "to", "--name", "Tova", "--limit", "", "--adult").lines == [
        "The card of Tova is kept."
    ]
    row = bay.run("roster", "list").lines[4]
    assert row.split() == ["2", "Tova", "(To)", "Sundays"]
    assert "Nothing was said to change" in refused(bay, "roster", "edit", "Tova")
    assert "maren is on the roster already" in refused(
        bay, "roster", "edit", "Tova", "--name", "maren"
    )
    assert "There is no player called 'Cleo'" in refused(bay, "roster", "edit", "Cleo", "--adult")


def test_two_of_one_name_have_to_be_meant(bay: Home) -> None:
    assert "--another adds another person" in refused(bay, "roster", "add", "maren")
    assert bay.run("roster", "add", "Maren", "--another").lines == [
        "Maren 2 is on the roster of Bay."
    ]
    assert "More than one player fits 'Maren': Maren 1, Maren 2." in refused(
        bay, "roster", "edit", "Maren", "--adult"
    )
    assert bay.run("roster", "edit", "maren 2", "--short", "Mar").lines
    assert "Maren (Mar)" in bay.run("roster", "list").out


def test_a_player_of_an_earlier_clinic_comes_with_the_card(bay: Home) -> None:
    assert bay.run("clinic", "new", "Harbour").lines
    assert bay.run("roster", "add", "Tove", "--goal", "serve").lines == [
        "Tove is on the roster of Harbour.",
        "The card came along from Bay; --another makes it another person.",
    ]
    card = bay.run("roster", "list", "Tove").out
    assert "home 7" in card
    assert "serve" in card
    assert "120" not in card, "a limit is of one clinic"
    assert "serve" not in bay.run("roster", "list", "Tove", "--clinic", "bay").out


def test_a_clinic_is_changed_and_shown(bay: Home) -> None:
    args = ["--stations", "shadow, fence", "--order", "pairs", "--rotation-minutes", "4.5"]
    args += ["--rest-minutes", "45", "--days", "3", "--name", "Bay Week"]
    page = "\n".join(bay.run("clinic", "edit", *args).lines)
    for words in (
        "Bay Week · Europe/Lisbon · 2 players",
        "no day yet of 3 planned",
        "feed, shadow, fence",
        "pairs: ",
        "4.5 minutes",
        "every 45 minutes",
        "no WBGT line is set",
    ):
        assert words in page
    heat = ["--wbgt-modify", "28", "--wbgt-stop", "31.5", "--wbgt-rule", "Club rule"]
    page = "\n".join(bay.run("clinic", "edit", *heat, "--rotation-minutes", "").lines)
    assert "WBGT: change play at 28 °C, stop at 31.5 °C (Club rule)" in page
    assert "no clock" in page
    page = "\n".join(bay.run("clinic", "edit", "--stations", "", "--wbgt-stop", "89.6F").lines)
    assert "stop at 32 °C" in page
    assert "feed, " not in page


@pytest.mark.parametrize(
    ("args", "words"),
    [
        (["clinic", "new", "BAY"], "The book has a clinic called Bay already."),
        (["clinic", "new", " "], "A clinic's name has 1 to 80 characters."),
        (["clinic", "new", "A", "--zone", "Mars"], "is no time zone"),
        (["clinic", "new", "A", "--days", "0"], "whole number from 1 to 60, not '0'"),
        (["clinic", "edit"], "Nothing was said to change."),
        (["clinic", "edit", "--order", "x"], "The order is cyclic, williams or pairs, not 'x'."),
        (["clinic", "edit", "--stations", "a,A"], "The stations are each named once."),
        (["clinic", "edit", "--stations", ","], "The stations are 1 to 8 names"),
        (["clinic", "edit", "--rotation-minutes", "nan"], "from 0.5 to 120, not 'nan'"),
        (["clinic", "edit", "--wbgt-stop", "31"], "needs the name of the rule"),
        (
            ["clinic", "edit", "--wbgt-modify", "31", "--wbgt-stop", "28", "--wbgt-rule", "x"],
            "The stop line lies above the modify line.",
        ),
        (["roster", "add", "A", "--hand", "both"], "Hand is right or left, not 'both'."),
        (["roster", "add", "\u200b"], "A name is needed."),
        (["roster", "import", "none.csv"], "cannot be read"),
        (["roster", "import", "."], "is a folder, not a roster"),
    ],
)
def test_what_cannot_be_is_said_in_a_sentence(bay: Home, args: list[str], words: str) -> None:
    assert words in refused(bay, *args)


def test_a_roster_file_comes_in_whole_or_not_at_all(bay: Home) -> None:
    file = bay.folder / "roster.csv"
    file.write_text('name,hand\nCleo,both\nmaren,\n"An\nna",left\n', encoding="utf-8-sig")
    assert refused(bay, "roster", "import", file).splitlines() == [
        f"{file}:2: hand is right or left, not 'both'.",
        f"{file}:3: maren is on the roster already.",
        "courtlog: The roster has 2 mistakes; nothing was written."
        " Mend the file and read it in again.",
    ]
    file.write_text('name,hand\n=1+1,\n"An\nna",left\n', encoding="utf-8-sig")
    assert bay.run("roster", "import", file).lines == ["2 players came onto the roster of Bay."]
    lines = bay.run("roster", "list").lines
    assert [line[4:20].strip() for line in lines[5:7]] == ["=1+1", "An na"]


def test_a_zone_changes_while_no_ball_would_change_its_date(home: Home, harbour: Home) -> None:
    shutil.copy(harbour.book, home.book)
    assert "Europe/Madrid" in home.run("clinic", "edit", "--zone", "Europe/Madrid").lines[0]
    assert "balls of" in refused(home, "clinic", "edit", "--zone", "Pacific/Kiritimati")


def test_the_words_on_a_roster_are_never_obeyed(bay: Home) -> None:
    assert bay.run("roster", "add", "\x1b[31m[red]Bo[/]\u202e", "--goal", "\x1b[2J").lines
    out = bay.run("roster", "list").out + bay.run("roster", "list", "--cards").out
    assert not {"\x1b", "\u202e"} & set(out)
    assert "[red]Bo[/]" in out
