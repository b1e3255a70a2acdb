"""`courtlog evening FOLDER`: all that is handed out, each page as its own command prints it."""

from __future__ import annotations

import re
import stat
import unicodedata
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courtlog.logbook.reads import lookups
from courtlog.reports.evening import LONGEST, RESERVED, evening_texts, file_stems
from tests.cli.program import Home, home_with
from tests.library.clinics import NAMES
from tests.pages.drawn_books import in_book
from tests.pages.drawn_clinics import drawn_clinic, numbers
from tests.samples.generator import shipped_library


def test_an_evening_has_the_day_each_player_and_tomorrows_plan(
    harbour: Home, tmp_path: Path
) -> None:
    on = ("--date", "2026-05-12")
    folder = tmp_path / "handed out"
    lines = harbour.run("evening", folder, *on).lines
    files = sorted(folder.iterdir())
    assert sorted(lines) == [str(path) for path in files]
    names = ["Anouk", "Ilse", "Kasimir", "Maren", "Ruben", "Tove"]
    stems = sorted(["day", "plan", *map(str.casefold, names)])
    assert [path.name for path in files] == [f"{stem}.txt" for stem in stems]

    def written(stem: str) -> str:
        return (folder / f"{stem}.txt").read_text(encoding="utf-8")

    assert written("day") == harbour.run("day", *on).out
    assert written("plan") == harbour.run("plan", "--date", "2026-05-13").out
    for name in names:
        assert written(name.casefold()) == harbour.run("day", *on, "--player", name).out
    assert {stat.S_IMODE(path.stat().st_mode) for path in files} == {0o600}
    assert stat.S_IMODE(folder.stat().st_mode) == 0o700


def test_the_last_evening_has_sheets_to_take_home_and_no_plan(
    harbour: Home, tmp_path: Path
) -> None:
    folder, page = tmp_path / "last", tmp_path / "maren.html"
    harbour.run("evening", folder)
    harbour.run("takehome", "Maren", "--html", page)
    assert (folder / "maren.html").read_bytes() == page.read_bytes()
    assert len(list(folder.glob("*.html"))) == 6
    assert not (folder / "plan.txt").exists()


def test_nothing_is_written_over_and_a_refusal_leaves_nothing(
    harbour: Home, tmp_path: Path
) -> None:
    folder = tmp_path / "kept"
    folder.mkdir()
    (folder / "day.txt").write_text("mine", encoding="utf-8")
    before = Home(tmp_path).files()
    for words in ((folder,), (folder / "day.txt",), (tmp_path / "new", "--date", "2020-01-01")):
        assert harbour.run("evening", *words).code == 1
    assert Home(tmp_path).files() == before
    assert (folder / "day.txt").read_text(encoding="utf-8") == "mine"
    empty = tmp_path / "empty"
    empty.mkdir()
    assert harbour.run("evening", empty).lines


def test_two_players_of_one_name_have_a_file_each(tmp_path: Path) -> None:
    sheet = tmp_path / "sheet.txt"
    sheet.write_text(
        "clinic Two  zone UTC\nroster Bo\nroster bö\n"
        "day 2026-05-12  court 1  coach Ines\n"
        "player Bo   drill forehand/hand-feed   cues turn\n2 0 1\n",
        encoding="utf-8",
    )
    home = home_with(tmp_path, sheet)
    home.run("evening", tmp_path / "out")
    assert {path.name for path in (tmp_path / "out").iterdir()} == {
        "day.txt",
        "plan.txt",
        "bo-1.txt",
    }


ALIKE = ("Bo", "BO", "bö", "bo\u0308", "NUL.txt", "con ")
"""Names that one disk or another takes for the same, or for a device."""


@given(st.lists(NAMES | st.sampled_from([*RESERVED, *ALIKE, "../x", "..", ""]), max_size=9))
def test_a_files_name_is_safe_on_every_system_and_its_own(names: list[str]) -> None:
    stems = list(file_stems(names))
    as_a_mac_compares = {unicodedata.normalize("NFD", stem).casefold() for stem in stems}
    assert len(as_a_mac_compares) == len(names)
    for stem in stems:
        assert stem not in RESERVED
        assert 0 < len(stem) <= LONGEST + 3
        assert re.fullmatch(r"[\w\-]+|.*[^\x00-\x7f].*", stem)
        assert not set(stem) & set('\\/:*?"<>|. \0')
        assert stem.isprintable()


@pytest.mark.parametrize("number", numbers())
def test_every_drawn_evening_can_be_handed_out(tmp_path: Path, number: int) -> None:
    book, clinic = in_book(tmp_path, drawn_clinic(number))
    for on in lookups.dates(book, clinic.id):
        texts = evening_texts(book, clinic, on, shipped_library())
        assert all(texts.values())
        assert ("plan.txt" in texts) != any(name.endswith(".html") for name in texts)
