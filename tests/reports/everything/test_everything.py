"""Everything held on a player is on the page, or listed with its reason; nobody else is on it."""

from __future__ import annotations

import json
import re
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import replace
from datetime import date
from html import unescape
from pathlib import Path

import pytest

from courtlog.coaching.game.keeping import KeepTime
from courtlog.coaching.game.people import Player
from courtlog.courtside.desk.desk import Desk
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.logbook.rows.mentions import FREE_TEXT
from courtlog.logbook.schema.database import Database
from courtlog.logbook.schema.row_versions import without_triggers
from courtlog.logbook.schema.rows_of_player import hanging_rows, links_of
from courtlog.logbook.schema.tables import Column, Kind, tables
from courtlog.plain_text import plain
from courtlog.reports.everything.everything_facts import Everything, everything
from courtlog.reports.everything.everything_html import everything_html
from courtlog.reports.everything.everything_text import everything_text
from courtlog.reports.everything.left_out import ABOUT_NOBODY, LEFT_OUT
from courtlog.values import jsonable
from tests.logbook.every_table import SECRETS, desk_with_every_table, person
from tests.pages.drawn_books import in_book
from tests.pages.drawn_clinics import drawn_clinic, numbers

TODAY = date(2026, 6, 1)
YEAR = KeepTime(12)

MORE = """
INSERT INTO clinic (id, name, zone) VALUES (80, 'Lake', 'UTC');
INSERT INTO coach VALUES (81, 'Bo');
INSERT INTO day VALUES (82, 80, '2026-05-20', '1', 81);
INSERT INTO drill_used SELECT 83, 'forehand/other', stroke, rung, feed,
    json_set(card, '$.drill.name', 'Another drill'), 'other' FROM drill_used LIMIT 1;
INSERT INTO amendment SELECT 90, 'drill', max(id), NULL, 'Ines', 1, NULL FROM round
    WHERE player_id = {who};
INSERT INTO amended SELECT 91, 90, NULL, 'drill', drill_id, '1', '2' FROM round
    WHERE player_id = {who};
"""


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    """One player with a row in every table, and another clinic that nobody was on."""
    desk = desk_with_every_table(tmp_path / "book")
    desk.book.db.executescript(MORE.format(who=person(desk.book).id))
    yield desk
    desk.book.close()


def page(book: Book, today: date = TODAY) -> Everything:
    return everything(book, person(book), YEAR, "", today)


def whole_list(book: Book, who: Player) -> Everything:
    """What the whole list prints: without the summary of health, which the one page has."""
    return replace(everything(book, who, YEAR, "", TODAY), health=())


def unlisted_tables(db: sqlite3.Connection) -> set[str]:
    """Tables that hang on no player and are not said to be about nobody."""
    every = {name for name in Database(db).table_names() if not name.startswith(("sqlite_", "_"))}
    return every - hanging_rows(links_of(db), "true").keys() - ABOUT_NOBODY.keys()


def silent_columns(book: Book, *only: str) -> set[tuple[str, str]]:
    """Columns of the player's rows, in all tables or these, that are not listed and can change
    without the page.
    """
    who = person(book)
    before = whole_list(book, who)
    found = set()
    for table, where in hanging_rows(links_of(book.db), f"id = {who.id}").items():
        if only and table not in only:
            continue
        for column in _columns(book.db, table):
            if column.name in LEFT_OUT.get(table, {}):
                continue
            for value in _other_values(book.db, table, column):
                with changed(book.db, table, column.name, where, value) as done:
                    if done and whole_list(book, who) != before:
                        break
            else:
                found.add((table, column.name))
    return found


@contextmanager
def changed(
    db: sqlite3.Connection, table: str, column: str, where: str, value: object
) -> Iterator[bool]:
    """The column with this value in the player's first such row, for a while; whether it went."""
    db.execute("SAVEPOINT one")
    first = f"SELECT rowid FROM {table} WHERE {where} ORDER BY rowid LIMIT 1"
    key = [part for part in tables(db) if part.name == table]
    if key and key[0].key != ("id",):
        names = ", ".join(key[0].key)
        first = f"SELECT {names} FROM {table} WHERE {where} ORDER BY {names} LIMIT 1"
        here = f"({names}) = ({first})"
    else:
        here = f"id = (SELECT id FROM {table} WHERE {where} ORDER BY id LIMIT 1)"
    try:
        with without_triggers(db):
            try:
                db.execute(f"UPDATE {table} SET {column} = ? WHERE {here}", [value])
                done = True
            except sqlite3.IntegrityError:
                done = False
        yield done
    finally:
        db.execute("ROLLBACK TO one")
        db.execute("RELEASE one")


def _columns(db: sqlite3.Connection, name: str) -> tuple[Column, ...]:
    return next((table.columns for table in tables(db) if table.name == name), ())


def _other_values(db: sqlite3.Connection, table: str, column: Column) -> list[object]:
    """Values that the column may have: of its check, of its parent, or of its kind."""
    (sql,) = db.execute("SELECT sql FROM sqlite_master WHERE name = ?", [table]).fetchone()
    check = re.search(rf"\b{column.name} [^,]*?CHECK \({column.name} IN \(([^)]*)\)", sql, re.S)
    if check:
        return [text.strip().strip("'") for text in check[1].split(",")]
    if column.parent:
        rows = db.execute(f"SELECT id FROM {column.parent} ORDER BY id")
        return [*(row for (row,) in rows), None]
    if column.kind is Kind.STRING:
        keys = [cue for (cue,) in db.execute("SELECT DISTINCT cue FROM round_cue")]
        return ["zq", *keys, "numbness", "forehand/live"]
    if column.kind is Kind.DATE:
        return ["2025-01-02"]
    return [1_750_000_000_000, None] if column.kind is Kind.MOMENT else [0, 1, 2, 3, 7, None]


def test_every_table_is_the_players_or_about_nobody(desk: Desk) -> None:
    assert unlisted_tables(desk.book.db) == set()


def test_every_column_of_the_player_is_on_the_page_or_listed_with_its_reason(desk: Desk) -> None:
    assert silent_columns(desk.book) == set()


def test_the_list_of_what_is_left_out_names_columns_that_there_are(desk: Desk) -> None:
    there = {
        (table, column)
        for table in Database(desk.book.db).table_names()
        for (column,) in desk.book.db.execute("SELECT name FROM pragma_table_info(?)", [table])
    }
    assert {(table, column) for table, columns in LEFT_OUT.items() for column in columns} <= there


def test_a_new_column_and_a_new_table_are_noticed(desk: Desk) -> None:
    desk.book.db.executescript(
        "ALTER TABLE player ADD COLUMN shoe TEXT NOT NULL DEFAULT '';"
        "CREATE TABLE racquet (id INTEGER PRIMARY KEY, player_id INTEGER NOT NULL"
        " REFERENCES player (id), name TEXT NOT NULL) STRICT;"
        "CREATE TABLE diary (id INTEGER PRIMARY KEY, text TEXT NOT NULL) STRICT;"
        f"INSERT INTO racquet VALUES (1, {person(desk.book).id}, 'old');"
    )
    new = {("player", "shoe"), *(("racquet", name) for name in ("id", "player_id", "name"))}
    assert silent_columns(desk.book, "player", "racquet") == new
    assert unlisted_tables(desk.book.db) == {"diary"}


def test_what_was_written_of_the_player_is_there_in_full(desk: Desk) -> None:
    text = " ".join(everything_text(page(desk.book)).split())
    assert [secret for secret in SECRETS if secret not in text] == []


def test_text_html_and_json_hold_every_entry(desk: Desk) -> None:
    facts = page(desk.book)
    html = unescape(everything_html(facts))
    text = " ".join(everything_text(facts).split()).replace("- ", "")
    shown = json.dumps(jsonable(facts), ensure_ascii=False)
    entries = [entry for part in facts.parts for entry in part.entries]
    assert len(entries) > 20
    for entry in entries:
        assert " ".join(plain(entry.words).split()).replace("- ", "") in text
        assert plain(entry.words) in html
        assert json.dumps(entry.words, ensure_ascii=False)[1:-1] in shown


def test_a_hostile_note_is_text_in_every_form(desk: Desk) -> None:
    words = "<script>alert(1)</script> \x1b[2J \u202e &amp;"
    desk.book.db.execute("UPDATE note SET text = ? WHERE id = 1", [words])
    facts = page(desk.book)
    html, text = everything_html(facts), everything_text(facts)
    assert "<script" not in html
    assert not {"\x1b", "\u202e"} & {*html, *text}


def test_no_text_of_another_player_is_on_the_page(desk: Desk) -> None:
    """Every free text of everybody else becomes a word of its own, and none of them shows."""
    db = desk.book.db
    own = hanging_rows(links_of(db), f"id = {person(desk.book).id}")
    changes = 0
    with without_triggers(db):
        for table, columns in FREE_TEXT.items():
            for column in columns:
                where = f"NOT ({own.get(table, 'false')})"
                changes += db.execute(
                    f"UPDATE {table} SET {column} = 'zq-{table}-{column}' WHERE {where}"
                ).rowcount
    assert changes > 5
    assert "zq-" not in json.dumps(jsonable(page(desk.book)))


def test_names_of_others_are_taken_out_and_own_words_stay(desk: Desk) -> None:
    book, who = desk.book, person(desk.book)
    words = "like Tove, Märit goes late; Tove's grip"
    book.db.execute("UPDATE note SET text = ? WHERE id = 1", [words])
    shown = json.dumps(jsonable(page(book)), ensure_ascii=False)
    assert "like someone, Märit goes late; someone's grip" in shown
    assert "Tove" not in shown
    assert "Ruben" not in shown
    assert who.name in shown


def test_a_text_about_another_is_counted_and_never_quoted(desk: Desk) -> None:
    part = next(part for part in page(desk.book).parts if part.key == "elsewhere")
    words = sorted(entry.words for entry in part.entries)
    assert words == ["a clinician's word on another player", "a note on another player's round"]


@pytest.mark.parametrize("number", numbers())
def test_drawn_players_never_meet_on_a_page(number: int, tmp_path: Path) -> None:
    book, _ = in_book(tmp_path, drawn_clinic(number))
    with closing(book):
        everyone = {p for c in lookups.clinics(book) for p in lookups.players(book, c.id)}
        for who in everyone:
            facts = everything(book, who, YEAR, "", TODAY)
            shown = everything_text(facts)
            others = {other.name for other in everyone} - {who.name}
            coaches = {name for (name,) in book.db.execute("SELECT name FROM coach")}
            for other in others - coaches:
                assert not re.search(rf"(?<!\w){re.escape(other)}(?!\w)", shown)
            assert max(map(len, shown.splitlines())) <= 78


def test_earlier_words_are_shown_too(desk: Desk) -> None:
    db, who = desk.book.db, person(desk.book)
    db.execute("UPDATE player SET complaints = 'none now' WHERE id = ?", [who.id])
    db.execute("UPDATE note SET text = 'better' WHERE id = 1")
    part = next(part for part in page(desk.book).parts if part.key == "earlier")
    assert [(entry.label, entry.words) for entry in part.entries] == [
        ("a note", SECRETS[0]),
        ("your card", SECRETS[2]),
    ]


@pytest.mark.parametrize(
    ("today", "said"),
    [
        (date(2027, 5, 12), "That is until 12 May 2027."),
        (date(2027, 5, 13), "That time is over since 12 May 2027."),
    ],
)
def test_how_long_it_is_kept_is_said(desk: Desk, today: date, said: str) -> None:
    text = everything_text(page(desk.book, today))
    assert "It is kept for 12 months after the last day, which was 12 May 2026." in text
    assert said in text
