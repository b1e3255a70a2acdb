"""A journal left beside a book: half a transaction that has to be taken back before anything."""

from __future__ import annotations

import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from courtlog.errors import BookLockedError, NotABookError
from courtlog.logbook.file import backups, copying, doctor, open_book, read_only, restoring
from courtlog.logbook.file.open_book import open_existing, open_to_read
from tests.court import START, desk_in, feed

NAMES = "SELECT name FROM player ORDER BY id"


def left_in(folder: Path, of: Path) -> Path:
    """A copy of a book as a program leaves it that dies in the middle of a transaction."""
    folder.mkdir()
    with closing(sqlite3.connect(of, isolation_level=None)) as db:
        db.execute("PRAGMA journal_mode = DELETE")
        db.execute("PRAGMA cache_size = 1")  # pages go out before the transaction is over
        db.execute("BEGIN")
        db.execute("UPDATE player SET name = 'half ' || name, level = hex(zeroblob(9000))")
        db.execute("UPDATE journal SET before = before || hex(zeroblob(9000))")
        for ending in ("", "-journal"):
            shutil.copyfile(f"{of}{ending}", folder / f"book.db{ending}")
        db.execute("ROLLBACK")
    return folder / "book.db"


@pytest.fixture
def whole(tmp_path: Path) -> Path:
    """A book with some balls, closed."""
    desk = desk_in(tmp_path)
    feed(desk, "222 210 _ _ 000")
    desk.book.close()
    return desk.book.path


def names(path: Path) -> list[str]:
    with closing(sqlite3.connect(path)) as db:
        return [name for (name,) in db.execute(NAMES)]


def test_it_is_not_damaged_and_reads_as_before(whole: Path, tmp_path: Path) -> None:
    wanted = names(whole)
    looks: list[Callable[[Path], object]] = [
        doctor.damage,
        copying.contents_of,
        backups.read_backup,
    ]
    for number, look in enumerate(looks):
        left = left_in(tmp_path / f"left-{number}", whole)
        assert b"half " in left.read_bytes()
        assert look(left) is None or look is not doctor.damage
        assert not read_only.has_journal(left)
        assert names(left) == wanted
    left = left_in(tmp_path / "opened", whole)
    with closing(open_existing(left, START)) as book:
        assert [name for (name,) in book.db.execute(NAMES)] == wanted


def test_where_nothing_can_be_written_it_is_read_and_told(
    whole: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    wanted, left = names(whole), left_in(tmp_path / "left", whole)
    before = {path.name: path.read_bytes() for path in left.parent.iterdir()}
    monkeypatch.setattr(open_book, "may_write", lambda _path: False)
    monkeypatch.setattr(read_only, "may_write", lambda _path: False)
    assert doctor.damage(left) is None
    with closing(open_to_read(left, START)) as book:
        assert [name for (name,) in book.db.execute(NAMES)] == wanted
        assert "A program stopped while it wrote in this book" in book.copy_reason
    assert {path.name: path.read_bytes() for path in left.parent.iterdir()} == before


def test_a_journal_of_another_book_is_not_taken_for_its_own(whole: Path, tmp_path: Path) -> None:
    left = left_in(tmp_path / "left", whole)
    desk = desk_in(tmp_path / "other")
    feed(desk, "012 _ _")
    desk.book.close()
    other = desk.book.path
    shutil.copyfile(f"{left}-journal", f"{other}-journal")
    before = other.read_bytes()
    with pytest.raises(NotABookError, match="-journal does not belong to the book"):
        open_existing(other, START)
    assert other.read_bytes() == before


def test_what_is_lost_by_a_restore_is_counted_after_it(whole: Path, tmp_path: Path) -> None:
    made = backups.make_backup(whole, START)
    assert made is not None
    desk = desk_in(tmp_path / "more")
    feed(desk, "222 _")
    desk.book.close()
    left = left_in(tmp_path / "left", desk.book.path)
    lost = restoring.loss(left, made[0])
    assert lost is not None
    assert dict(lost.counts)["ball"] == 2


def test_nothing_is_written_into_a_file_that_lost_its_name(whole: Path, tmp_path: Path) -> None:
    """What a restore or a copying program put there meanwhile is another file."""
    with closing(open_existing(whole, START)) as book:
        shutil.copyfile(whole, tmp_path / "other.db")
        (tmp_path / "other.db").replace(whole)
        with (
            pytest.raises(BookLockedError, match="was replaced or removed meanwhile"),
            book.writing(),
        ):
            pass
        whole.unlink()
        with (
            pytest.raises(BookLockedError, match="was replaced or removed meanwhile"),
            book.writing(),
        ):
            pass


def test_a_log_that_others_write_in_meanwhile_is_looked_at_again(
    whole: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A copy taken while somebody commits is torn; that says nothing of the book."""
    Path(f"{whole}-wal").write_bytes(b"\0")
    looks = []

    def fits(path: Path) -> bool:
        looks.append(path)
        with path.with_name(f"{path.name}-wal").open("ab") as log:
            log.write(b"\0" * (len(looks) < 3))
        return len(looks) == 3

    monkeypatch.setattr(open_book, "fits_its_log", fits)
    open_existing(whole, START).close()
    assert len(looks) == 3
