"""A book's file looked at as what it is, before anything in it is asked or obeyed.

A file may come from anywhere, and its schema is a program: views that never end, triggers, names
that are SQL. So it has to be, object by object, what the migrations make for the file's version.
"""

from __future__ import annotations

import hashlib
import re
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache

APPLICATION_ID = 0x43_54_4C_47
"""`CTLG`, written into the file's header: this is a book and nothing else."""


SCHEMA = 9
"""How many migrations this courtlog knows; a book with more is of a later one."""


DIGESTS = {
    1: "738c885118736c43706b0ebbbce621705a7ca9376503791956f7e7a41ad59c64",
    2: "4e9989d8a2136fd46e6fe1ba1c1eb6343bab80a4d9edbaaef59fc9586ae30223",
    3: "347572f1d7f7f25b7ac35ce79b95a9616f7a17d06c814f780bdb06536b6e542e",
    4: "4b9c3ec94926b3c4371e4c10ba32236fb9effd7a7d96d4216d8815f543ef7cb7",
    5: "479f405e94fe80eb2ab05451b301c32a8df4aa2187091d64fc38938858d2d43f",
    6: "d0199d88717d4ddb0c940ee9bbc1604492aba5eca295ba7d7260d0d21fe2faa1",
    7: "181b3daccda77ca17e2b51e5be668432e9814e20dac66c10aba86af62d7cbd49",
    8: "f592df22027e560eedcaaa5c57d02f8f0f893079a2b37d53ac9e4186f304fc8a",
    9: "9a6bab05a11a80f962989bc62b05f14c6ed99eab84ccf8c98f7e6ebe1b871687",
}
"""A short name of each version's whole schema, so that a book of ours is known at once.

A test makes them from the migrations. Where SQLite words the same schema otherwise, the names
differ and the objects themselves are compared (schema_check.py).
"""

MOST_BYTES = 8 << 20
"""Bytes of one value or row: no text that somebody writes comes near."""

_MOST_OBJECTS = 1000
_LONGEST_NAME = 60

_EVERY = 100_000
"""Steps of SQLite's machine between two looks at how many there were; about a millisecond."""

_STEPS = 100_000_000
_STEPS_A_BYTE = 50
"""What looking at a book may take: a sound one was seen to need fewer than two steps a byte."""

_PIECES = re.compile(r"""('(?:[^']|'')*'|"(?:[^"]|"")*")|(?:--[^\n]*|/\*.*?\*/|\s)+""", re.DOTALL)
"""A text or a quoted name, or else blanks and comments, which say nothing."""

Schema = dict[tuple[str, str], str]
"""The SQL of each object by its type and name; blanks and comments are left out."""


def be_wary(db: sqlite3.Connection) -> None:
    """Have SQLite check each page that it reads, and take no value of any size.

    Source: sqlite.org/security.html, "Untrusted SQLite Database Files".
    """
    db.execute("PRAGMA cell_size_check = ON")
    db.setlimit(sqlite3.SQLITE_LIMIT_LENGTH, MOST_BYTES)


@contextmanager
def within_bounds(db: sqlite3.Connection) -> Iterator[None]:
    """End what asks far more of SQLite than a book of this size needs. Raises sqlite3.Error."""
    left = (_STEPS + _STEPS_A_BYTE * _size(db)) // _EVERY

    def is_over() -> bool:
        nonlocal left
        left -= 1
        return left < 0

    db.set_progress_handler(is_over, _EVERY)
    try:
        yield
    finally:
        db.set_progress_handler(None, 0)


def strangeness(db: sqlite3.Connection) -> str | None:
    """What of the file's schema is not as courtlog makes it, as a sentence; None if all is.

    Only the list of objects is read, which runs nothing of the schema. What is ours word by word
    may run (SQLite 3.40 takes the JSON functions of our checks for unsafe ones); what is not, may
    not. Raises sqlite3.Error where not even the list can be read.
    """
    be_wary(db)
    what = _strangeness(db)
    if what is not None:
        db.execute("PRAGMA trusted_schema = OFF")
    return what


def _strangeness(db: sqlite3.Connection) -> str | None:
    try:
        rows = _objects(db)
        broken = False
    except sqlite3.DatabaseError:
        # SQLite gives up at the first object that it cannot read; this makes it go on.
        db.execute("PRAGMA writable_schema = ON")
        db.text_factory = lambda text: text.decode(errors="replace")
        rows = _objects(db)
        broken = True
    (version,) = db.execute("PRAGMA user_version").fetchone()
    if not broken and digest(rows) == DIGESTS.get(version):
        return None
    if not 1 <= version <= SCHEMA:
        return f"its version is {version}"
    if len(rows) > _MOST_OBJECTS:
        return f"it has more than {_MOST_OBJECTS} tables, indexes, views and triggers"
    return _first_difference(_schema(rows), made_by_migrations(version)) or (
        "its schema cannot be read" if broken else None
    )


def digest(rows: list[tuple[str, str, str, str | None]]) -> str:
    """A short name of a whole schema, whatever the order of its objects."""
    ordered = sorted(rows, key=lambda row: f"{row[0]} {row[1]}")
    return hashlib.sha256(repr(ordered).encode(errors="replace")).hexdigest()


@cache
def made_by_migrations(version: int) -> Schema:
    """The schema of a book of that version."""
    # A book of today needs neither, and they are slow to load.
    from courtlog.logbook.schema.database import Database
    from courtlog.logbook.schema.migrations import migrations

    fresh = Database(memory=True, execute_plugins=False)
    try:
        later = [step.name for step in migrations.pending(fresh)][version:]
        migrations.apply(fresh, stop_before=later)
        return _schema(_objects(fresh.conn))
    finally:
        fresh.close()


def is_plain_table(db: sqlite3.Connection, table: str) -> bool:
    """Whether the file has this table as one of rows alone, and nothing is worked out in it."""
    held = db.execute(
        "SELECT type, sql LIKE 'CREATE TABLE%' FROM sqlite_master WHERE name = ?", [table]
    ).fetchall()
    if held != [("table", 1)]:
        return False
    (worked_out,) = db.execute(
        "SELECT count(*) FROM pragma_table_xinfo(?) WHERE hidden", [table]
    ).fetchone()
    return not worked_out


def _size(db: sqlite3.Connection) -> int:
    """Bytes of the file; none where its schema cannot be read."""
    try:
        (pages,), (page,) = (
            db.execute(f"PRAGMA {name}").fetchone() for name in ("page_count", "page_size")
        )
    except sqlite3.DatabaseError:
        return 0
    return int(pages * page)


def _objects(db: sqlite3.Connection) -> list[tuple[str, str, str, str | None]]:
    # ANALYZE, which any tool may run, leaves its counts in tables of SQLite's own.
    found = db.execute(
        "SELECT type, name, tbl_name, sql FROM sqlite_master"
        " WHERE name NOT IN ('sqlite_stat1', 'sqlite_stat4')"
    )
    return found.fetchmany(_MOST_OBJECTS + 1)


def _schema(rows: list[tuple[str, str, str, str | None]]) -> Schema:
    found: Schema = {}
    for kind, name, table, sql in rows:
        words = _PIECES.sub(lambda match: match[1] or " ", f"{table} {sql or ''}")
        # A second object of one kind and name makes the first one differ.
        found[str(kind), str(name)] = found.get((str(kind), str(name)), "") + words.strip()
    return found


def _first_difference(schema: Schema, wanted: Schema) -> str | None:
    for (kind, name), sql in schema.items():
        short = name if len(name) <= _LONGEST_NAME else f"{name[:_LONGEST_NAME]}…"
        if (kind, name) not in wanted:
            return f"it has {_a(kind)} {short!r} of its own"
        if sql != wanted[kind, name]:
            return f"the {kind} {name} is another"
    for kind, name in wanted.keys() - schema.keys():
        return f"the {kind} {name} is missing"
    return None


def _a(kind: str) -> str:
    known = {"table": "a table", "index": "an index", "view": "a view", "trigger": "a trigger"}
    return known.get(kind, "an object")
