"""A person removed is removed from every table and every byte; everyone else stays as they were."""

from __future__ import annotations

import shutil
import sqlite3
import unicodedata
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Literal

import pytest

from courtlog.courtside.desk.desk import Desk
from courtlog.errors import BookLockedError
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import day_lookups, lookups
from courtlog.logbook.rows import tallies
from courtlog.logbook.rows.mentions import FREE_TEXT, NOT_CHANGED
from courtlog.logbook.schema.database import Database
from courtlog.logbook.schema.rows_of_player import hanging_rows, links_of
from courtlog.logbook.writes import erasing
from courtlog.logbook.writes.erase_copies import erase_from_copies
from courtlog.logbook.writes.erasing import erase, identity_of
from tests.court import START, again, open_book
from tests.courtside.screen import on_court
from tests.logbook.every_table import NAME, SECRETS, SHORT, desk_with_every_table, person


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    """Two players with rows in every table; the one to go is on court with a ball half rated."""
    desk = desk_with_every_table(tmp_path / "book")
    yield desk
    desk.book.close()


def held(folder: Path, *words: str) -> dict[str, list[str]]:
    """Which of these words the files under the folder hold, byte for byte."""
    files = {path.name: path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    found = {
        name: [word for word in words if word.encode() in text] for name, text in files.items()
    }
    return {name: words for name, words in found.items() if words}


def hanging(db: sqlite3.Connection, who: int) -> dict[str, int]:
    """How many rows of each table hang on the person."""
    tables = hanging_rows(links_of(db), "id = :player")
    return {
        table: db.execute(
            f"SELECT count(*) FROM {table} WHERE {where}", {"player": who}
        ).fetchone()[0]
        for table, where in tables.items()
    }


def others(book: Book, who: int) -> dict[str, list[tuple[object, ...]]]:
    """Every row of every table that does not hang on the person."""
    tables = hanging_rows(links_of(book.db), "id = :player")
    return {
        table: book.db.execute(
            f"SELECT * FROM {table} WHERE NOT ({tables.get(table, 'false')})", {"player": who}
        ).fetchall()
        for table in Database(book.db).table_names()
        if table not in ("erased", "bookmark", "former", "conflict")
    }


def test_every_table_that_hangs_on_a_player_is_found(desk: Desk) -> None:
    found = hanging(desk.book.db, person(desk.book).id)
    assert {
        "player", "roster", "round", "round_cue", "ball", "rating", "journal", "note", "check_in",
        "tally", "focus", "main_cue", "attendance", "standing", "queue_swap", "solo", "said",
        "red_flag", "clinician_word", "planned_round", "second_rating",
        "filming_consent", "moved_hit", "blind_page", "blind_ball", "blind_sitting",
        "home_yardstick", "player_court", "sheet_round",
    } <= {table for table, rows in found.items() if rows}  # fmt: skip


def test_nothing_is_left_and_everyone_else_is_as_before(desk: Desk) -> None:
    who = person(desk.book)
    before = others(desk.book, who.id)
    gone = erase(desk.book, who, START, keep_counts=False, in_notes=False)
    assert set(hanging(desk.book.db, who.id).values()) == {0}
    assert gone.rows["round"] == 1
    assert gone.rows["red_flag"] == 1
    assert gone.mentions == 2
    assert others(desk.book, who.id) == before
    assert desk.book.db.execute("PRAGMA foreign_key_check").fetchall() == []
    assert desk.book.db.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    assert desk.book.db.execute("SELECT player_id FROM erased").fetchall() == [(who.id,)]
    assert tallies.proof(desk.book.db) == []


@pytest.mark.usefixtures("keeps_deleted_bytes")
@pytest.mark.parametrize("keep_counts", [False, True])
def test_no_byte_of_any_file_holds_a_word_of_the_person(desk: Desk, keep_counts: bool) -> None:
    folder = desk.book.path.parent
    words = (NAME, SHORT, *SECRETS)
    desk.book.db.execute("PRAGMA secure_delete = OFF")  # as books were written before
    desk.book.db.execute("DELETE FROM note WHERE text LIKE '%SPEAKS on%'")  # on free pages now
    desk.book.db.commit()
    assert set(held(folder, *words)) >= {"book.db-wal"}
    copies(desk.book)
    who = person(desk.book)
    changed, unreadable = erase_from_copies(
        backups(folder), identity_of(desk.book.db, who), in_notes=True
    )
    assert (len(changed), unreadable) == (2, [])
    erase(desk.book, who, START, keep_counts, in_notes=True)
    assert held(folder, *words) == {}, "while the book is still open"
    desk.book.close()
    assert held(folder, *words) == {}
    assert {path.name for path in folder.rglob("*.db*")} == {"book.db", "one.db", "two.db"}


def backups(folder: Path) -> list[Path]:
    """The backups in a folder."""
    return sorted((folder / "backups").rglob("*.db"))


def copies(book: Book) -> None:
    """Two backups: one as a single file, one with its write-ahead log beside it."""
    folder = book.path.parent / "backups" / "deeper"
    folder.mkdir(parents=True)
    with closing(sqlite3.connect(folder / "one.db")) as target:
        book.db.backup(target)
    for ending in ("", "-wal"):
        shutil.copy(f"{book.path}{ending}", f"{folder}/two.db{ending}")


def test_a_backup_knows_who_is_not_to_come_back(desk: Desk) -> None:
    copies(desk.book)
    who = person(desk.book)
    erase_from_copies(
        backups(desk.book.path.parent), identity_of(desk.book.db, who), in_notes=False
    )
    for path in backups(desk.book.path.parent):
        with closing(sqlite3.connect(path)) as db:
            assert db.execute("SELECT player_id FROM erased").fetchall() == [(who.id,)]
            assert db.execute("SELECT name FROM player").fetchall() == [("Tove",), ("Ruben",)]


def test_what_is_no_book_among_the_backups_is_left_and_named(desk: Desk) -> None:
    folder = desk.book.path.parent / "backups"
    folder.mkdir()
    desk.book.db.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    (folder / "torn.db").write_bytes(desk.book.path.read_bytes()[:5000])
    (folder / "notes.txt").write_text(NAME, encoding="utf-8")
    with closing(sqlite3.connect(folder / "other.db")) as db:
        db.execute("CREATE TABLE player (id, name)")
        db.execute("INSERT INTO player VALUES (?, ?)", [person(desk.book).id, NAME])
        db.commit()
    before = {path.name: path.read_bytes() for path in folder.iterdir()}
    changed, unreadable = erase_from_copies(
        sorted(folder.glob("*.db")), identity_of(desk.book.db, person(desk.book)), in_notes=True
    )
    assert (changed, [path.name for path in unreadable]) == ([], ["torn.db"])
    assert {path.name: path.read_bytes() for path in folder.iterdir()} == before


def test_counts_are_kept_without_name_time_or_word(desk: Desk) -> None:
    db, who = desk.book.db, person(desk.book)
    counts = "SELECT cue, missed, near, made, unseen, tough FROM tally ORDER BY 1, 2, 3, 4, 5, 6"
    before = db.execute(counts).fetchall()
    gone = erase(desk.book, who, START, keep_counts=True, in_notes=False)
    assert db.execute(counts).fetchall() == before
    assert tallies.proof(db) == []
    nobody = person(desk.book, "someone 1")
    assert hanging(db, nobody.id) == {
        **dict.fromkeys(hanging(db, nobody.id), 0),
        "player": 1,
        "round": 1,
        "round_cue": 3,
        "ball": gone.rows["ball"],
        "rating": 10,
        "tally": hanging(db, nobody.id)["tally"],
    }
    assert db.execute(
        "SELECT count(started_at) + count(ended_at), count(clip_at) + count(taken_at) FROM round"
        " LEFT JOIN ball ON ball.round_id = round.id WHERE player_id = ?",
        [nobody.id],
    ).fetchone() == (0, 0)
    assert hanging(db, who.id)["player"] == 0


def test_the_court_and_the_pages_go_on_without_the_person(desk: Desk) -> None:
    erase(desk.book, person(desk.book), START, keep_counts=True, in_notes=True)
    screen = on_court(again(desk), ["tab", "enter", "space", "z", "f5", "escape", "backspace"])
    assert "Tove" in screen
    assert not any(word in screen for word in (NAME, SHORT, "someone"))
    clinic = lookups.clinics(desk.book)[0]
    sheet = day_lookups.record(desk.book, clinic)
    assert {round_.player for day in sheet.days for round_ in day.rounds} == {
        "Tove",
        "Ruben",
    }


def test_backspace_never_goes_into_a_round_that_is_nobodys(desk: Desk) -> None:
    erase(desk.book, person(desk.book), START, keep_counts=True, in_notes=False)
    on_court(again(desk), ["tab", "enter", "backspace", "backspace"])
    live = again(desk).view.live
    assert live is not None
    assert live.player.name == "Tove", "the round before, over that of nobody"


def test_the_name_leaves_the_notes_of_others_only_when_asked(desk: Desk) -> None:
    erase(desk.book, person(desk.book), START, keep_counts=False, in_notes=True)
    texts = {text for (text,) in desk.book.db.execute("SELECT text FROM note")}
    assert texts == {"Tove is late", "someone and someone's racquet; someone too; mäxi"}
    assert desk.book.db.execute("SELECT text FROM clinician_word").fetchall() == [
        ("asked about someone",)
    ]


def test_a_second_person_without_a_name_gets_the_next_number(desk: Desk) -> None:
    for name in (NAME, "Tove"):
        erase(desk.book, person(desk.book, name), START, keep_counts=True, in_notes=False)
    names = desk.book.db.execute("SELECT name FROM player ORDER BY name").fetchall()
    assert names == [("Ruben",), ("someone 1",), ("someone 2",)]
    assert on_court(again(desk), ["tab"])


def test_a_book_that_is_open_elsewhere_is_left_as_it_is(desk: Desk) -> None:
    window = open_book(desk.book.path.parent)
    desk.book.db.execute("PRAGMA busy_timeout = 0")
    before = list(desk.book.db.iterdump())
    with pytest.raises(BookLockedError):
        erase(desk.book, person(desk.book), START, keep_counts=False, in_notes=False)
    assert list(desk.book.db.iterdump()) == before
    window.close()


def test_looking_first_changes_nothing(desk: Desk) -> None:
    before = list(desk.book.db.iterdump())
    seen = erasing.preview(desk.book, person(desk.book))
    assert list(desk.book.db.iterdump()) == before
    assert seen == erase(desk.book, person(desk.book), START, keep_counts=False, in_notes=False)


def test_a_red_still_stays_afterwards(desk: Desk) -> None:
    erase(desk.book, person(desk.book), START, keep_counts=False, in_notes=False)
    with pytest.raises(sqlite3.IntegrityError, match="stays"):
        desk.book.db.execute("DELETE FROM red_flag")


FIXED = {
    "book": "uuid app_version",
    "clinic": "name zone stations turn_order wbgt_rule first_court first_coach",
    "coach": "name",
    "day": "date court",
    "player": "name short_name hand backhand age_group",
    "roster": "next_drill",
    "drill_used": "name stroke feed card digest",
    "round": "purpose feed_order order_kind tough_plan speak",
    "round_cue": "cue",
    "journal": "kind before after",
    "check_in": "moment",
    "tally": "stroke cue purpose",
    "focus": "stroke cues",
    "main_cue": "stroke cue",
    "attendance": "state",
    "standing": "station before",
    "solo": "station",
    "said": "wording",
    "planned_round": "date drill purpose",
    "amendment": "kind who",
    "amended": "what before after",
    "matched": "tbl",
    "film": "name fingerprint known_by",
    "filming_consent": "answer date",
    "blind_page": "stroke cues code",
    "home_yardstick": "date cues balls",
    "player_court": "date court kind",
    "film_court": "court",
    "court_book": "court owner stick",
    "court_reading": "court",
    "sheet_round": "digest",
    "home": "place",
    # Earlier readings of rows: readings.forget takes out those of the person, and any other that
    # holds the name.
    "former": "tbl key reading",
    "conflict": "tbl key reading",
}
"""Texts in which nobody writes about a player: words of the program, names of their own rows."""


def test_every_text_of_the_book_is_known_to_be_free_or_fixed(desk: Desk) -> None:
    db = Database(desk.book.db)
    texts = {
        (table, name)
        for table in db.table_names()
        if not table.startswith(("sqlite_", "_"))
        for name, kind in db.table(table).columns_dict.items()
        if kind is str
    }
    fixed = {(table, name) for table, names in FIXED.items() for name in names.split()}
    free = {(table, name) for table, names in FREE_TEXT.items() for name in names}
    assert free <= texts
    told = {(table, name) for table, names in NOT_CHANGED.items() for name in names}
    assert told <= fixed, "looked through, and not changed"
    assert texts <= fixed | free, "a new text: may a player's name stand in another's row of it?"


Form = Literal["NFC", "NFD"]


@pytest.mark.parametrize("kept", ["NFC", "NFD"])
@pytest.mark.parametrize("written", ["NFC", "NFD"])
def test_a_name_is_found_in_either_form_of_unicode(desk: Desk, kept: Form, written: Form) -> None:
    """Unicode Standard Annex 15: an a with two dots is one character, or two."""
    db, who = desk.book.db, person(desk.book)
    name, text = unicodedata.normalize(kept, NAME), unicodedata.normalize(written, NAME)
    db.execute("UPDATE player SET name = ? WHERE id = ?", [name, who.id])
    db.execute("UPDATE note SET text = ? WHERE id = 2", [f"late, {text}! Ödel too"])
    db.commit()
    erase(desk.book, person(desk.book, name), START, keep_counts=False, in_notes=True)
    (left,) = db.execute("SELECT text FROM note WHERE id = 2").fetchone()
    assert left == "late, someone! Ödel too"


def test_where_the_name_is_not_changed_is_told(desk: Desk) -> None:
    db, who = desk.book.db, person(desk.book)
    db.execute("UPDATE clinic SET name = ?, stations = ?", [f"{SHORT} Camp", f'["{SHORT}s wall"]'])
    db.execute("UPDATE day SET court = ?", [unicodedata.normalize("NFD", f"court {SHORT}")])
    db.commit()
    told = {f"{name} of a clinic": 1 for name in ("the name", "the stations")}
    told["the name of a court"] = 1
    longer = {"a longer word in a text about others": 1}  # mäxi, in the note on Tove's round
    assert erasing.preview(desk.book, who).elsewhere == told | longer
    gone = erase(desk.book, who, START, keep_counts=False, in_notes=True)
    assert gone.elsewhere == told | longer
