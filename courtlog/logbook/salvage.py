"""A book damaged on disk: what can still be read goes into a new one; the damaged file stays as is.

Rows are read in the order of their keys. Where reading stops, a search by halves finds the next
place from which rows can be read again, so that a bad page costs the rows on it and not the rest.
Without the pages that say which table begins where, no row can be told from another: there is only
the last backup then.
"""

from __future__ import annotations

import shutil
import sqlite3
from collections import deque
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from courtlog import drafts
from courtlog.errors import NotABookError
from courtlog.logbook import backups, copying, doctor
from courtlog.logbook.ids import COUNT_BITS
from courtlog.logbook.journal import ball_state
from courtlog.logbook.opening import Book, create_or_open

PROBES = 4000
"""Places tried in one table to find rows behind a bad page."""

_RECOUNTED = "tally"
"""What is worked out from the balls again rather than read."""

Row = tuple[object, ...]


@dataclass(frozen=True, slots=True)
class Saved:
    """What came over: balls taken, and rows of any kind.

    `filled` rows were lost and taken from the last backup; `loose` ones were left out, because what
    they belong to is lost.
    """

    balls: int
    rows: int
    filled: int
    loose: int


def save(damaged: Path, new: Path, at: int) -> Saved:
    """Read what can be read of a damaged book into a new one. Raises BookError.

    Works on a copy, so that not even SQLite touches the damaged file.
    """
    with drafts.folder_in(new.parent) as folder:
        patient = folder / "book.db"
        for ending in ("", "-wal"):
            part = Path(f"{damaged}{ending}")
            if part.exists():
                shutil.copyfile(part, f"{patient}{ending}")
        if not _says_what_lies_where(patient):
            raise NotABookError(
                f"Not one ball could be read from {damaged}: the page that says what lies where"
                " is damaged.",
                "Restore the last backup: `courtlog restore` lists them.",
            )
        draft = folder / "saved.db"
        with closing(create_or_open(draft, at)) as book:
            saved = _save(patient, book, backups.folder_of(damaged))
        if not saved.balls:
            raise NotABookError(
                f"Not one ball could be read from {damaged}.",
                "`courtlog restore` lists the backups.",
            )
        drafts.put_new(draft, new)
    return saved


def _says_what_lies_where(patient: Path) -> bool:
    try:
        with closing(copying.reading(patient)) as source:
            return bool(source.execute("SELECT sql FROM sqlite_master").fetchall())
    except sqlite3.DatabaseError:
        return False


def _save(patient: Path, book: Book, folder: Path) -> Saved:
    book.db.execute("PRAGMA foreign_keys = OFF")  # parents may be lost: looked at when all is over
    with closing(sqlite3.connect(patient, isolation_level=None)) as source, book.writing() as db:
        source.execute("PRAGMA query_only = ON")
        rows = sum(_table(source, db, table) for table in _tables(db))
        filled = _fill(db, folder) + _grade(db) if rows else 0
        loose = _drop_loose(db)
        doctor.mend_in(db)
        (balls,) = db.execute("SELECT count(*) FROM ball WHERE taken").fetchone()
    return Saved(balls, rows, filled, loose)


def _tables(db: sqlite3.Connection) -> list[str]:
    rows = db.execute(
        "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'"
        " AND name NOT LIKE '\\_%' ESCAPE '\\' AND name <> ? ORDER BY rowid",
        [_RECOUNTED],
    )
    return [table for (table,) in rows]


def _table(source: sqlite3.Connection, db: sqlite3.Connection, table: str) -> int:
    info = db.execute(f"SELECT name, pk FROM pragma_table_info('{table}')").fetchall()
    try:
        held = {name for _, name, *_ in source.execute(f"PRAGMA table_info({table})")}
    except sqlite3.Error:
        return 0
    columns = [name for name, _ in info if name in held]
    keys = [name for name, place in sorted(info, key=lambda one: one[1]) if place]
    if not columns or not held.issuperset(keys):
        return 0
    names, marks = ", ".join(columns), ", ".join("?" * len(columns))
    before = db.total_changes
    for row in _readable(source, table, names, keys):
        try:
            db.execute(f"INSERT OR REPLACE INTO {table} ({names}) VALUES ({marks})", row)
        except sqlite3.IntegrityError:
            continue  # a value that no book may hold: the damage reached into this row
    return db.total_changes - before


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
                reached = key
                yield tuple(row)
            continue
        except sqlite3.Error:
            pass
        back = high
        try:
            for key, *row in source.execute(f"{asked} {down}", [reached, high]):
                back = key
                yield tuple(row)
        except sqlite3.Error:
            pass
        middle = (reached + back) // 2
        if reached < middle < back:
            gaps += [(reached, middle), (middle, back)]


def _fill(db: sqlite3.Connection, folder: Path) -> int:
    """Rows that are lost and stand in the last backup of this book; returns how many.

    A grade may have been taken back since, so grades come from the last line of a ball's journal,
    and from the backup only for a ball that has none.
    """
    tag = db.execute(
        "SELECT coalesce((SELECT max(id) >> ? FROM ball), (SELECT tag FROM book))", [COUNT_BITS]
    ).fetchone()[0]
    copies = backups.paths(folder, tag)
    if not copies:
        return 0
    before = db.total_changes
    with closing(copying.reading(copies[-1])) as copy:
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
        grades, _ = ball_state(last)
        db.executemany(
            "INSERT OR IGNORE INTO rating VALUES (?, ?, ?)",
            [(ball, row, int(g)) for row, g in enumerate(grades.grades) if g is not None],
        )
    return db.total_changes - before


def _drop_loose(db: sqlite3.Connection) -> int:
    """Leave out rows whose round, ball or player is lost; returns how many there were.

    Where a row can stand without what it points at, it does.
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
