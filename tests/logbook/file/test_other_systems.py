"""What a book needs of Windows and macOS, as far as it can be tried here: branches are forced."""

from __future__ import annotations

import ast
import ctypes
import errno
import os
import runpy
import sqlite3
import sys
from collections.abc import Callable
from contextlib import closing
from pathlib import Path, PurePath, PurePosixPath, PureWindowsPath
from types import SimpleNamespace
from typing import Any
from unittest import mock

import pytest

import courtlog
from courtlog import private
from courtlog.errors import BookLockedError
from courtlog.logbook.file import read_only
from courtlog.logbook.file.open_book import create_or_open, open_existing
from courtlog.logbook.file.read_only import may_write
from courtlog.logbook.file.sqlite_uri import sqlite_uri
from tests.court import START
from tests.logbook.exchange.books import full_book

if sys.platform == "win32":
    pytest.skip("the branches of Windows need not be forced there", allow_module_level=True)

import fcntl

PACKAGE = Path(courtlog.__file__).parent


# The addresses are those of sqlite.org/uri.html, section 3.
@pytest.mark.parametrize(
    ("path", "uri"),
    [
        (PurePosixPath("/home/ines/my book#1?.db"), "file:///home/ines/my%20book%231%3F.db"),
        (PurePosixPath("/home/50%/\udcff.db"), "file:///home/50%25/%FF.db"),
        (PureWindowsPath(r"C:\Users\Inês\book.db"), "file:///C:/Users/In%C3%AAs/book.db"),
        (PureWindowsPath(r"\\club\books\book.db"), "file:////club/books/book.db"),
    ],
)
def test_a_path_becomes_an_address(path: PurePath, uri: str) -> None:
    assert sqlite_uri(path) == uri
    assert sqlite_uri(path, "mode=ro") == f"{uri}?mode=ro"


def test_a_book_on_a_share_of_the_network_is_read(tmp_path: Path) -> None:
    """SQLite here reads the share's address as a path from the top: //tmp/... is /tmp/... ."""
    path = full_book(tmp_path / "home").path
    share = PureWindowsPath("/" + str(path))
    assert share.drive.startswith("\\\\")
    with closing(sqlite3.connect(sqlite_uri(share, "mode=ro"), uri=True)) as db:
        assert db.execute("SELECT count(*) FROM ball").fetchone()[0]
    with pytest.raises(sqlite3.OperationalError, match="invalid uri authority"):
        sqlite3.connect(f"{share.as_uri()}?mode=ro", uri=True)


def test_no_address_of_a_book_is_made_another_way() -> None:
    made = [
        path.name
        for path in (PACKAGE / "logbook").rglob("*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Attribute) and node.attr == "as_uri"
    ]
    assert made == []


@pytest.mark.usefixtures("disk_waited_for")
def test_a_book_is_written_through_the_memory_of_the_drive(tmp_path: Path) -> None:
    """Elsewhere than on macOS SQLite keeps the setting, and it does nothing (sqlite.org)."""
    book = create_or_open(tmp_path / "book.db", START)
    settings = {
        name: book.db.execute(f"PRAGMA {name}").fetchone()[0]
        for name in ("journal_mode", "synchronous", "fullfsync")
    }
    assert settings == {"journal_mode": "wal", "synchronous": 2, "fullfsync": 1}
    book.close()


@pytest.mark.parametrize("refused", [False, True], ids=["a drive", "a share that knows it not"])
def test_on_macos_a_file_goes_through_the_memory_of_the_drive(
    monkeypatch: pytest.MonkeyPatch, refused: bool
) -> None:
    asked: list[object] = []

    def order(number: int, command: int) -> int:
        asked.append((number, command))
        if refused:
            raise OSError(errno.ENOTSUP, "")
        return 0

    monkeypatch.setattr(sys, "platform", "darwin")
    monkeypatch.setattr(fcntl, "F_FULLFSYNC", 51, raising=False)  # <sys/fcntl.h> of macOS
    monkeypatch.setattr(fcntl, "fcntl", order)
    monkeypatch.setattr(os, "fsync", asked.append)
    runpy.run_path(str(PACKAGE / "drafts.py"))["sync"](7)
    assert asked == [(7, 51), 7][: 1 + refused]


def test_every_file_goes_to_the_disk_the_same_way() -> None:
    places = [
        path.name
        for path in PACKAGE.rglob("*.py")
        if "os.fsync" in path.read_text(encoding="utf-8")
    ]
    assert places == ["drafts.py"]


# The numbers are those of learn.microsoft.com (processthreadsapi.h, system error codes).
@pytest.mark.parametrize(
    ("handle", "error", "code", "there"),
    [(4, 0, 259, True), (4, 0, 0, False), (None, 87, 0, False), (None, 5, 0, True)],
    ids=["running", "ended", "no such process", "of somebody else"],
)
def test_on_windows_a_process_is_asked_whether_it_has_ended(
    monkeypatch: pytest.MonkeyPatch, handle: int | None, error: int, code: int, there: bool
) -> None:
    def write_code(_handle: object, into: Any) -> int:
        into._obj.value = code
        return 1

    kernel = SimpleNamespace(
        OpenProcess=mock.Mock(return_value=handle),
        GetExitCodeProcess=write_code,
        CloseHandle=mock.Mock(),
    )
    monkeypatch.setattr(sys, "platform", "win32")
    monkeypatch.setattr(ctypes, "WinDLL", lambda *_, **__: kernel, raising=False)
    monkeypatch.setattr(ctypes, "get_last_error", lambda: error, raising=False)
    monkeypatch.setattr(os, "kill", mock.Mock(side_effect=AssertionError("it would be ended")))
    runs: Callable[[int], bool] = runpy.run_path(str(PACKAGE / "processes.py"))["runs"]
    assert runs(812) is there
    assert kernel.CloseHandle.call_count == (handle is not None)
    assert not runs(os.getpid())
    assert not runs(0)


def protected(monkeypatch: pytest.MonkeyPatch, folder: Path) -> None:
    """Make a folder a write-protected stick of Windows, where os.access says that all may be."""
    make_file = private.make_file

    def refuse(path: Path) -> int:
        if path.parent == folder:
            raise OSError(errno.EROFS, os.strerror(errno.EROFS), str(path))
        return make_file(path)

    monkeypatch.setattr(private, "make_file", refuse)
    monkeypatch.setattr(read_only, "sys", SimpleNamespace(platform="win32"))


def test_a_book_on_a_write_protected_stick_of_windows_opens_to_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = full_book(tmp_path / "stick")
    balls = made.db.execute("SELECT count(*) FROM ball").fetchone()
    path = made.path
    made.close()
    before = {file.name: file.read_bytes() for file in path.parent.iterdir()}
    protected(monkeypatch, path.parent)
    assert not may_write(path)
    book = open_existing(path, START)
    assert book.is_copy
    assert book.db.execute("SELECT count(*) FROM ball").fetchone() == balls
    with pytest.raises(BookLockedError), book.writing():
        pass
    book.close()
    assert {file.name: file.read_bytes() for file in path.parent.iterdir()} == before


def test_what_is_tried_on_windows_leaves_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = full_book(tmp_path / "stick")
    made.close()
    before = sorted(made.path.parent.iterdir())
    monkeypatch.setattr(read_only, "sys", SimpleNamespace(platform="win32"))
    assert may_write(made.path)
    assert sorted(made.path.parent.iterdir()) == before
