"""`courtlog courts`: the dealing is shown, books are whole and private, no evening asks."""

from __future__ import annotations

import errno
from pathlib import Path

import pytest

from courtlog.cli.actions.courts import dealing
from courtlog.cli.new_book import may_begin
from courtlog.logbook.exchange.courts.court_files import read_court_file
from courtlog.systems.shell_words import quoted
from tests.cli.program import Home
from tests.court import desk_in
from tests.faults.library import MISSING, compiled
from tests.faults.runs import Runs

OWN = ("This is court 2's book: set-up, cues and erasing are the head coach's.",)


def test_a_clinic_is_dealt_written_and_gathered(tmp_path: Path) -> None:
    desk_in(tmp_path, ("Maren", "Tove", "Ruben", "Aino"), drill=None).book.close()
    home = Home(tmp_path)
    mine = ("--mine", "1")
    day = ("--date", "2026-05-12", "--book", tmp_path / "book.db")
    shown = home.run("courts", "2", "--show", *day)
    assert shown.code == 0
    assert [" ".join(line.split()) for line in shown.lines] == [
        "Harbour Week, Tue 12 May, by name: each court has a stretch of the alphabet.",
        "court 1 Maren, Aino",
        "court 2 yours: Tove, Ruben",
    ]
    folder = tmp_path / "stick"
    assert not folder.exists()
    written = home.run("courts", "2", "--court", "2=Maren", *mine, "--in", folder, *day)
    assert written.code == 0, written
    assert "court 2   Maren" in written.out
    files = sorted(folder.iterdir())
    assert [(file.name, oct(file.stat().st_mode & 0o777)) for file in files] == [
        ("court-1.db", "0o600"),
        ("court-2.db", "0o600"),
    ]
    assert home.run("courts", "2", *mine, "--in", folder, *day).code == 0, (
        "nobody has written in them"
    )
    for words in (("roster", "add", "Nils"), ("erase", "Maren", "--yes"), ("courts", "2")):
        refused = home.run(*words, "--book", files[1])
        assert refused.code == 1
        assert OWN[0] in " ".join(refused.err.split())
    assert home.run("courts", "--free", "--book", files[1]).code == 0
    assert home.run("roster", "add", "Nils", "--book", files[1]).code == 0
    again = home.run("courts", "2", *mine, "--in", folder, *day)
    assert again.code == 1
    court = read_court_file(files[1])
    assert court is not None
    assert (court.own.court, court.own.owner, court.untouched) == ("2", "free", False)
    gathered = home.run("gather", *files, "--book", tmp_path / "book.db")
    assert gathered.code == 0, gathered


def test_a_kill_or_a_full_stick_leaves_nothing_half_and_the_next_run_finishes(
    tmp_path: Path,
) -> None:
    """The worst moment is between the final names of two books."""
    library = compiled()
    if library is None:
        pytest.skip(MISSING)
    home = Home(tmp_path / "home")
    (home.folder / "tmp").mkdir(parents=True)
    desk_in(home.folder, ("Maren", "Tove"), drill=None).book.close()
    stick = home.folder / "stick"
    words = ("courts", "2", "--in", str(stick), "--date", "2026-05-12", "--book", str(home.book))
    with Runs.under(library) as runs:
        full = runs.run(home, words, f"pwrite 60 {errno.ENOSPC}")
        assert f"The folder {stick} is full. Nothing was changed." in full.err
        assert list(stick.iterdir()) == []
        assert runs.run(home, words, "link 2 0").code == -9, "killed"
        whole = [path.name for path in stick.iterdir() if read_court_file(path)]
        assert whole == ["court-1.db"]
        assert home.run("courts", *words[4:]).code == 1, "the book knows of no dealing"
        assert runs.run(home, words).code == 0
    files = sorted(stick.iterdir())
    assert [path.name for path in files] == ["court-1.db", "court-2.db"]
    assert home.run("gather", stick / "court-*.db", "--book", home.book).code == 0


def test_a_wrong_answer_is_told_on_whole_words_and_asked_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    people = tuple(f"Maximiliane {'ABCDEFGHIJKL'[number]}." for number in range(12))
    desk_in(tmp_path, people, drill=None).book.close()
    answers = iter(["2=Nobody", "words", "9=Maximiliane A", "2=Maximiliane A", ""])
    monkeypatch.setattr(dealing, "has_terminal", lambda: True)
    monkeypatch.setattr("builtins.input", lambda _: next(answers))
    folder = tmp_path / "my stick"
    day = ("--date", "2026-05-12", "--book", tmp_path / "book.db")
    dealt = Home(tmp_path).run("courts", "2", "--in", folder, *day)
    assert dealt.code == 0, dealt
    for words in ("called 'Nobody'", "'words' names no players", "no court 9"):
        assert words in dealt.out
    told = dealt.out.split("called 'Nobody'")[1].splitlines()
    assert all(len(line) <= 78 for line in told[:4])
    assert f"  courtlog gather {quoted(str(folder / 'court-*.db'))}" in dealt.lines, (
        "typed as it stands"
    )


def test_a_mistyped_name_begins_no_stray_book(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("builtins.input", lambda _: pytest.fail("asked"))
    assert may_begin(tmp_path / "first.db"), "where no book lies, a first one begins unasked"
    home = Home(tmp_path)
    for folder in (tmp_path, tmp_path / "courts"):
        folder.mkdir(exist_ok=True)
        (folder / "court-1.db").write_bytes(b"a book")
    (tmp_path / "court-3.db").touch()
    assert "copying did not end" in home.run("clinic", "new", "Bay", "--book", "court-3.db").err
    (tmp_path / "court-3.db").unlink()
    refused = home.run("clinic", "new", "Bay", "--book", tmp_path / "court-2.db")
    assert refused.code == 1
    assert f"Near there: {tmp_path}/court-1.db and {tmp_path}/courts/court-1.db." in refused.err
    assert not (tmp_path / "court-2.db").exists()
    for answer, begins in (("", False), ("new", True)):
        monkeypatch.setattr("builtins.input", lambda _, answer=answer: answer)
        assert may_begin(tmp_path / "bok.db") is begins
        assert "bok.db. Books there:" in capsys.readouterr().out
    monkeypatch.setattr("builtins.input", lambda _: pytest.fail("asked"))
    assert may_begin(tmp_path / "court-1.db"), "it is there"


def test_erasing_says_that_the_other_courts_still_hold_the_person(tmp_path: Path) -> None:
    desk_in(tmp_path, ("Maren", "Tove", "Ruben"), drill=None).book.close()
    home, folder = Home(tmp_path), tmp_path / "stick"
    alone = home.run("erase", "Ruben", "--yes", "--book", tmp_path / "book.db")
    assert "still hold" not in alone.out
    day = ("--date", "2026-05-12", "--book", tmp_path / "book.db")
    assert home.run("courts", "3", "--mine", "1", "--in", folder, *day).code == 0
    erased = home.run("erase", "Tove", "--yes", "--book", tmp_path / "book.db")
    assert (
        f"The books of courts 2 and 3, and their copies in {folder}, still hold Tove:"
        " gather them, then delete them."
    ) in " ".join(erased.out.split())
