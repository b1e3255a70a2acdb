"""The doctor says what a laptop lacks, and everything but that goes on."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from courtlog.cli import laptop_notes as notes_room
from courtlog.cli.laptop_notes import laptop_notes
from courtlog.reports.layout import charts
from tests.cli.program import Home

PAGES = [["day"], ["day", "--full"], ["player", "Maren"], ["player", "Maren", "--full"]]
PAGES += [["plan"], ["takehome", "Maren"], ["player", "Maren", "--figures"]]

WITHOUT = """
import sys

class Refuse:
    def find_spec(self, name, path=None, target=None):
        if name == "plotext._kernel.tools":
            raise {error}

sys.meta_path.insert(0, Refuse())
sys.argv[:] = ["courtlog", *sys.argv[1:]]
from courtlog.cli.start import main
main()
"""


def is_drawn(line: str) -> bool:
    """Whether a line is of a chart, by its axis."""
    return "\u2524" in line or "\u2514" in line or "\u252c" in line


@pytest.mark.parametrize("words", PAGES, ids=" ".join)
def test_without_what_draws_every_page_is_the_same_but_for_its_charts(
    harbour: Home, monkeypatch: pytest.MonkeyPatch, words: list[str]
) -> None:
    drawn = harbour.run(*words)
    monkeypatch.setattr(charts, "plotext", None)
    plain = harbour.run(*words)
    assert (plain.code, plain.err) == (0, "")
    assert not any(map(is_drawn, plain.out.splitlines()))
    kept = iter(drawn.out.splitlines())  # read once, so that their order counts
    assert [line for line in plain.out.splitlines() if line not in kept] == []


def test_the_full_page_has_charts_at_all(harbour: Home) -> None:
    pages = [
        harbour.run(*words).out for words in (["day", "--full"], ["player", "Maren", "--full"])
    ]
    assert any(is_drawn(line) for page in pages for line in page.splitlines())


@pytest.mark.parametrize("error", ["ImportError('no kernel')", "OSError('no kernel.so')"])
def test_a_system_without_the_compiled_part_is_told_by_the_doctor(
    harbour: Home, error: str
) -> None:
    ended = [
        subprocess.run(
            [sys.executable, "-c", WITHOUT.format(error=error), *words],
            env=harbour.environment(),
            cwd=harbour.folder,
            capture_output=True,
            text=True,
            check=False,
        )
        for words in (["day", "--full"], ["doctor"])
    ]
    assert [(run.returncode, run.stderr) for run in ended] == [(0, ""), (0, "")]
    assert "No charts are drawn here: plotext's compiled part" in ended[1].stdout


def test_a_sound_laptop_has_no_notes(harbour: Home) -> None:
    assert harbour.run("doctor").lines == ["The book is sound."]


def test_a_disk_that_keeps_no_rights_is_told(tmp_path: Path) -> None:
    if sys.platform == "win32":
        pytest.skip("permission bits are POSIX's")
    book = tmp_path / "book.db"
    book.touch()
    book.chmod(0o644)
    assert [note[:46] for note in laptop_notes(book)] == [
        "Other users of this computer can read the book"
    ]
    book.chmod(0o600)
    assert list(laptop_notes(book)) == []


@pytest.mark.parametrize("own", [True, False], ids=["own folder", "another folder"])
def test_on_windows_a_book_has_the_rights_of_its_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, own: bool
) -> None:
    home, book = tmp_path / "Users" / "ines", tmp_path / "clinics" / "book.db"
    monkeypatch.setattr(notes_room.sys, "platform", "win32")  # type: ignore[attr-defined]
    monkeypatch.setattr(Path, "home", lambda: tmp_path if own else home)
    notes = list(laptop_notes(book))
    assert [book.parent.name in note for note in notes] == ([] if own else [True])


def test_a_plain_console_is_told_until_the_coach_wants_all_shapes(
    harbour: Home, tmp_path: Path
) -> None:
    own = tmp_path / "settings.json"
    for marks, is_told in (("auto", True), ("shapes", False)):
        own.write_text(f'{{"marks": "{marks}"}}', encoding="utf-8")
        plain = "" if sys.platform == "win32" else "linux"
        said = harbour.run("doctor", TERM=plain, WT_SESSION="", COURTLOG_SETTINGS=str(own))
        assert ("plain console" in said.out) == is_told
