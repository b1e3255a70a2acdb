"""Backups: whole, private, never two alike, never in the way of the coach."""

from __future__ import annotations

import os
import sqlite3
import stat
from contextlib import closing
from pathlib import Path

import pytest

from courtlog.coaching.game.cards import PlayerCard
from courtlog.errors import BookError, BookLockedError, NotABookError
from courtlog.logbook.file import backups, copying, restoring
from courtlog.logbook.file.writer_lock import LockOwner
from courtlog.logbook.writes import erasing
from courtlog.logbook.writes.people_writer import PeopleWriter
from tests.court import START, desk_in, feed, open_book, player, written
from tests.court import again as desk_again

ME = LockOwner("Ines", "laptop", 1, START)


def kept(folder: Path) -> list[str]:
    """Names of the backups of the book in that folder."""
    return [path.name for path in backups.backup_paths(folder / "backups")]


def balls_in(path: Path) -> int:
    """Taken balls, asked of SQLite itself."""
    with closing(sqlite3.connect(path)) as db:
        assert db.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        return int(db.execute("SELECT count(*) FROM ball WHERE taken").fetchone()[0])


def test_a_backup_is_the_book_in_one_private_file(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "222 2-1!/ 0")
    assert backups.make_backups(desk.book.path, "", START) == []
    (path,) = backups.backup_paths(tmp_path / "backups")
    assert path.name.endswith("-20260512T073000.db")
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert stat.S_IMODE(path.parent.stat().st_mode) == 0o700
    assert sorted(path.parent.iterdir()) == [path]
    with closing(sqlite3.connect(path)) as copy:
        assert list(copy.iterdump()) == list(desk.book.db.iterdump())
    copied = backups.read_backup(path)
    assert (copied.at_ms, copied.contents.balls, copied.size) == (START, 2, path.stat().st_size)


def test_never_two_alike_in_a_row(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    first = backups.make_backup(desk.book.path, START)
    assert backups.make_backup(desk.book.path, START + 5000) == (first and first[0], False)
    desk.balls.note("a note and no key")
    again = backups.make_backup(desk.book.path, START + 9000)
    assert again is not None
    assert again[1]
    assert len(kept(tmp_path)) == 2


def test_the_last_fourteen_are_kept_and_a_half_made_one_goes(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    dead = tmp_path / "backups" / "book-dead_one.new"
    dead.parent.mkdir()
    dead.touch()
    os.utime(dead, (0, 0))
    other = tmp_path / "backups" / "book-000001-20200101T000000.db"
    other.touch()
    for _ in range(backups.KEPT + 3):
        feed(desk, "_")
        backups.make_backup(desk.book.path, START)  # a clock that stands still gives no name twice
    names = [name for name in kept(tmp_path) if name != other.name]
    assert len(names) == len(set(names)) == backups.KEPT
    assert [balls_in(dead.parent / name) for name in names] == list(range(4, 4 + backups.KEPT))
    assert other.exists(), "the backups of another book are not this one's to remove"
    assert not dead.exists()


def test_many_copies_of_one_day_leave_those_of_the_days_before(tmp_path: Path) -> None:
    """Three days with two backups each, then a day that reads the stick twenty times."""
    desk, day = desk_in(tmp_path), 86_400_000
    moments = [START + back * day + hour for back in (-3, -2, -1) for hour in (0, 9 * 3_600_000)]
    moments += [START + minute * 60_000 for minute in range(20)]
    for at_ms in moments:
        feed(desk, "_")
        backups.make_backup(desk.book.path, at_ms)
    left = [copying.moment_of(path) for path in backups.backup_paths(tmp_path / "backups")]
    assert left == moments[:6] + moments[-8:]


def test_a_book_without_a_clinic_is_not_worth_a_backup(tmp_path: Path) -> None:
    book = open_book(tmp_path)
    assert backups.make_backup(book.path, START) is None
    assert kept(tmp_path) == []


def test_keys_between_two_steps_neither_wait_nor_get_in(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "__")
    monkeypatch.setattr(copying, "PAGES", 3)
    steps = []

    def fed_meanwhile() -> bool:
        steps.append(1)
        feed(desk, "_")
        return False

    made = backups.make_backup(desk.book.path, START, fed_meanwhile)
    assert made is not None
    assert len(steps) > 10, "each step would have begun anew"
    assert balls_in(made[0]) == 2
    assert balls_in(desk.book.path) == 2 + len(steps)


def test_copying_stops_when_told_and_leaves_nothing(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    assert backups.make_backup(desk.book.path, START, lambda: True) is None
    assert list((tmp_path / "backups").iterdir()) == []


def test_a_backup_that_fails_is_a_sentence_and_leaves_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk = desk_in(tmp_path)

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    (said,) = backups.make_backups(desk.book.path, "", START)
    assert said == "No backup could be made (No space left on device). The book itself goes on."
    assert list((tmp_path / "backups").iterdir()) == []


def test_a_folder_that_cannot_be_made_is_a_sentence(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    (tmp_path / "backups").write_text("in the way")
    (said,) = backups.make_backups(desk.book.path, "", START)
    assert said.startswith("No backup could be made")


def test_a_second_place_gets_the_same_file_once_it_is_there(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    stick = tmp_path / "stick"
    (said,) = backups.make_backups(desk.book.path, str(stick), START)
    assert "is not there; the backup beside the book is there." in said
    assert not stick.exists()
    stick.mkdir()
    assert backups.make_backups(desk.book.path, str(stick), START) == []
    (one,), (other,) = backups.backup_paths(tmp_path / "backups"), backups.backup_paths(stick)
    assert one.read_bytes() == other.read_bytes()
    assert stat.S_IMODE(other.stat().st_mode) == 0o600


def test_a_book_comes_back_and_what_it_replaced_is_kept(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "222 000")
    made = backups.make_backup(desk.book.path, START)
    assert made is not None
    feed(desk, "111 1")
    desk.rounds.start()
    feed(desk, "_")
    desk.book.close()
    lost = restoring.loss(desk.book.path, made[0])
    assert lost is not None
    assert lost.words() == "3 balls, 1 round and 6 keys"
    replaced = restoring.restore(desk.book.path, made[0], ME)
    assert replaced is not None
    assert (balls_in(desk.book.path), balls_in(replaced)) == (2, 5)
    reopened = desk_again(desk)
    restored = reopened.view.live
    assert restored is not None
    assert written(restored.feeding) == "222 000"
    assert restoring.loss(desk.book.path, made[0]) == restoring.Loss()


def test_a_book_that_is_open_elsewhere_is_not_replaced(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    made = backups.make_backup(desk.book.path, START)
    assert made is not None
    feed(desk, "_")
    with pytest.raises(BookLockedError, match="Another window"):
        restoring.restore(desk.book.path, made[0], ME)
    feed(desk, "_")
    assert balls_in(desk.book.path) == 2
    assert list((tmp_path / "backups").iterdir()) == [made[0]]


@pytest.mark.parametrize("content", [b"", b"a shopping list", b"SQLite format 3\x00 and nothing"])
def test_what_is_no_backup_is_not_put_in_place(tmp_path: Path, content: bytes) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "_")
    desk.book.close()
    no_backup = tmp_path / "other.db"
    no_backup.write_bytes(content)
    with pytest.raises(NotABookError):
        restoring.restore(desk.book.path, no_backup, ME)
    with pytest.raises(BookError, match="There is no file"):
        restoring.restore(desk.book.path, tmp_path / "none.db", ME)
    assert balls_in(desk.book.path) == 1


def test_a_backup_takes_the_place_of_a_damaged_book(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "_")
    made = backups.make_backup(desk.book.path, START)
    assert made is not None
    desk.book.close()
    desk.book.path.write_bytes(b"SQLite format 3\x00" + b"\xff" * 9000)
    Path(f"{desk.book.path}-wal").write_bytes(b"of the damaged book")
    assert restoring.loss(desk.book.path, made[0]) is None
    replaced = restoring.restore(desk.book.path, made[0], ME)
    assert replaced is not None
    assert replaced.read_bytes().endswith(b"\xff" * 9000)
    assert Path(f"{replaced}-wal").read_bytes() == b"of the damaged book"
    assert balls_in(desk.book.path) == 1


def test_whoever_came_or_was_removed_since_the_backup_is_counted_too(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    made = backups.make_backup(desk.book.path, START)
    assert made is not None
    PeopleWriter(desk.book).add_players(desk.view.clinic.id, [PlayerCard(name="Zoe")], START)
    erasing.erase(desk.book, player(desk, "Tove"), START, keep_counts=False, in_notes=False)
    desk.book.close()
    lost = restoring.loss(desk.book.path, made[0])
    assert lost is not None
    assert lost.words() == "1 player and 1 removal of a player"
