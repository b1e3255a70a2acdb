"""Books with something in every table, and how two books are compared."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

from courtlog.logbook.file.book import Book
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.schema import row_versions
from courtlog.logbook.schema.database import Database
from courtlog.logbook.schema.migrations import migrations
from courtlog.logbook.schema.schema_check import APPLICATION_ID
from courtlog.logbook.schema.tables import tables
from tests.court import START, desk_in, feed, player

AWKWARD = (
    *("=1+1", "+1", "-1", "@SUM(A1)", "\tx", "\r\nx", "\nx", "'quoted", "''", "＝1", "−1", ""),
    *('"', ",", ";", "a\0b", "\0", "é\u202e", "木村", "\ufeffx", "x" * 200_000, "NULL", "007"),
)

Rows = dict[str, list[tuple[object, ...]]]


def content(db: sqlite3.Connection) -> Rows:
    """Every row of every table that travels, by table."""
    return {
        table.name: db.execute(f"SELECT * FROM {table.name} ORDER BY {table.in_order}").fetchall()
        for table in tables(db)
    }


def counts(db: sqlite3.Connection) -> set[tuple[object, ...]]:
    """The tallies that say something."""
    return set(db.execute("SELECT * FROM tally WHERE missed OR near OR made OR unseen").fetchall())


def full_book(folder: Path) -> Book:
    """A clinic fed by keys, one player a minor, with a row in every table."""
    folder.mkdir(exist_ok=True)
    desk = desk_in(folder)
    feed(desk, "222 2-1!/ _ @ T 0< 02 / 1")
    desk.balls.note("too slow")
    desk.rounds.start(player(desk, "Tove"))
    feed(desk, "210 _ 0")
    desk.balls.note("=HYPERLINK(1)")
    desk.rounds.start(player(desk, "Ruben"))
    feed(desk, "222 _ _")
    desk.rounds.start(player(desk, "Maren"))
    feed(desk, "_ _ 0")
    db = desk.book.db
    people = {name: player(desk, name).id for name in ("Maren", "Tove", "Ruben")}
    clinic, day = desk.view.clinic.id, desk.view.day.id
    with desk.book.writing():
        db.execute("UPDATE player SET age_group = 'minor' WHERE id = ?", [people["Ruben"]])
        db.execute(
            "UPDATE player SET short_name = 'Mar', complaints = 'left knee', contact = 'aunt Jorun'"
            " WHERE id = ?",
            [people["Maren"]],
        )
        for id_, (name, person) in enumerate(people.items(), 1):
            day_and_person = [day, person]
            db.execute(
                "INSERT INTO check_in (id, day_id, player_id, moment, pain, place, note, at)"
                " VALUES (?, ?, ?, 'arrival', 6, 'left shin', ?, ?)",
                [id_, *day_and_person, f"said by {name}", START],
            )
            db.execute(
                "INSERT INTO focus VALUES (?, ?, 'forehand', 'hits hard', 'turn', 'because', ?)",
                [clinic, person, START],
            )
            db.execute(
                "INSERT INTO main_cue VALUES (?, ?, ?, 'forehand', 'turn', ?)",
                [id_, clinic, person, START],
            )
            db.execute(
                "INSERT INTO filming_consent VALUES (?, ?, 'yes', '2026-05-12', 'aunt Jorun', ?)",
                [id_, person, START],
            )
            db.execute(
                "INSERT OR REPLACE INTO attendance (day_id, player_id, state, head_start, at)"
                " VALUES (?, ?, 'late', 2.5, ?)",
                [*day_and_person, START],
            )
            db.execute(
                "INSERT OR REPLACE INTO standing (day_id, player_id, station, since)"
                " VALUES (?, ?, 'fence', ?)",
                [*day_and_person, START],
            )
            db.execute(
                "INSERT INTO solo VALUES (?, ?, ?, 'shadow', 20, ?)", [id_, *day_and_person, START]
            )
            db.execute(
                "INSERT INTO red_flag VALUES (?, ?, ?, ?, 'pain 6, more than 5', ?)",
                [id_, *day_and_person, id_, START],
            )
            db.execute(
                "INSERT INTO clinician_word VALUES (?, ?, 'Dr Pilou', 'rest it', ?)",
                [id_, id_, START],
            )
            db.execute(
                "INSERT INTO player_court VALUES (?, ?, '2026-05-12', ?, '2', 'dealt', ?)",
                [id_, clinic, person, START],
            )
            db.execute(
                "INSERT INTO planned_round VALUES"
                " (?, ?, '2026-05-13', ?, ?, 'forehand/live', 'practice', 20)",
                [id_, clinic, id_, person],
            )
        db.execute(
            "INSERT INTO queue_swap VALUES (1, ?, 2, ?, ?, ?)",
            [day, people["Maren"], people["Ruben"], START],
        )
        db.execute("INSERT INTO heat VALUES (1, ?, 31.5, 60, NULL, ?)", [day, START])
        ball, row = db.execute("SELECT min(id), max(round_id) FROM ball").fetchone()
        db.execute(
            "INSERT INTO amendment VALUES (1, 'purpose', ?, NULL, 'Ines', ?, NULL)", [row, START]
        )
        db.execute(
            "INSERT INTO amended VALUES (1, 1, NULL, 'purpose', ?, '\"hold\"', '\"practice\"')",
            [row],
        )
        db.execute(
            "INSERT INTO film VALUES (1, ?, 'Maren.mp4', 'f1', 600000, ?, 'slate', -200, ?)",
            [clinic, START, START],
        )
        db.execute("INSERT INTO film_court VALUES (1, ?, 1, '1', ?)", [clinic, START])
        db.execute("INSERT INTO moved_hit VALUES (1, ?, 300)", [ball])
        db.execute("INSERT INTO coach VALUES (2, 'Berit')")
        db.execute(
            "INSERT INTO blind_page SELECT 1, ?, player_id, 'forehand', 'turn spacing', 'KRTW', 7,"
            " ? FROM round JOIN ball ON round_id = round.id WHERE ball.id = ?",
            [clinic, START, ball],
        )
        db.execute("INSERT INTO blind_ball VALUES (1, 1, ?)", [ball])
        db.execute("INSERT INTO blind_sitting VALUES (1, 2, 1)")
        db.execute(
            "INSERT INTO home_yardstick SELECT 1, ?, player_id, drill_id, '2026-06-20', 'Jorun',"
            " 'turn spacing', '22 1- .', ?, 0 FROM round JOIN ball ON round_id = round.id"
            " WHERE ball.id = ?",
            [clinic, START, ball],
        )
        db.execute(
            "INSERT INTO sheet_round SELECT round_id, 2, 'digest', id, 1 FROM ball WHERE id = ?",
            [ball],
        )
        db.execute("INSERT INTO second_rating VALUES (1, ?, 2, 1, 0, 2, ?)", [ball, START])
        db.execute("INSERT INTO erased VALUES (4611686018427387981)")
        db.execute("INSERT INTO matched VALUES ('player', ?, 1000000, 0)", [7])
        (one,) = (table for table in tables(db) if table.name == "player")
        key, reading = row_versions.key_sql(one, ""), row_versions.values_sql(one, "")
        for revision, name in ((5, "Ruben"), (4, "Rubén")):  # another book writes it otherwise
            db.execute(
                f"INSERT INTO conflict SELECT 'player', {key}, ?,"
                f" json_set({reading}, '$[0]', ?) FROM player WHERE id = ?",
                [revision, name, people["Ruben"]],
            )
        db.execute("INSERT INTO said SELECT id, 'outer', ? FROM ball WHERE number = 1", [START])
    return desk.book


def book_of_version(book: Book, path: Path, version: int) -> Path:
    """A file as an earlier courtlog wrote it, with what of the book it had room for."""
    with closing(Database(sqlite3.connect(path), execute_plugins=False)) as old:
        migrations.apply(old, stop_before=[m.name for m in migrations.pending(old)][version:])
        old.execute(f"PRAGMA application_id = {APPLICATION_ID}")
        old.execute(f"PRAGMA user_version = {version}")
        names = set(old.table_names()) & {table.name for table in tables(book.db)}
        for name in sorted(names | {"tally"}):
            columns = list(old.table(name).columns_dict)
            held = book.db.execute(f"SELECT {', '.join(columns)} FROM {name}").fetchall()
            marks = ", ".join("?" * len(columns))
            old.conn.executemany(f"INSERT INTO {name} VALUES ({marks})", held)
        old.conn.commit()
    return path


def awkward_book(folder: Path) -> Book:
    """A book whose texts are those that files and spreadsheets stumble over."""
    book = full_book(folder)
    round_id, ball_id = book.db.execute("SELECT round_id, id FROM ball LIMIT 1").fetchone()
    with book.writing():
        for number, text in enumerate(AWKWARD, 100):
            book.db.execute("INSERT INTO player (id, name) VALUES (?, ?)", [number, text])
            book.db.execute(
                "INSERT INTO note VALUES (?, ?, ?, ?, NULL)",
                [number, round_id, ball_id if number % 2 else None, text],
            )
            book.db.execute("UPDATE roster SET next_drill = ?", [text])
    return book


def empty_book(folder: Path, name: str = "empty") -> Book:
    """A new book."""
    return create_or_open(folder / f"{name}.db", START)
