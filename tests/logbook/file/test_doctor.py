"""The book's doctor: what was broken on purpose is named, and mended where the balls know it."""

from __future__ import annotations

import random
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from courtlog.coaching.game.clinic_record import ClinicRecord
from courtlog.errors import NotABookError
from courtlog.logbook.file import backups, doctor, salvage
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.reads import day_lookups, lookups
from courtlog.logbook.rows import tallies
from tests.court import START, again, desk_in, feed, player

BROKEN = {
    "UPDATE tally SET made = made + 1 WHERE cue = 'turn'": (
        "The kept counts differ from the balls in 1 place."
    ),
    "UPDATE ball SET number = 9 WHERE number = 2": "2 balls have a wrong number in the round.",
    "UPDATE bookmark SET day_id = 77": (
        "The bookmark points nowhere; the last day played takes its place."
    ),
    "UPDATE note SET round_id = 78": "1 note lies in another round than its ball.",
    "DELETE FROM round_cue": "1 round with balls has no cues.",
    "INSERT INTO rating SELECT id, 3, 2 FROM ball WHERE number = 1": (
        "1 grade stands on a cue that the round does not have."
    ),
    "UPDATE rating SET grade = 1 WHERE grade = 2": (
        "2 balls are not as the last key in the journal left it."
    ),
}


def said(book: Book) -> list[str]:
    """What the doctor finds."""
    return [finding.sentence for finding in doctor.findings(book)]


def test_nothing_is_wrong_after_any_keys(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    for keys in ("222 2-1!/ _ T 0<", "<< 02 / @ 1", "<" * 20, "2"):
        feed(desk, keys)
        assert said(desk.book) == []
    desk.balls.note("late")
    feed(desk, "__")
    desk.amendments().give_last(player(desk, "Tove"), 2)
    assert said(desk.book) == []


@pytest.mark.parametrize("broken", BROKEN)
def test_what_was_broken_is_named_and_mended_where_it_can_be(tmp_path: Path, broken: str) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "021 _")
    feed(desk, "/")
    desk.balls.note("late")
    desk.book.db.execute("PRAGMA foreign_keys = OFF")
    desk.book.db.execute(broken)
    assert BROKEN[broken] in said(desk.book)
    can = [f.sentence for f in doctor.findings(desk.book) if f.mendable]
    doctor.mend(desk.book)
    assert not set(can) & set(said(desk.book))
    if broken.startswith(("UPDATE tally", "UPDATE ball", "UPDATE bookmark", "UPDATE note")):
        assert said(desk.book) == []
        assert tallies.proof(desk.book.db) == []
        assert again(desk).view.clinic.name == "Harbour Week"


def test_mending_is_one_transaction(tmp_path: Path) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "__")
    desk.book.db.execute("UPDATE ball SET number = 9 WHERE number = 2")
    desk.book.db.execute("UPDATE tally SET made = 5")
    desk.book.db.execute(
        "CREATE TEMP TRIGGER no BEFORE INSERT ON tally BEGIN SELECT raise(ABORT, 'no'); END"
    )
    before = said(desk.book)
    with pytest.raises(Exception, match="no"):
        doctor.mend(desk.book)
    assert said(desk.book) == before


def played(folder: Path) -> tuple[Book, ClinicRecord]:
    """A book of some rounds, and what it says."""
    desk = desk_in(folder)
    for name in ("Maren", "Tove", "Ruben") * 8:
        desk.rounds.start(player=player(desk, name))
        feed(desk, "222 2-1!/ _ 0-1/" * 8)
    return desk.book, day_lookups.record(desk.book, desk.view.clinic)


def spoil(path: Path, pages: int, seed: int) -> bytes:
    """Overwrite that many pages with noise; returns the file as it is now.

    Pages that say which tables there are stay: without them no row can be found at all.
    """
    dice = random.Random(seed)
    content = path.read_bytes()
    starts = range(4096, len(content), 4096)
    for at in dice.sample(starts, len(starts)):
        if pages:
            spoilt = content[:at] + dice.randbytes(4096) + content[at + 4096 :]
            if schema_of(spoilt) == schema_of(content):
                content, pages = spoilt, pages - 1
    path.write_bytes(content)
    return content


def schema_of(content: bytes) -> list[str] | None:
    """Which tables a file says there are; None when it cannot say."""
    with closing(sqlite3.connect(":memory:")) as db:
        # As a file without a log (sqlite.org/fileformat2.html, 1.3): memory has none.
        db.deserialize(content[:18] + b"\x01\x01" + content[20:])
        try:
            return [sql for (sql,) in db.execute("SELECT sql FROM sqlite_master")]
        except sqlite3.DatabaseError:
            return None


@pytest.mark.parametrize("seed", range(6))
def test_a_spoilt_file_and_its_backup_make_the_whole_book_again(tmp_path: Path, seed: int) -> None:
    book, before = played(tmp_path)
    backups.make_backup(book.path, START)
    book.close()
    assert doctor.damage(book.path) is None
    spoilt = spoil(book.path, 9, seed)
    assert doctor.damage(book.path) is not None
    salvage.salvage_book(book.path, tmp_path / "new.db", START)
    assert book.path.read_bytes() == spoilt
    new = create_or_open(tmp_path / "new.db", START)
    assert day_lookups.record(new, lookups.clinics(new)[0]) == before
    assert said(new) == []


def test_without_a_backup_a_bad_page_of_balls_costs_its_balls_alone(tmp_path: Path) -> None:
    book, before = played(tmp_path)
    (page,) = (
        book.db.execute(
            "SELECT pageno FROM dbstat WHERE name = 'ball' AND pagetype = 'leaf' LIMIT 1 OFFSET 2"
        ).fetchone()
        if _has_dbstat(book)
        else (None,)
    )
    if page is None:
        pytest.skip("this SQLite does not tell where its pages lie")
    (held,) = book.db.execute(f"SELECT ncell FROM dbstat WHERE pageno = {page}").fetchone()
    book.db.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    book.close()
    content = bytearray(book.path.read_bytes())
    content[(page - 1) * 4096 : page * 4096] = b"\xff" * 4096
    book.path.write_bytes(content)
    saved = salvage.salvage_book(book.path, tmp_path / "new.db", START)
    balls = sum(len(round_.balls) for day in before.days for round_ in day.rounds)
    assert (saved.balls, saved.filled) == (balls - held, 0)
    new = create_or_open(tmp_path / "new.db", START)
    assert said(new) == []


def _has_dbstat(book: Book) -> bool:
    return bool(
        book.db.execute(
            "SELECT 1 FROM pragma_compile_options WHERE compile_options = 'ENABLE_DBSTAT_VTAB'"
        ).fetchone()
    )


@pytest.mark.parametrize("at", [0, 100])
def test_without_the_page_that_says_what_lies_where_there_is_only_the_backup(
    tmp_path: Path, at: int
) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "222 000")
    desk.book.close()
    path = desk.book.path
    spoilt = path.read_bytes()[:at] + bytes(4096 - at) + path.read_bytes()[4096:]
    path.write_bytes(spoilt)
    assert doctor.damage(path) is not None
    with pytest.raises(NotABookError, match=r"says what lies where.*\. Restore the last backup"):
        salvage.salvage_book(path, tmp_path / "new.db", START)
    assert path.read_bytes() == spoilt
    assert not (tmp_path / "new.db").exists()


def test_from_a_file_with_nothing_in_it_nothing_is_made(tmp_path: Path) -> None:
    path = tmp_path / "book.db"
    path.write_bytes(b"SQLite format 3\x00" + b"\xff" * 9000)
    with pytest.raises(NotABookError, match="Not one ball"):
        salvage.salvage_book(path, tmp_path / "new.db", START)
    assert list(tmp_path.iterdir()) == [path]
