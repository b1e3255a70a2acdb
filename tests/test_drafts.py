"""A file is written whole under its name or not at all, and nothing stays beside it."""

from __future__ import annotations

import errno
import os
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from courtlog import drafts, processes, stale_drafts

GONE = 2**22 + 1
"""A process number that no system gives (Linux: at most 4,194,304)."""


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def draft_of(place: Path, process: int, computer: str = "") -> Path:
    """A draft that another program left, with SQLite's files in it."""
    name = f".courtlog-{computer or processes.computer()}-{process}-0a1b2c3d.new"
    (place / name).mkdir()
    for ending in ("", "-journal", "-wal", "-shm"):
        (place / name / f"draft{ending}").write_text("Maren", encoding="utf-8")
    return place / name


@pytest.mark.parametrize("ending", [ValueError, KeyboardInterrupt, SystemExit])
def test_a_draft_goes_in_every_ending(tmp_path: Path, ending: type[BaseException]) -> None:
    def write_half() -> None:
        with drafts.file_in(tmp_path) as draft:
            draft.with_name("draft-journal").touch()
            raise ending

    with pytest.raises(ending):
        write_half()
    assert names(tmp_path) == []


def test_told_to_end_a_program_removes_its_draft_first(tmp_path: Path) -> None:
    """The signal comes while a draft is open, from the program itself, so that nothing waits."""
    if sys.platform == "win32":
        pytest.skip("a signal gives a program no time there")
    words = (
        "import os, signal, sys\n"
        "from pathlib import Path\n"
        "from courtlog import drafts\n"
        "from courtlog.cli import start\n"
        "def run():\n"
        "    with drafts.file_in(Path(sys.argv[1])) as draft:\n"
        "        os.kill(os.getpid(), int(sys.argv[2]))\n"
        "        draft.rename(Path(sys.argv[1]) / 'went on')\n"
        "start._command = lambda words: run\n"
        "start.main()\n"
    )
    for number in (signal.SIGTERM, signal.SIGHUP):
        command = [sys.executable, "-c", words, str(tmp_path), str(int(number))]
        assert subprocess.run(command, check=False).returncode == 128 + number
        assert names(tmp_path) == []


def test_what_dead_programs_left_is_swept_and_nothing_else(tmp_path: Path) -> None:
    dead, ours = draft_of(tmp_path, GONE), draft_of(tmp_path, os.getpid())
    living = draft_of(tmp_path, os.getppid())
    afar, long_ago = (draft_of(tmp_path, 7, computer) for computer in ("00000001", "00000002"))
    older = tmp_path / "book-a1b2_x9z.new-journal"
    older.touch()
    for path in (long_ago, older):
        os.utime(path, (0, 0))
    (tmp_path / "book-of-songs.new").touch()
    assert {dead, ours, long_ago, older} <= {*stale_drafts.left_in(tmp_path)}
    with drafts.folder_in(tmp_path):
        assert {*names(tmp_path)} >= {living.name, afar.name, "book-of-songs.new"}
        assert not any(path.exists() for path in (dead, ours, long_ago, older))
        stale_drafts.sweep(tmp_path)
        assert len(stale_drafts.left_in(tmp_path)) == 3, "our own was swept"
    assert stale_drafts.left_in(tmp_path) == sorted([living, afar])


def test_a_planted_link_is_removed_and_not_followed(tmp_path: Path) -> None:
    mine = tmp_path / "mine"
    mine.mkdir()
    (mine / "letter").touch()
    link = tmp_path / f".courtlog-{processes.computer()}-{GONE}-0a1b2c3d.new"
    link.symlink_to(mine)
    stale_drafts.sweep(tmp_path)
    assert names(tmp_path) == ["mine"]
    assert names(mine) == ["letter"]


@pytest.mark.parametrize("refused", [None, "EPERM", "EACCES", "EINVAL", "EMLINK", "EIO", "ENOSYS"])
def test_a_new_file_is_promised_to_one(
    tmp_path: Path, refused: str | None, monkeypatch: pytest.MonkeyPatch
) -> None:
    """With hard links, and where a file system refuses them in one way or another."""
    if refused:
        monkeypatch.setattr(os, "link", refuse(getattr(errno, refused)))
    page = tmp_path / "page"
    with drafts.file_in(tmp_path) as one, drafts.file_in(tmp_path) as other:
        one.write_text("one", encoding="utf-8")
        other.write_text("other", encoding="utf-8")
        drafts.put_new(one, page)
        with pytest.raises(FileExistsError):
            drafts.put_new(other, page)
    assert page.read_text(encoding="utf-8") == "one"
    assert page.stat().st_nlink == 1
    assert names(tmp_path) == ["page"]


def refuse(number: int) -> Callable[..., None]:
    def refused(*_: object, **__: object) -> None:
        raise OSError(number, os.strerror(number))

    return refused


@pytest.mark.parametrize("call", ["open", "fsync", "mkdir"])
def test_a_new_file_is_whole_or_not_there(
    tmp_path: Path, call: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(os, call, refuse(errno.EIO))
    with pytest.raises(OSError, match="Input/output error"):
        drafts.write_new(tmp_path / "page", "words")
    monkeypatch.undo()
    assert names(tmp_path) == []


@pytest.mark.skipif(sys.platform == "win32", reason="a name is given there without links")
def test_without_hard_links_too(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "link", refuse(errno.ENOTSUP))
    monkeypatch.setattr(os, "replace", refuse(errno.EIO))
    with pytest.raises(OSError, match="Input/output error"):
        drafts.write_new(tmp_path / "page", "words")
    assert names(tmp_path) == []


def test_a_file_stays_whole_until_the_new_one_is(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    drafts.write(tmp_path / "page", "before")
    monkeypatch.setattr(os, "fsync", refuse(errno.ENOSPC))
    with pytest.raises(OSError, match="No space"):
        drafts.write(tmp_path / "page", "after")
    assert (tmp_path / "page").read_text(encoding="utf-8") == "before"
    monkeypatch.undo()
    (tmp_path / "link").symlink_to("page")
    drafts.write(tmp_path / "link", "after")
    assert (tmp_path / "link").is_symlink()
    assert (tmp_path / "page").read_text(encoding="utf-8") == "after"
    assert names(tmp_path) == ["link", "page"]


def test_a_folder_comes_whole_and_never_over_another(tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    (tmp_path / "full").mkdir()
    (tmp_path / "full" / "letter").touch()
    for name, fits in (("new", True), ("empty", True), ("full", False)):
        with drafts.folder_in(tmp_path) as draft:
            (draft / "book").mkdir()
            with drafts.on_disk(draft / "book" / "ball.csv") as file:
                file.write("id\r\n")
            if fits:
                drafts.put_folder(draft / "book", tmp_path / name)
            else:
                with pytest.raises(OSError, match="not empty"):
                    drafts.put_folder(draft / "book", tmp_path / name)
    assert names(tmp_path) == ["empty", "full", "new"]
    assert names(tmp_path / "new") == names(tmp_path / "empty") == ["ball.csv"]
    assert names(tmp_path / "full") == ["letter"]


@pytest.mark.parametrize("put", [drafts.put, drafts.put_new, drafts.put_over])
def test_a_book_whose_log_was_not_read_into_it_gets_no_name(
    tmp_path: Path, put: Callable[[Path, Path], None]
) -> None:
    before = "before" if put is not drafts.put_new else None
    if before:
        (tmp_path / "book.db").write_text(before, encoding="utf-8")
    with drafts.file_in(tmp_path) as draft:
        draft.with_name("draft-wal").write_text("rows", encoding="utf-8")
        with pytest.raises(OSError, match="Input/output"):
            put(draft, tmp_path / "book.db")
    assert names(tmp_path) == (["book.db"] if before else [])


@pytest.mark.skipif(sys.platform == "win32", reason="an open file cannot be replaced there")
def test_what_is_put_over_is_no_longer_in_the_file_it_was(tmp_path: Path) -> None:
    book = tmp_path / "book.db"
    for linked in (False, True):
        book.write_text("Maren" * 50_000, encoding="utf-8")
        if linked:
            os.link(book, tmp_path / "snapshot")
        with book.open("rb") as before, drafts.file_in(tmp_path) as draft:
            draft.write_text("someone", encoding="utf-8")
            drafts.put_over(draft, book)
            assert (b"Maren" in before.read()) == linked, "a copy of somebody else was spoilt"
        assert book.read_text(encoding="utf-8") == "someone"
