"""The book that was named is the book that is used, wherever on the line it was named."""

from __future__ import annotations

import socket
from pathlib import Path

import pytest

from courtlog.logbook.exchange import import_folder as importing
from courtlog.logbook.exchange.import_folder import Import, import_folder
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.writer_lock import LockOwner, WriterLock
from tests.cli.program import PROGRAM, Home

SHEET = "clinic Bay  zone UTC\nday 2026-05-11\nplayer Ada  drill forehand/shadow\n222 220\n"


def test_a_book_named_before_the_command_is_used(home: Home) -> None:
    (home.folder / "bay.txt").write_text(SHEET)
    home.run("--book", "other.db", "sheet", "in", "bay.txt")
    assert not home.book.exists()
    assert "Ada   2 balls" in home.run("--book", "other.db", "day", "--full").out
    assert "Ada   2 balls" in home.run("day", "--full", "--book", "other.db").out


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no full device here")
@pytest.mark.parametrize("command", ["day", "version", "drills list", "--help"])
def test_a_full_disk_behind_a_page_is_one_sentence(home: Home, command: str) -> None:
    (home.folder / "bay.txt").write_text(SHEET)
    home.run("sheet", "in", "bay.txt")
    shell = ["sh", "-c", 'exec "$@" >/dev/full', "sh"]
    done = home.run(*command.split(), program=[*shell, *PROGRAM])
    assert done.code == 1
    assert "Traceback" not in done.err
    assert "could not be written" in done.err


def test_a_link_is_the_book_that_it_leads_to(home: Home) -> None:
    """One lock, one folder of backups and one file to replace, by whatever name it is opened."""
    (home.folder / "bay.txt").write_text(SHEET)
    (home.folder / "stick").mkdir()
    home.run("--book", "stick/real.db", "sheet", "in", "bay.txt")
    home.book.symlink_to("stick/real.db")
    (home.folder / "again.db").symlink_to(home.book)
    held = WriterLock(
        home.folder / "stick" / "real.db", LockOwner("Ines", socket.gethostname(), 1, 0)
    )
    assert held.take()
    for name in (home.book, home.folder / "again.db"):
        assert "Ines on" in home.run("--book", name, "erase", "Ada", "--yes").err
    held.release()
    made = home.run("backup").lines[0].partition(" holds")[0]
    assert Path(made).parent == home.folder / "stick" / "backups"
    assert home.run("--book", "again.db", "restore", Path(made).name).lines
    assert home.book.is_symlink()
    assert not (home.folder / "stick" / "real.db").is_symlink()
    assert "Ada   2 balls" in home.run("day", "--full").out
    assert not (home.folder / "backups").exists()


def test_a_link_that_leads_nowhere_yet_begins_the_book_there(home: Home) -> None:
    (home.folder / "bay.txt").write_text(SHEET)
    (home.folder / "stick").mkdir()
    home.book.symlink_to("stick/real.db")
    assert home.run("sheet", "in", "bay.txt").lines
    assert home.book.is_symlink()
    assert (home.folder / "stick" / "real.db").is_file()


@pytest.mark.parametrize("kind", ["link", "second name"])
@pytest.mark.parametrize("words", [["erase", "Ada", "--yes"], ["sheet", "in", "bay.txt"]])
def test_a_link_in_the_locks_place_is_never_written_through(
    home: Home, kind: str, words: list[str]
) -> None:
    (home.folder / "bay.txt").write_text(SHEET)
    home.run("sheet", "in", "bay.txt")
    other = home.folder / "letter.txt"
    other.write_text("Dear Ada", encoding="utf-8")
    lock = home.folder / "book.db-holder"
    lock.symlink_to(other) if kind == "link" else lock.hardlink_to(other)
    refused = home.run(*words)
    assert refused.code == 1
    assert "is a link to another file" in refused.err
    assert other.read_text(encoding="utf-8") == "Dear Ada"
    assert "Ada   2 balls" in home.run("day", "--full").out


@pytest.mark.parametrize("good", [True, False], ids=["a good folder", "a wrong last line"])
def test_an_import_never_takes_away_what_others_began_meanwhile(
    home: Home, monkeypatch: pytest.MonkeyPatch, good: bool
) -> None:
    (home.folder / "bay.txt").write_text(SHEET)
    home.run("--book", "other.db", "sheet", "in", "bay.txt")
    assert home.run("--book", "other.db", "export", "out").lines
    if not good:
        with (home.folder / "out" / "rating.csv").open("a", encoding="utf-8") as file:
            file.write("1,9,9\r\n")

    def at_the_same_time(book: Book, folder: Path) -> Import:
        assert home.run("sheet", "in", "bay.txt").lines
        return import_folder(book, folder)

    monkeypatch.setattr(importing, "import_folder", at_the_same_time)
    refused = home.run("import", "out")
    assert refused.code == 1
    assert ("Another program began the book" in refused.err) == good
    assert "Ada   2 balls" in home.run("day", "--full").out
    assert sorted(path.name for path in home.folder.glob("*.db*")) == ["book.db", "other.db"]
