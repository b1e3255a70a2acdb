"""What the commands print, and what they say where something is missing."""

from __future__ import annotations

import importlib.util
import json
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from rich.cells import cell_len

from courtlog.academy import folder as academy_folder
from courtlog.academy.asking import ask_folder
from courtlog.academy.engine_name import EngineName
from courtlog.academy.index import INDEX, read_index
from courtlog.academy.season.season import season
from courtlog.logbook.exchange.snapshot import tables_of_today
from tests.academy.folders import STATES, WEEKEND_BOOK, add, sample_home
from tests.cli.program import Home

WIDE = 80
HOSTILE = "=\x1b[31m\u202eMaren\n| DROP"


@pytest.fixture
def home(tmp_path: Path) -> Home:
    return sample_home(tmp_path / "home")


def test_the_page_says_who_changed_and_how_sure_it_is(home: Home) -> None:
    add(home, STATES[0], options=("--with-names",))
    lines = home.run("academy", "season", "--in", "academy", "--why", "--figures").lines
    assert lines[0] == "1 clinic in 1 book: 2934 balls."
    assert lines[2] == "Harbour Week: 5 days from Mon 11 May, 6 players, 2934 balls"
    at = lines.index("    Maren, forehand")
    assert lines[at - 1 : at + 6] == [
        "  A real gain: 1 of 18 cues",
        "    Maren, forehand",
        "      Spacing: 6 of 19 balls on Monday, 17 of 20 on Friday, same feed, no",
        "      help. That is a real gain.",
        "        Better by something between a quarter and three quarters of the balls.",
        "        Chance alone makes at most 1 in 20 look so.",
        "        +0.53, from +0.23 to +0.72",
    ]
    assert "  Coaches choose who practises what, so this names no cause." in lines


@pytest.mark.parametrize("options", [(), ("--full", "--why", "--figures")])
def test_every_line_fits_and_hostile_names_are_text(home: Home, options: tuple[str, ...]) -> None:
    with closing(sqlite3.connect(home.folder / STATES[0])) as db, db:
        for table in ("player", "clinic"):
            db.execute(f"UPDATE {table} SET name = ? || name || ?", [HOSTILE, "X" * 300])
        db.execute("UPDATE day SET court = ?", [HOSTILE * 9])
    add(home, STATES[0], WEEKEND_BOOK, options=("--with-names",))
    said = home.run("academy", "season", "--in", "academy", *options)
    assert (said.code, said.err) == (0, "")
    assert [line for line in said.out.split("\n") if cell_len(line) > WIDE] == []
    assert not {"\x1b", "\u202e"} & {*said.out}


def test_no_share_is_of_nobody(home: Home) -> None:
    add(home, STATES[0], WEEKEND_BOOK)
    page = " ".join(home.run("academy", "season", "--in", "academy", "--full").out.split())
    assert "who did, and nobody went without it. Too few players to tell." in page
    assert "of 0" not in page


def test_json_has_every_line_and_change(home: Home) -> None:
    add(home, STATES[0], WEEKEND_BOOK)
    told = json.loads(home.run("academy", "season", "--in", "academy", "--json").out)
    found = ask_folder(home.folder / "academy", EngineName.DUCKDB, season)
    assert len(told["lines"]) == len(found.lines)
    assert told["lines"][0]["clinic_id"] == found.lines[0].clinic_id
    changes = [one for clinic in found.clinics for one in clinic.changes]
    assert sum(len(clinic["changes"]) for clinic in told["clinics"]) == len(changes)


def test_one_clinic_alone(home: Home) -> None:
    add(home, STATES[0], WEEKEND_BOOK, options=("--with-names",))
    words = ("academy", "season", "--in", "academy", "--clinic")
    assert home.run(*words, "harbour week").lines[0] == "1 clinic in 2 books: 2934 balls."
    said = home.run(*words, "Lake")
    assert (said.code, said.err) == (
        1,
        "courtlog: There is no clinic called 'Lake'. The folder has Harbour Week, Two-court"
        " Weekend.\n",
    )


def test_a_question_of_ones_own(home: Home) -> None:
    add(home, STATES[0], WEEKEND_BOOK)
    (home.folder / "own").mkdir()
    question = "-- Balls of each clinic.\nSELECT clinic_id, sum(balls) AS balls FROM rounds\n"
    (home.folder / "own" / "balls.sql").write_text(
        f"{question}GROUP BY clinic_id ORDER BY balls", encoding="utf-8"
    )
    by_file = home.run("academy", "ask", "own/balls.sql", "--in", "academy").lines
    by_name = home.run("academy", "ask", "balls", "--from", "own", "--in", "academy").lines
    assert by_file == by_name
    assert [line.split(",")[1] for line in by_file] == ["balls", "474", "2934"]
    told = json.loads(
        home.run("academy", "ask", "balls", "--from", "own", "--in", "academy", "--json").out
    )
    assert [one["balls"] for one in told] == [474, 2934]


def test_a_cell_is_text_to_a_spreadsheet_and_to_a_terminal(home: Home) -> None:
    add(home, STATES[0])
    (home.folder / "own.sql").write_text(
        "SELECT '=1+1' AS one, 'a,b' AS two, chr(27) || 'c' AS three", encoding="utf-8"
    )
    lines = home.run("academy", "ask", "own.sql", "--in", "academy").lines
    assert lines == ["one,two,three", '\'=1+1,"a,b",␛c']


def test_every_shipped_question_can_be_asked_by_its_name(home: Home) -> None:
    add(home, STATES[0])
    names = [line for line in home.run("academy", "questions").lines if not line.startswith(" ")]
    assert {"season", "yardsticks", "load"} <= {*names}
    for name in names:
        assert home.run("academy", "ask", name, "--in", "academy").lines


@pytest.mark.parametrize(
    ("statement", "words"),
    [
        ("SELECT nothing FROM nowhere", "The engine refuses this: "),
        ("SELECT 'a", "The engine refuses this: "),
    ],
)
def test_what_is_no_question_is_refused_in_one_line(home: Home, statement: str, words: str) -> None:
    add(home, STATES[0])
    (home.folder / "own.sql").write_text(statement, encoding="utf-8")
    said = home.run("academy", "ask", "own.sql", "--in", "academy")
    assert said.code == 1
    assert said.err.startswith(f"courtlog: {words}")
    assert said.err.count("\n") == 1


def test_a_question_changes_nothing_in_the_folder(home: Home) -> None:
    add(home, STATES[0], WEEKEND_BOOK)
    before = home.files()
    assert home.run("academy", "season", "--in", "academy").lines
    assert home.files() == before


def test_an_export_that_is_replaced_meanwhile_is_asked_again(
    home: Home, monkeypatch: pytest.MonkeyPatch
) -> None:
    add(home, STATES[0])
    replaced: list[int] = []
    people = academy_folder._people_and_clinics

    def and_meanwhile(engine: Any) -> None:
        if not replaced:
            replaced.append(1)
            add(home, STATES[-1])
        people(engine)

    monkeypatch.setattr(academy_folder, "_people_and_clinics", and_meanwhile)
    found = ask_folder(home.folder / "academy", EngineName.DUCKDB, season)
    (entry,) = read_index(home.folder / "academy").books.values()
    assert sum(clinic.balls for clinic in found.clinics) == entry.rows["ball"]


def test_a_file_that_is_gone_is_told(home: Home) -> None:
    add(home, STATES[0])
    next((home.folder / "academy" / "ball").rglob("*.parquet")).unlink()
    said = home.run("academy", "season", "--in", "academy")
    assert (said.code, said.err) == (
        1,
        "courtlog: A file that the folder's index names cannot be read. Add the books again,"
        " which writes it anew.\n",
    )


def test_a_folder_without_a_book_says_what_to_type(home: Home) -> None:
    (home.folder / "empty").mkdir()
    for folder, words in (("empty", "There is no book in"), ("none", "There is no folder")):
        said = home.run("academy", "season", "--in", folder)
        assert (said.code, said.err) == (
            1,
            f"courtlog: {words} {folder}. `courtlog academy add BOOK... --in FOLDER`\n",
        )


@pytest.mark.parametrize(
    ("missing", "words", "line"),
    [
        ("pyarrow", ("add", STATES[0]), "pip install 'courtlog[academy]'"),
        ("duckdb", ("season",), "pip install 'courtlog[academy]'"),
        ("pyspark", ("season", "--engine", "spark"), "pip install 'courtlog[spark]'"),
    ],
)
def test_without_the_extra_one_sentence_says_which_line_to_type(
    home: Home, monkeypatch: pytest.MonkeyPatch, missing: str, words: tuple[str, ...], line: str
) -> None:
    add(home, STATES[0])
    there = importlib.util.find_spec
    monkeypatch.setattr(
        importlib.util, "find_spec", lambda name: None if name == missing else there(name)
    )
    said = home.run("academy", *words, "--in", "academy")
    assert said.code == 1
    assert "which is not installed here." in said.err
    assert f"`{line}`" in said.err


LOADED = (
    "import sys\nfrom courtlog.cli.entry import main\nsys.argv[1:] = {words!r}\n"
    "try:\n    main()\nexcept SystemExit:\n    pass\n"
    "print(sorted({{'duckdb', 'pyspark', 'pyarrow'}} & {{*sys.modules}}))"
)


@pytest.mark.parametrize(
    "words",
    [["day"], ["--help"], ["academy", "--help"], ["academy", "season", "--help"]],
)
def test_nothing_else_loads_an_engine(home: Home, words: list[str]) -> None:
    (home.folder / STATES[0]).rename(home.book)
    code = LOADED.format(words=words)
    done = subprocess.run(
        [sys.executable, "-c", code],
        cwd=home.folder,
        env=home.environment(),
        capture_output=True,
        check=True,
        text=True,
    )
    assert done.stdout.splitlines()[-1] == "[]"


def test_an_index_has_a_name_that_is_never_a_table() -> None:
    assert INDEX not in {table.name for table in tables_of_today()}
