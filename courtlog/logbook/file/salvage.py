"""Save what can still be read of a damaged book into a new one; the damaged file stays as it is.

Tables are read by the names that every book has, and only those that hold plain rows. Rows are read
in the order of their keys. Where reading stops, a search by halves finds the next place that can be
read. So a bad page costs the rows on it and not the rest. Without the pages that say where each
table begins, no row can be told from another. Then only the last backup helps.
"""

from __future__ import annotations

import contextlib
import shutil
import sqlite3
from collections import deque
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from courtlog import drafts
from courtlog.errors import NotABookError
from courtlog.logbook.file import backups, copying, doctor, file_identity
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.open_book import create_or_open
from courtlog.logbook.rows import value_limits
from courtlog.logbook.rows.ids import COUNT_BITS
from courtlog.logbook.rows.journal import ball_state
from courtlog.logbook.schema import schema_check
from courtlog.logbook.schema.row_versions import without_triggers
from courtlog.logbook.schema.tables import tables

PROBES = 4000
"""Places tried in one table to find rows behind a bad page."""

_NOT_READ = ("tally", "home")
"""What is worked out from the balls again, and what the new file knows of itself."""

Row = tuple[object, ...]


@dataclass(frozen=True, slots=True)
class SalvageResult:
    """What came over: balls taken, and rows of any kind.

    `filled` rows were lost and taken from the last backup; `loose` ones were left out, because what
    they belong to is lost.
    """

    balls: int
    rows: int
    filled: int
    loose: int


def salvage_book(damaged: Path, new: Path, at_ms: int) -> SalvageResult:
    """Read what can be read of a damaged book into a new one. Raises BookError.

    Works on a copy, so that not even SQLite touches the damaged file.
    """
    with drafts.folder_in(new.parent) as folder:
        patient = folder / "book.db"
        for ending in ("", "-wal"):
            part = Path(f"{damaged}{ending}")
            if part.exists():
                shutil.copyfile(part, f"{patient}{ending}")
        if not _has_schema(patient):
            raise NotABookError(
                f"Not one ball could be read from {damaged}: the page that says what lies where"
                " is damaged.",
                "Restore the last backup: `courtlog restore` lists them.",
            )
        draft = folder / "saved.db"
        with closing(create_or_open(draft, at_ms)) as book:
            saved = _save(patient, book, backups.folder_of(damaged))
        if not saved.balls:
            raise NotABookError(
                f"Not one ball could be read from {damaged}.",
                "`courtlog restore` lists the backups.",
            )
        drafts.put_new(draft, new)
    return saved


def _has_schema(patient: Path) -> bool:
    try:
        with closing(copying.open_read_only(patient)) as source:
            source.execute(_GO_ON)
            return bool(source.execute("SELECT sql FROM sqlite_master").fetchall())
    except sqlite3.DatabaseError:
        return False


_GO_ON = "PRAGMA writable_schema = ON"
"""An object that SQLite cannot read then costs that object and not the whole file."""


def _save(patient: Path, book: Book, folder: Path) -> SalvageResult:
    book.db.execute("PRAGMA foreign_keys = OFF")  # parents may be lost: looked at when all is over
    with (
        closing(sqlite3.connect(patient, isolation_level=None)) as source,
        book.writing() as db,
        without_triggers(db),
    ):
        schema_check.be_wary(source)
        source.execute("PRAGMA query_only = ON")
        source.execute(_GO_ON)
        own = db.execute("SELECT * FROM book").fetchone()
        with schema_check.within_bounds(source):
            rows = sum(_table(source, db, table) for table in _tables(db))
        filled = _fill(db, folder) + _grade(db) if rows else 0
        loose = _drop_beyond(db, own) + _drop_loose(db)
        file_identity.rise_above_all(db, book.ids)
        doctor.mend_in(db)
        (balls,) = db.execute("SELECT count(*) FROM ball WHERE taken").fetchone()
    return SalvageResult(balls, rows, filled, loose)


def _tables(db: sqlite3.Connection) -> list[str]:
    rows = db.execute(
        "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'"
        " AND name NOT LIKE '\\_%' ESCAPE '\\' AND name NOT IN (?, ?) ORDER BY rowid",
        _NOT_READ,
    )
    return [table for (table,) in rows]


def _table(source: sqlite3.Connection, db: sqlite3.Connection, table: str) -> int:
    info = db.execute(f"SELECT name, pk FROM pragma_table_info('{table}')").fetchall()
    try:
        if not schema_check.is_plain_table(source, table):
            return 0
        held = {name for _, name, *_ in source.execute(f"PRAGMA table_info({table})")}
    except sqlite3.Error:
        return 0
    columns = [name for name, _ in info if name in held]
    keys = [name for name, place in sorted(info, key=lambda one: one[1]) if place]
    if not columns or not held.issuperset(keys):
        return 0
    names, marks = ", ".join(columns), ", ".join("?" * len(columns))
    before = db.total_changes
    (kind,) = db.execute(
        "SELECT type FROM pragma_table_info(?) WHERE name = ?", [table, keys[0]]
    ).fetchone()
    read = _readable if kind == "INTEGER" else _readable_until_damage
    for row in read(source, table, names, keys):
        try:
            db.execute(f"INSERT OR REPLACE INTO {table} ({names}) VALUES ({marks})", row)
        except (sqlite3.IntegrityError, sqlite3.DataError):
            continue  # a value that no book may hold: the damage reached into this row
    return db.total_changes - before


def _readable_until_damage(
    source: sqlite3.Connection, table: str, names: str, keys: list[str]
) -> Iterator[Row]:
    """Rows of a table whose keys are texts, which cannot be halved, up to a bad page."""
    with contextlib.suppress(sqlite3.Error):
        yield from source.execute(f"SELECT {names} FROM {table} ORDER BY {', '.join(keys)}")


def _readable(source: sqlite3.Connection, table: str, names: str, keys: list[str]) -> Iterator[Row]:
    """Rows of a table by ascending key, and around what cannot be read, from both its sides."""
    first, order = keys[0], ", ".join(keys)
    down = ", ".join(f"{key} DESC" for key in keys)
    edge, probes = -(2**63), 0
    gaps = deque([(edge, 2**63 - 1)])
    while gaps and probes < PROBES:
        low, high = gaps.popleft()
        probes += 1
        asked = f"SELECT {first}, {names} FROM {table} WHERE {first} BETWEEN ? AND ? ORDER BY"
        reached = low
        try:
            for key, *row in source.execute(f"{asked} {order}", [low, high]):
                reached = int(key)
                yield tuple(row)
            continue
        except sqlite3.Error:
            pass
        back = high
        try:
            for key, *row in source.execute(f"{asked} {down}", [reached, high]):
                back = int(key)
                yield tuple(row)
        except sqlite3.Error:
            pass
        middle = (reached + back) // 2
        if reached < middle < back:
            gaps += [(reached, middle), (middle, back)]


def _fill(db: sqlite3.Connection, folder: Path) -> int:
    """Add rows that are lost here but stand in the last backup of this book; returns how many.

    A grade may have been taken back since the backup. So grades come from the last line of a ball's
    journal, and from the backup only for a ball without a journal.
    """
    tag = db.execute(
        "SELECT coalesce((SELECT max(id) >> ? FROM ball), (SELECT tag FROM book))", [COUNT_BITS]
    ).fetchone()[0]
    copies = backups.backup_paths(folder, tag)
    if not copies:
        return 0
    before = db.total_changes
    with closing(copying.open_read_only(copies[-1])) as copy:
        if schema_check.strangeness(copy) is not None:
            return 0
        for table in sorted(_tables(db), key="rating".__eq__):
            held = [name for _, name, *_ in copy.execute(f"PRAGMA table_info({table})")]
            marks = ", ".join("?" * len(held))
            if not held:
                continue
            rows: Iterator[Row] = copy.execute(f"SELECT * FROM {table}")
            if table == "rating":
                told = {ball for (ball,) in db.execute("SELECT DISTINCT ball_id FROM journal")}
                rows = (row for row in rows if row[0] not in told)
            db.executemany(
                f"INSERT OR IGNORE INTO {table} ({', '.join(held)}) VALUES ({marks})", rows
            )
    return db.total_changes - before


def _grade(db: sqlite3.Connection) -> int:
    """Grades that are lost, from the last line of each ball's journal; returns how many."""
    before = db.total_changes
    for ball, last in db.execute(
        "SELECT ball_id, after FROM journal WHERE id IN"
        " (SELECT max(id) FROM journal WHERE kind <> 'move' GROUP BY ball_id)"
    ).fetchall():
        try:
            grades, _ = ball_state(last)
        except ValueError:
            continue  # no line that courtlog wrote
        db.executemany(
            "INSERT OR IGNORE INTO rating VALUES (?, ?, ?)",
            [(ball, row, int(g)) for row, g in enumerate(grades.grades) if g is not None],
        )
    return db.total_changes - before


def _drop_beyond(db: sqlite3.Connection, own: Row) -> int:
    """Leave out rows that no later command could read; returns how many there were.

    `own` is the new book's row of itself, for when the damaged one's is among them.
    """
    dropped = 0
    for table in tables(db):
        for condition, _ in value_limits.conditions(table):
            dropped += db.execute(f"DELETE FROM {table.name} WHERE {condition}").rowcount
    if db.execute("SELECT 1 FROM book").fetchone() is None:
        db.execute("INSERT INTO book VALUES (?, ?, ?, ?, ?)", own)
    return dropped


def _drop_loose(db: sqlite3.Connection) -> int:
    """Drop rows whose round, ball or player is lost; returns how many there were.

    A row that may do without the lost one stays.
    """
    dropped = 0
    while loose := db.execute("PRAGMA foreign_key_check").fetchall():
        for table in {table for table, *_ in loose}:
            needed = {
                name
                for name, needed in db.execute(
                    f"SELECT name, \"notnull\" OR pk FROM pragma_table_info('{table}')"
                )
                if needed
            }
            for column, parent in db.execute(
                f'SELECT "from", "table" FROM pragma_foreign_key_list(\'{table}\')'
            ).fetchall():
                lost = f"{column} IS NOT NULL AND {column} NOT IN (SELECT id FROM {parent})"
                if column in needed:
                    before = db.total_changes
                    db.execute(f"DELETE FROM {table} WHERE {lost}")
                    dropped += db.total_changes - before
                else:
                    db.execute(f"UPDATE {table} SET {column} = NULL WHERE {lost}")
    return dropped
