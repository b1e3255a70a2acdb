"""What the program writes is its owner's alone, whatever the umask it was started with."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from courtlog import drafts
from courtlog.settings import Settings, write
from tests.cli.program import HARBOUR, Home
from tests.court import desk_in, feed, open_book

pytestmark = pytest.mark.skipif(os.name != "posix", reason="permission bits are POSIX's")


@pytest.fixture
def careless() -> Iterator[None]:
    """A shell in which new files are open to everybody."""
    before = os.umask(0)
    yield
    os.umask(before)


def loose(folder: Path) -> dict[str, str]:
    """Files and folders under this one that somebody else could look into."""
    return {
        str(path.relative_to(folder)): oct(path.stat().st_mode & 0o777)
        for path in folder.rglob("*")
        if path.stat().st_mode & 0o077
    }


@pytest.mark.usefixtures("careless")
def test_every_file_and_folder_is_private(home: Home) -> None:
    env = {
        "COURTLOG_BOOK": str(home.folder / "data/deep/book.db"),
        "COURTLOG_SETTINGS": str(home.folder / "conf/deep/settings.json"),
    }
    for words in (
        ["sheet", "in", HARBOUR],
        ["settings", "pad", "left"],
        ["settings", "coach", "Ines"],
        ["takehome", "Maren", "--html", "maren.html"],
        ["sheet", "out", "--to", "sheet.txt"],
    ):
        assert home.run(*words, **env).code == 0, words
    assert len([path for path in home.folder.rglob("*") if path.is_file()]) >= 4
    assert loose(home.folder) == {}


@pytest.mark.usefixtures("careless")
def test_the_files_beside_an_open_book_are_private(tmp_path: Path) -> None:
    desk = desk_in(tmp_path / "new" / "folder")
    feed(desk, "_21")
    assert {path.name for path in desk.book.path.parent.iterdir()} == {
        "book.db",
        "book.db-wal",
        "book.db-shm",
    }
    assert loose(tmp_path) == {}


@pytest.mark.usefixtures("careless")
def test_a_book_and_settings_left_open_are_closed_at_the_next_use(tmp_path: Path) -> None:
    book, settings = tmp_path / "book.db", tmp_path / "settings.json"
    book.touch()
    settings.touch()
    open_book(tmp_path).close()
    write(settings, Settings())
    assert loose(tmp_path) == {}


@pytest.mark.usefixtures("careless")
def test_a_new_file_replaces_nothing_and_follows_no_link(tmp_path: Path) -> None:
    target = tmp_path / "elsewhere.txt"
    target.write_text("mine", encoding="utf-8")
    (tmp_path / "page.html").symlink_to(target)
    with pytest.raises(FileExistsError):
        drafts.write_new(tmp_path / "page.html", "other")
    assert target.read_text(encoding="utf-8") == "mine"
