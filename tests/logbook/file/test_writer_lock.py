"""Who writes in a book: one at a time, said by name, and taken over when that one is gone."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from dataclasses import asdict
from pathlib import Path

import pytest

from courtlog.errors import HeldElsewhereError
from courtlog.logbook.file import writer_lock
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.file.writer_lock import UNKNOWN, LockOwner, WriterLock
from tests.court import START
from tests.logbook.exchange.books import book_of_version, full_book

INES = LockOwner("Ines", "court-laptop", 812, START)
TOVE = LockOwner("Tove", "court-laptop", 813, START)
AWAY = LockOwner("Ruben", "clubhouse", 7, START)

HOLDS = """
import sys
from pathlib import Path
from courtlog.logbook.file.writer_lock import UNKNOWN, LockOwner, WriterLock
assert WriterLock(Path(sys.argv[1]), LockOwner("Ines", "court-laptop", 812, 0)).take()
print("held", flush=True)
sys.stdin.read()
"""


def left_behind(book: Path, by: LockOwner) -> None:
    """The file of a holder that did not close the book."""
    WriterLock(book, by).path.write_text(json.dumps(asdict(by)), encoding="utf-8")


def test_the_second_hears_who_has_it_and_gets_it_when_the_first_lets_go(tmp_path: Path) -> None:
    book = tmp_path / "book.db"
    first, second = WriterLock(book, INES), WriterLock(book, TOVE)
    assert first.take()
    assert not second.take()
    assert second.other_owner == INES
    with pytest.raises(HeldElsewhereError, match=r"^Ines on court-laptop \(process 812\) since "):
        second.check()
    first.release()
    assert not first.path.exists()
    assert second.take()
    second.check()
    assert not first.take()
    assert first.other_owner == TOVE


def test_a_holder_that_was_killed_is_followed_at_once(tmp_path: Path) -> None:
    book = tmp_path / "book.db"
    program = subprocess.Popen(
        [sys.executable, "-c", HOLDS, str(book)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    assert program.stdout is not None
    assert program.stdout.readline() == "held\n"
    second = WriterLock(book, TOVE)
    assert not second.take()
    program.kill()
    program.communicate()
    assert second.path.exists()
    assert second.take()


def test_a_computer_that_may_be_gone_is_asked_about(tmp_path: Path) -> None:
    book = tmp_path / "book.db"
    left_behind(book, AWAY)
    claim = WriterLock(book, INES)
    assert not claim.take()
    assert (claim.stale_owner, claim.other_owner) == (AWAY, None)
    with pytest.raises(HeldElsewhereError, match="was not closed by Ruben on clubhouse"):
        claim.check()
    assert claim.take(anyway=True)


@pytest.mark.parametrize(
    "words",
    [b"", b"not JSON", b"[]", b'{"who": 1}', b"\xff\xfe", json.dumps({"who": "x"}).encode()],
)
def test_words_that_cannot_be_read_keep_nobody_out(tmp_path: Path, words: bytes) -> None:
    book = tmp_path / "book.db"
    (tmp_path / "book.db-holder").write_bytes(words)
    first, second = WriterLock(book, INES), WriterLock(book, TOVE)
    assert first.take()
    first.path.write_bytes(words)
    assert not second.take()
    assert second.other_owner == UNKNOWN


def test_without_locks_a_living_process_of_this_computer_counts(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_locks(file: int) -> None:
        raise OSError(95, "Operation not supported")

    monkeypatch.setattr(writer_lock, "_lock", no_locks)
    book = tmp_path / "book.db"
    parent = LockOwner("Ines", "court-laptop", 1, START)
    left_behind(book, parent)
    claim = WriterLock(book, TOVE)
    assert not claim.take()
    assert claim.other_owner == parent
    ended = subprocess.Popen([sys.executable, "-c", ""])
    ended.wait()
    for gone in (ended.pid, os.getpid()):  # this program has got a dead one's number
        left_behind(book, LockOwner("Ines", "court-laptop", gone, START))
        claim = WriterLock(book, TOVE)
        assert claim.take(), gone
        claim.release()


def test_a_book_that_is_held_is_read_and_not_written(tmp_path: Path) -> None:
    path = tmp_path / "book.db"
    first, second = create_or_open(path, START, INES), create_or_open(path, START, TOVE)
    assert (first.read_only, second.read_only) == (False, True)
    with pytest.raises(HeldElsewhereError), second.writing() as db:
        db.execute("INSERT INTO coach VALUES (1, 'nobody')")
    with first.writing() as db:
        db.execute("INSERT INTO coach VALUES (1, 'Ines')")
    assert second.db.execute("SELECT name FROM coach").fetchall() == [("Ines",)]
    first.close()
    assert second.lock is not None
    assert second.lock.take()
    with second.writing() as db:
        db.execute("DELETE FROM coach")
    second.close()
    assert [file.name for file in tmp_path.iterdir()] == ["book.db"]


def test_a_book_is_not_brought_up_under_the_hands_of_another(tmp_path: Path) -> None:
    path = book_of_version(full_book(tmp_path / "today"), tmp_path / "book.db", 1)
    first = WriterLock(path, INES)
    assert first.take()
    with pytest.raises(HeldElsewhereError):
        create_or_open(path, START, TOVE)


def test_ids_go_on_behind_those_of_another_program(tmp_path: Path) -> None:
    path = tmp_path / "book.db"
    one, other = create_or_open(path, START), create_or_open(path, START)
    for _ in range(3):
        for book in (one, other):
            with book.writing() as db:
                for _ in range(5):
                    new = book.ids.next(START)
                    db.execute("INSERT INTO coach VALUES (?, ?)", [new, f"coach {new}"])
    assert one.db.execute("SELECT count(*) FROM coach").fetchone() == (30,)


def test_who_has_not_yet_said_a_name_is_told_without_a_time() -> None:
    assert UNKNOWN.words() == "another program on a computer that did not say its name"
