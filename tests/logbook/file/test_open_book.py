"""Opening a book: what it is made of, and what is refused without a change."""

from __future__ import annotations

import sqlite3
import stat
from pathlib import Path

import pytest

from courtlog.errors import BookError, NewerBookError, NotABookError
from courtlog.logbook.file import backups, doctor
from courtlog.logbook.file.open_book import create_or_open, open_existing
from courtlog.logbook.reads import lookups
from courtlog.logbook.rows.ids import COUNT_BITS, Ids, new_tag
from courtlog.logbook.schema.database import Database
from courtlog.logbook.schema.migrations import migrations
from courtlog.logbook.schema.schema_check import APPLICATION_ID, SCHEMA
from tests.court import START, desk_in, feed
from tests.logbook.exchange.books import book_of_version, content, full_book

pytestmark = pytest.mark.usefixtures("books_from_scratch")

LATER_TABLES: dict[str, list[object]] = {
    name: []
    for name in (
        *("film", "moved_hit", "filming_consent"),
        *("blind_page", "blind_ball", "blind_sitting"),
        *("home_yardstick", "sheet_round", "player_court", "film_court"),
    )
}


@pytest.mark.usefixtures("keeps_deleted_bytes")
def test_a_new_book_is_safe_private_and_strict(tmp_path: Path) -> None:
    book = create_or_open(tmp_path / "a" / "b" / "book.db", START)
    pragma = {
        name: book.db.execute(f"PRAGMA {name}").fetchone()[0]
        for name in ("journal_mode", "synchronous", "foreign_keys", "secure_delete")
    }
    assert pragma == {
        "journal_mode": "wal",
        "synchronous": 2,
        "foreign_keys": 1,
        "secure_delete": 1,
    }
    assert stat.S_IMODE(book.path.stat().st_mode) == 0o600
    assert stat.S_IMODE(book.path.parent.stat().st_mode) == 0o700
    tables = book.db.execute(
        "SELECT name, strict FROM pragma_table_list WHERE type = 'table' AND schema = 'main'"
        " AND name NOT LIKE 'sqlite_%' AND name NOT LIKE '\\_%' ESCAPE '\\'"
    ).fetchall()
    assert len(tables) > 12
    assert all(strict for _, strict in tables)
    assert len(migrations.applied(Database(book.db))) == SCHEMA


def test_the_wal_is_private_too(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "_")
    for file in tmp_path.glob("book.db*"):
        assert stat.S_IMODE(file.stat().st_mode) == 0o600, file


def test_a_book_opened_to_others_is_closed_to_them_again(tmp_path: Path) -> None:
    path = tmp_path / "book.db"
    create_or_open(path, START).close()
    path.chmod(0o644)
    create_or_open(path, START).close()
    assert stat.S_IMODE(path.stat().st_mode) == 0o600


def test_opening_twice_changes_nothing(tmp_path: Path) -> None:
    path = tmp_path / "book.db"
    book = create_or_open(path, START)
    dump = list(book.db.iterdump())
    book.close()
    again = create_or_open(path, START + 1)
    assert list(again.db.iterdump()) == dump


@pytest.mark.parametrize(
    "content",
    [b"a shopping list\n", b"\x89PNG\r\n\x1a\n", b"SQLite format 3\x00 and then nothing", b"x"],
)
def test_what_is_no_book_is_refused_and_not_touched(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "book.db"
    path.write_bytes(content)
    with pytest.raises(NotABookError, match="not a courtlog book"):
        create_or_open(path, START)
    assert path.read_bytes() == content


def test_the_database_of_another_program_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "other.db"
    other = sqlite3.connect(path)
    other.execute("CREATE TABLE shopping (item TEXT)")
    other.commit()
    other.close()
    before = path.read_bytes()
    with pytest.raises(NotABookError):
        create_or_open(path, START)
    assert path.read_bytes() == before


def test_a_book_of_a_later_courtlog_is_refused_by_its_version(tmp_path: Path) -> None:
    path = tmp_path / "book.db"
    book = create_or_open(path, START)
    book.db.execute("UPDATE book SET app_version = '9.9'")
    book.db.execute(f"PRAGMA user_version = {SCHEMA + 1}")
    book.close()
    before = path.read_bytes()
    with pytest.raises(NewerBookError, match=r"of a later courtlog \(9\.9\)"):
        create_or_open(path, START)
    assert path.read_bytes() == before


def test_reading_does_not_make_a_book(tmp_path: Path) -> None:
    with pytest.raises(BookError, match="There is no book"):
        open_existing(tmp_path / "none.db", START)
    assert list(tmp_path.iterdir()) == []


def test_an_empty_file_becomes_a_book(tmp_path: Path) -> None:
    path = tmp_path / "book.db"
    path.touch()
    create_or_open(path, START).close()
    open_existing(path, START).close()


def test_ids_of_two_books_never_meet_and_go_up_with_the_clock() -> None:
    one, two = Ids(1), Ids(2)
    first = [one.next(START), one.next(START), one.next(START - 5000), one.next(START + 9)]
    assert first == sorted(set(first))
    assert {row >> COUNT_BITS for row in first} == {1}
    assert two.next(START) >> COUNT_BITS == 2
    assert Ids(1, first[-1]).next(0) > first[-1]
    assert max(new_tag() for _ in range(1000)) < 2**23
    assert Ids(2**23 - 1).next(2**42).bit_length() == 63, "fits SQLite's signed 64 bits"


def test_a_book_from_before_films_keeps_all_it_holds(tmp_path: Path) -> None:
    today = full_book(tmp_path / "today")
    before = content(today.db)
    book = open_existing(book_of_version(today, tmp_path / "book.db", 3), START)
    assert content(book.db) == before | LATER_TABLES
    assert doctor.findings(book) == []


def test_a_book_from_before_the_main_cue_keeps_all_it_holds(tmp_path: Path) -> None:
    today = full_book(tmp_path / "today")
    before = content(today.db)
    path = book_of_version(today, tmp_path / "book.db", 2)
    book = open_existing(path, START)
    assert content(book.db) == before | {"main_cue": []} | LATER_TABLES
    (kept,) = backups.backup_paths(backups.folder_of(path))
    assert backups.read_backup(kept).contents.schema == 2
    assert doctor.findings(book) == []


def test_a_book_of_the_first_shape_is_brought_up_with_all_it_holds(tmp_path: Path) -> None:
    path = tmp_path / "book.db"
    db = Database(sqlite3.connect(path), execute_plugins=False)
    migrations.apply(db, stop_before="m002_run_the_clinic")
    db.execute(f"PRAGMA application_id = {APPLICATION_ID}")
    db.execute("PRAGMA user_version = 1")
    db.execute("INSERT INTO book VALUES (1, 'x', 5, '0.1.0', 0)")
    db.execute("INSERT INTO clinic VALUES (7, 'Harbour Week', 'UTC', 3)")
    db.execute("INSERT INTO player VALUES (8, 'Maren', 'left')")
    db.execute("INSERT INTO roster VALUES (7, 8, 1, NULL)")
    db.conn.commit()
    db.close()
    book = open_existing(path, START)
    (before,) = backups.backup_paths(backups.folder_of(path))
    assert backups.read_backup(before).contents.schema == 1, "what it was is kept"
    assert [p.name for p in lookups.players(book, 7)] == ["Maren"]
    assert book.db.execute("SELECT turn_order, stations FROM clinic").fetchone() == (
        "cyclic",
        '["shadow","fence","self-feed"]',
    )
    assert book.db.execute("PRAGMA user_version").fetchone() == (SCHEMA,)
    assert book.db.execute("PRAGMA foreign_key_check").fetchall() == []
