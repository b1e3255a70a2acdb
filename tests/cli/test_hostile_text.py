"""Text is text on every printed page: nothing in a name, note or drill is obeyed by a terminal."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from rich.cells import cell_len

from tests.cli.program import Home, Said
from tests.library.shelf import ladder, put

ESC = "\x1b[2J\x1b[31m"
BAD = f"{ESC}[red]Bo[/red]\u202e\u200b\x07\x9b1m\r\n=1+1"
LONG = "Maximiliana " * 12
WIDE = "木村花" * 20

CONTROLS = {*map(chr, range(0x20)), *map(chr, range(0x7F, 0xA0)), "\u202e", "\u200b"} - {"\n"}


def sheet(name: str, days: int = 1) -> str:
    """A clinic in which every text that a coach can write is this one."""
    text = json.dumps(name)
    lines = [f"clinic {text}  zone UTC", f"roster {text}  hand left"]
    for day in range(1, days + 1):
        lines += [
            f"day 2026-05-{day:02}  court {text}  coach {text}",
            f"checkin {text}  pain {text} 3  effort 5  note {text}",
            f"player {text}  drill forehand/live  cues turn spacing finish  time 09:00-09:10",
            f"222@09:01:00 {text} " + "220 122 12- 022 222! . " * 2,
            f"note {text}",
            f"pain {text} 4  note {text}",
        ]
    return "\n".join(lines)


def filled(home: Home, name: str, days: int = 1) -> Said:
    (home.folder / "sheet.txt").write_text(sheet(name, days), encoding="utf-8")
    return home.run("sheet", "in", "sheet.txt")


def obeyed(text: str) -> set[str]:
    """Characters of this text that a terminal could obey."""
    return {character for character in text if character in CONTROLS}


@pytest.mark.parametrize("command", ["day", "trend", "sheet out", "day --player"])
def test_a_page_obeys_nothing(home: Home, command: str) -> None:
    filled(home, BAD)
    name = [BAD] if command in ("trend", "day --player") else []
    page = "\n".join(home.run(*command.split(), *name).lines)
    assert obeyed(page) == set()
    assert "[red]Bo[/red]" in page


def test_reading_a_sheet_in_obeys_nothing(home: Home) -> None:
    assert obeyed(filled(home, BAD).out) == set()


def test_settings_obey_nothing(home: Home) -> None:
    assert obeyed(home.run("settings", "coach", ESC).out) == set()


def test_json_obeys_nothing(home: Home) -> None:
    filled(home, BAD)
    said = home.run("day", "--json")
    assert json.loads(said.out)["clinic"] == BAD
    assert obeyed(said.out) == set()


@pytest.mark.parametrize(
    "args", [["trend", BAD], ["day", "--clinic", BAD], ["drills", "show", BAD]]
)
def test_a_refusal_obeys_nothing(harbour: Home, args: list[str]) -> None:
    said = harbour.run(*args)
    assert said.code == 1
    assert said.err.count("\n") == 1
    assert obeyed(said.err) == set()


def own_drill(home: Home) -> Path:
    hostile = json.dumps(ESC + "x")
    text = ladder("lob")
    for field in ("waist high", "A drill", "feel it", "basket", "Feed. Watch.", "It is there."):
        text = text.replace(f'"{field}"', hostile)
    return put(home.drills, lob=text)


def test_a_list_of_own_drills_obeys_nothing(home: Home) -> None:
    own_drill(home)
    assert obeyed("\n".join(home.run("drills", "list", "lob").lines)) == set()


def test_an_own_drill_obeys_nothing(home: Home) -> None:
    own_drill(home)
    assert obeyed("\n".join(home.run("drills", "show", "lob/first").lines)) == set()


@pytest.mark.parametrize("name", [LONG, WIDE], ids=["long", "wide"])
@pytest.mark.parametrize("command", ["day", "trend"])
def test_long_names_and_many_days_fit(home: Home, name: str, command: str) -> None:
    filled(home, name, days=20)
    lines = home.run(command, *([name] if command == "trend" else [])).lines
    assert [line for line in lines if cell_len(line) > 80] == []


def test_a_removal_obeys_nothing(home: Home) -> None:
    filled(home, BAD)
    asked = home.run("erase", BAD)
    assert (asked.code, obeyed(asked.err)) == (1, set())
    said = home.run("erase", BAD, "--yes")
    assert (said.code, obeyed(said.out)) == (0, set())


def test_a_second_rating_obeys_nothing(home: Home) -> None:
    (home.folder / "sheet.txt").write_text(
        f"clinic {json.dumps(BAD)}  zone UTC\nday 2026-05-12  coach {json.dumps(BAD)}\n"
        "player Ada  drill forehand/live  cues turn spacing finish\n222@09:00:07\n",
        encoding="utf-8",
    )
    assert home.run("sheet", "in", "sheet.txt").code == 0
    (home.folder / "again.txt").write_text(f"09:00:07 Ada 222\n{BAD} 1\n", encoding="utf-8")
    wrong = home.run("agree", "in", "again.txt", "--coach", BAD)
    assert (wrong.code, obeyed(wrong.err)) == (1, set())
    (home.folder / "again.txt").write_text("09:00:07 Ada 222\n", encoding="utf-8")
    assert obeyed(home.run("agree", "in", "again.txt", "--coach", BAD).out) == set()
    page = home.run("agree")
    assert obeyed(page.out) == set()
    assert [line for line in page.lines if cell_len(line) > 80] == []
    assert obeyed(home.run("agree", "--json").out) == set()
