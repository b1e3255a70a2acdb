"""`courtlog paper` prints the sheets, or writes them to a new file only its owner can read."""

from __future__ import annotations

import os
import re
from pathlib import Path

import pytest
from typer.core import TyperGroup
from typer.main import get_command

from courtlog.cli.commands.paper import paper_app
from tests.cli.program import HARBOUR, Home, home_with


@pytest.fixture(scope="module")
def harbour(tmp_path_factory: pytest.TempPathFactory) -> Home:
    """A home with the five-day sample."""
    return home_with(tmp_path_factory.mktemp("harbour"), HARBOUR)


def test_alone_it_prints_the_court_sheets(harbour: Home) -> None:
    lines = harbour.run("paper", "--date", "2026-05-14").lines
    assert lines[0].endswith(" · Harbour Week · day 4 · Thu 14 May")
    assert harbour.run("paper", "court", "--date", "2026-05-14").lines == lines
    assert harbour.run("paper", "--date", "2026-05-14", "court").lines == lines


def test_without_a_date_it_is_the_day_of_the_plan(harbour: Home) -> None:
    planned = harbour.run("plan").lines[0].split(" · ")
    printed = harbour.run("paper").lines[0].split(" · ")
    assert printed[2] in planned[1]
    assert planned[2].startswith(printed[3])


def test_spare_rounds_and_players_are_asked_for(harbour: Home) -> None:
    one = harbour.run("paper", "--player", "mar", "--date", "2026-05-14", "--spare", "3").lines
    assert sum("· spare round ·" in line for line in one) in (3, 4)
    assert all("Tove" not in line for line in one)
    less = harbour.run("paper", "--spare", "3", "court", "--date", "2026-05-14", "--spare", "0")
    assert "spare" not in less.out


@pytest.mark.parametrize("kind", ["court", "cues", "home"])
def test_html_goes_to_a_new_file_and_never_over_another(
    harbour: Home, tmp_path: Path, kind: str
) -> None:
    page = tmp_path / "page.html"
    assert harbour.run("paper", kind, "--html", page).lines == []
    text = page.read_text(encoding="utf-8")
    assert text.startswith("<!DOCTYPE html>")
    if os.name == "posix":
        assert page.stat().st_mode & 0o777 == 0o600
    again = harbour.run("paper", kind, "--html", page)
    assert (again.code, again.out) == (1, "")
    assert "cannot be written (File exists). Name another file." in again.err
    assert page.read_text(encoding="utf-8") == text


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--player", "Nobody"), "There is no player called 'Nobody'."),
        (("cues", "--player", "Nobody"), "There is no player called 'Nobody'."),
        (("home", "--player", "Nobody"), "There is no player called 'Nobody'."),
        (("--date", "2026-13-01"), "'2026-13-01' is no date."),
        (("--date", "1999-05-12"), "A sheet's code cannot hold the date 1999-05-12."),
        (("--date", "2026-06-01", "--spare", "0"), "There is no round to print."),
    ],
)
def test_a_refusal_is_one_sentence(harbour: Home, arguments: tuple[str, ...], said: str) -> None:
    refused = harbour.run("paper", *arguments)
    assert (refused.code, refused.out) == (1, "")
    assert said in refused.err
    assert refused.err.count("\n") == 1


@pytest.mark.parametrize("kind", ["court", "home", "form"])
def test_each_players_sheet_begins_a_page_of_the_printer(harbour: Home, kind: str) -> None:
    pages = harbour.run("paper", kind).out.split("\f")
    codes = [re.findall(r"\b[0-9A-Y]{3}(?:-[0-9A-Y]{3}){2}\b", page) for page in pages]
    assert all(codes)
    names = {re.split(" · |, |\n", page)[1 if kind == "home" else 0] for page in pages}
    assert len(names) == 6 <= len(pages)
    assert all(page.endswith("\n") for page in pages)
    assert all(len(page.splitlines()) <= 60 for page in pages)


VALUES = {
    "date": "2026-05-14",
    "player": "Maren",
    "spare": "3",
    "blank": "2",
    "html": "page.html",
    "clinic": "Harbour Week",
    "book": "",
    "code": "K7D-3MX-2P4",
}
"""A value that prints another page than none, by parameter; of `book` it is the book itself."""

_COMMAND = get_command(paper_app)
assert isinstance(_COMMAND, TyperGroup)
GROUP: TyperGroup = _COMMAND
ALONE = {"court": GROUP, **GROUP.commands}
"""Every kind by its name; a kind that is not named prints court sheets."""

BEFORE = [
    (kind, parameter.name, parameter.opts[0])
    for kind in GROUP.commands
    for parameter in GROUP.params
    if parameter.name in VALUES
]
"""Every option before every kind."""


def test_every_option_of_paper_has_a_value_here() -> None:
    """A new option has to be tried, too."""
    names = {
        parameter.name
        for command in ALONE.values()
        for parameter in command.params
        if parameter.expose_value
    }
    assert names == VALUES.keys()


@pytest.mark.parametrize(("kind", "name", "option"), BEFORE)
def test_an_option_before_a_kind_is_used_as_after_it_or_refused(
    harbour: Home, tmp_path: Path, kind: str, name: str, option: str
) -> None:
    value = {"html": tmp_path / "page.html", "book": harbour.book}.get(name, VALUES[name])
    rest = (VALUES["code"],) if kind == "in" else ()
    before = harbour.run("paper", option, value, kind, *rest)
    known = {parameter.name for parameter in GROUP.commands[kind].params}
    if name not in known:
        assert (before.code, before.out) == (1, "")
        assert before.err.startswith(f"courtlog: `courtlog paper {kind}` does not use {option}. ")
        assert before.err.count("\n") == 1
        return
    if name == "html":
        assert (before.code, before.out) == (0, "")
        (tmp_path / "page.html").rename(tmp_path / "before.html")
        harbour.run("paper", kind, option, value)
        written = [(tmp_path / file).read_text() for file in ("before.html", "page.html")]
        assert written[0] == written[1]
        return
    after = harbour.run("paper", kind, option, value, *rest)
    assert (before.code, before.out, before.err) == (after.code, after.out, after.err)
    if name in ("date", "player", "spare"):
        assert before.out != harbour.run("paper", kind).out
