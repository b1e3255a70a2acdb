"""`courtlog academy add`: the folder holds the newest state of each book, however it came there."""

from __future__ import annotations

import ast
import json
import re
import shutil
import signal
import sqlite3
import sys
from contextlib import closing
from itertools import permutations
from pathlib import Path
from random import Random

import pytest

from courtlog.academy.index import INDEX, read_index
from courtlog.errors import CourtlogError
from tests.academy.folders import (
    GONE,
    STATES,
    WEEKEND_BOOK,
    Content,
    add,
    files_in,
    held,
    sample_home,
)
from tests.cli.program import WEEKEND, Home
from tests.doses import dose
from tests.faults.library import MISSING, compiled
from tests.faults.runs import Runs
from tests.faults.table import older_book

BOTH = (STATES[-1], WEEKEND_BOOK)


@pytest.fixture
def home(tmp_path: Path) -> Home:
    """The four books; with nothing in the folder yet."""
    return sample_home(tmp_path / "home")


@pytest.fixture
def newest(tmp_path: Path) -> Content:
    """What the folder holds of the newest states alone."""
    other = sample_home(tmp_path / "newest")
    add(other, *BOTH)
    return held(other.folder / "academy")


def test_any_order_and_twice_is_the_same(home: Home, newest: Content) -> None:
    orders = list(permutations((*STATES, WEEKEND_BOOK)))
    for number, order in enumerate(Random(20).sample(orders, dose(4, 24))):
        folder = f"academy-{number}"
        assert home.run("academy", "add", *order, order[0], "--in", folder).lines
        assert held(home.folder / folder) == newest
        assert len(files_in(home.folder / folder)) == len(newest)


def test_an_older_state_is_told_and_changes_nothing(home: Home) -> None:
    add(home, STATES[-1])
    before = home.files()
    (line,) = add(home, STATES[0])
    assert line == "one.db: the folder holds a later state of this book, which stays."
    assert home.files() == before


def test_an_erased_player_is_in_no_file(home: Home) -> None:
    add(home, STATES[0])
    with closing(sqlite3.connect(home.folder / STATES[0])) as db:
        (player,) = db.execute("SELECT id FROM player WHERE name = ?", [GONE]).fetchone()
    assert str(player) in repr(held(home.folder / "academy"))
    add(home, STATES[-1])
    now = held(home.folder / "academy")
    erased = [rows for name, rows in now.items() if name.startswith("erased ")]
    assert erased == [[repr({"player_id": player})]]
    others = {name: rows for name, rows in now.items() if not name.startswith("erased ")}
    assert str(player) not in repr(others)
    assert len(files_in(home.folder / "academy")) == len(now)


def test_names_and_minors_stay_at_home_unless_asked_for(home: Home) -> None:
    with closing(sqlite3.connect(home.folder / STATES[0])) as db, db:
        db.execute("UPDATE player SET age_group = 'minor' WHERE name = 'Tove'")
        texts = {name for (name,) in db.execute("SELECT name FROM player")}
        texts |= {text for (text,) in db.execute("SELECT text FROM note") if " " in text}
    lines = add(home, STATES[0])
    assert lines[-1] == (
        "1 minor stayed at home with everything about them; --with-minors takes them along."
    )
    without = held(home.folder / "academy")
    assert not [text for text in texts if text in _words(without)]
    assert lines[0] == "one.db: 2440 balls in academy."
    (line,) = add(home, STATES[0], options=("--with-names", "--with-minors"))
    assert line == "one.db: 2934 balls in academy."
    everything = held(home.folder / "academy")
    assert [text for text in texts if text not in _words(everything)] == []
    add(home, STATES[0])
    assert held(home.folder / "academy") == without


def test_a_player_of_no_name_is_called_the_same_in_every_state(home: Home) -> None:
    called = []
    for state in STATES:
        add(home, state)
        called.append(
            {
                row
                for name, rows in held(home.folder / "academy").items()
                if name.startswith("player ")
                for row in rows
            }
        )
    assert called[0] == called[1]
    assert called[2] < called[0]
    assert len(called[0] - called[2]) == 1


def test_a_court_has_one_code_on_all_days_of_its_clinic_and_no_other_has_it(home: Home) -> None:
    assert home.run("sheet", "in", WEEKEND, "--book", STATES[0]).lines
    add(home, STATES[0])
    (days,) = (
        [ast.literal_eval(re.sub(r"datetime.date\([^)]*\)", "0", row)) for row in rows]
        for name, rows in held(home.folder / "academy").items()
        if name.startswith("day ")
    )
    courts = {(day["clinic_id"], day["court"]) for day in days}
    assert len(days) == 7
    assert len(courts) == len({court for _, court in courts}) == 2


def test_a_copy_that_went_on_is_a_book_of_its_own(home: Home) -> None:
    (home.folder / "copied.db").write_bytes((home.folder / STATES[0]).read_bytes())
    sheet = "clinic Lake  zone UTC\nroster Ada\n"
    (home.folder / "lake.txt").write_text(sheet, encoding="utf-8")
    assert home.run("sheet", "in", "lake.txt", "--book", "copied.db").lines
    add(home, STATES[0], "copied.db")
    assert len(read_index(home.folder / "academy").books) == 2


def test_a_book_of_an_earlier_version_stays_as_it_is(home: Home) -> None:
    older_book(home.folder / "old.db")
    before = (home.folder / "old.db").read_bytes()
    assert add(home, "old.db") == ["old.db: 0 balls in academy."]
    assert (home.folder / "old.db").read_bytes() == before


def test_a_folder_of_other_files_is_refused_and_left_alone(home: Home) -> None:
    (home.folder / "academy").mkdir()
    (home.folder / "academy" / "letters").mkdir()
    (home.folder / "academy" / "letters" / "aunt.txt").write_text("dear", encoding="utf-8")
    before = home.files()
    said = home.run("academy", "add", STATES[0], "--in", "academy")
    assert (said.code, said.err) == (
        1,
        "courtlog: The folder academy holds other files. Name a new or empty folder.\n",
    )
    assert home.files() == before


@pytest.mark.parametrize(
    "spoil",
    [
        lambda index: index.replace('"ball"', '"../ball"'),
        lambda index: index.replace('"ball"', '"ball\'; DROP TABLE x"'),
        lambda index: index.replace('"books": {\n  "', '"books": {\n  "-'),
        lambda index: index.replace('"export": "2', '"export": "../2'),
        lambda index: index[:100],
    ],
)
def test_an_index_that_courtlog_did_not_write_is_refused(home: Home, spoil: object) -> None:
    assert callable(spoil)
    add(home, STATES[0])
    path = home.folder / "academy" / INDEX
    written = path.read_text(encoding="utf-8")
    path.write_text(spoil(written), encoding="utf-8")
    assert path.read_text(encoding="utf-8") != written
    with pytest.raises(CourtlogError, match="is not an index that courtlog wrote"):
        read_index(home.folder / "academy")


def test_an_index_of_a_later_courtlog_is_refused(home: Home) -> None:
    add(home, STATES[0])
    path = home.folder / "academy" / INDEX
    path.write_text(json.dumps({"format": 2, "books": {}}), encoding="utf-8")
    with pytest.raises(CourtlogError, match="A later courtlog wrote"):
        read_index(home.folder / "academy")


@pytest.mark.terminal
def test_killed_at_any_call_the_folder_is_as_before_or_after(
    tmp_path: Path, newest: Content
) -> None:
    """Then the same command again gives what it gives undisturbed, with no other file left."""
    library = compiled()
    if library is None:
        pytest.skip(MISSING)
    words = ["academy", "add", *BOTH, "--in", "academy"]
    dice = Random(4)
    with Runs.under(library) as runs:

        def trial(number: int) -> Home:
            (tmp_path / str(number)).mkdir()
            shutil.copytree(begun.folder, tmp_path / str(number) / "home")
            return Home(tmp_path / str(number) / "home")

        begun = sample_home(tmp_path / "begun")
        (begun.folder / "tmp").mkdir()
        add(begun, STATES[0])
        home = trial(0)
        before = held(home.folder / "academy")
        calls = runs.run(home, words).calls
        assert held(home.folder / "academy") == newest
        kinds = sorted({*calls})
        if sys.platform == "win32":
            pytest.skip("no call is struck there")
        for number in range(1, dose(7, 300)):
            home = trial(number)
            kind = kinds[number % len(kinds)]
            strike = f"{kind} {dice.randint(1, calls.count(kind))} 0"
            killed = runs.run(home, words, strike)
            assert not killed.struck or killed.code == -signal.SIGKILL, killed
            _as_some_state(held(home.folder / "academy"), before, newest)
            again = runs.run(home, words, "none 0 0")
            assert again.code == 0, again.err
            assert held(home.folder / "academy") == newest, strike
            assert len(files_in(home.folder / "academy")) == len(newest), strike


def _words(content: Content) -> str:
    return "\n".join(row for rows in content.values() for row in rows)


def _as_some_state(now: Content, before: Content, after: Content) -> None:
    """Each book is wholly as before or wholly as after."""
    of_books = [
        {
            book: {name: rows for name, rows in content.items() if name.endswith(f" {book}")}
            for book in {name.split()[1] for name in content}
        }
        for content in (now, before, after)
    ]
    for book, rows in of_books[0].items():
        assert rows in (of_books[1].get(book), of_books[2].get(book))
