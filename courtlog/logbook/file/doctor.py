"""The book's doctor: what does not fit together, in sentences with counts, and what can be mended.

One check is one SELECT and the words for what it finds. What follows from the balls (tallies, ball
numbers, the bookmark) is mended in one transaction; nothing else is touched.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from courtlog.logbook.file import copying
from courtlog.logbook.file.book import Book
from courtlog.logbook.rows import soundness, tallies
from courtlog.logbook.rows.numbering import renumber
from courtlog.logbook.schema import schema_check
from courtlog.logbook.schema.schema_check import APPLICATION_ID, SCHEMA
from courtlog.logbook.schema.tables import tables
from courtlog.plain_text import many


@dataclass(frozen=True, slots=True)
class Finding:
    """Something that is wrong, and whether it can be worked out again from the balls."""

    sentence: str
    mendable: bool


@dataclass(frozen=True, slots=True)
class _Check:
    """How many are wrong, the sentence for that many, and how to mend them if that can be done."""

    count: Callable[[sqlite3.Connection], int]
    words: Callable[[int], str]
    mend: Callable[[sqlite3.Connection], None] | None = None


def damage(path: Path) -> str | None:
    """A sentence on the first thing wrong with the file itself: its schema, then its pages.

    None for a sound one. Only reads: a damaged file is not opened for writing.
    """
    try:
        with closing(copying.open_read_only(path)) as db, schema_check.within_bounds(db):
            if (what := _strangeness(db)) is not None:
                return f"The book is not as courtlog makes it: {what}."
            (first,) = db.execute("PRAGMA integrity_check(1)").fetchone()
    except sqlite3.DatabaseError as error:
        first = str(error)
    return None if first == "ok" else f"The book is damaged on disk ({first.splitlines()[-1]})."


def _strangeness(db: sqlite3.Connection) -> str | None:
    """What of the schema courtlog did not make.

    A book of another program, or of a later courtlog, is refused in its own words when it is
    opened.
    """
    (kind,) = db.execute("PRAGMA application_id").fetchone()
    (version,) = db.execute("PRAGMA user_version").fetchone()
    if kind != APPLICATION_ID or version > SCHEMA:
        return None
    return schema_check.strangeness(db)


def findings(book: Book) -> list[Finding]:
    """Everything that is wrong with what a sound file holds."""
    with book.reading():
        found = [
            Finding(check.words(count), check.mend is not None)
            for check in _CHECKS
            if (count := check.count(book.db))
        ]
        # The rest of what a look-up takes for granted says much of this again in other words.
        return found or _unsound(book.db)


def _unsound(db: sqlite3.Connection) -> list[Finding]:
    faults = list(soundness.faults(db, tables(db)))
    if not faults:
        return []
    first = f"{faults[0].table}: {faults[0].sentence}"
    verb = "holds" if len(faults) == 1 else "hold"
    return [Finding(f"{many(len(faults), 'row')} {verb} what no courtlog writes ({first})", False)]


def mend(book: Book) -> None:
    """Work out from the balls again what can be, in one transaction."""
    with book.writing() as db:
        mend_in(db)


def mend_in(db: sqlite3.Connection) -> None:
    """The same within a transaction that is open already."""
    for check in _CHECKS:
        if check.mend is not None and check.count(db):
            check.mend(db)


def _number(sql: str) -> Callable[[sqlite3.Connection], int]:
    def count(db: sqlite3.Connection) -> int:
        return int(db.execute(f"SELECT count(*) FROM ({sql})").fetchone()[0])

    return count


def _statements(*statements: str) -> Callable[[sqlite3.Connection], None]:
    def mend(db: sqlite3.Connection) -> None:
        for statement in statements:
            db.execute(statement)

    return mend


def _broken_links(db: sqlite3.Connection) -> int:
    return len(db.execute("PRAGMA foreign_key_check").fetchall())


_NUMBERED = (
    "SELECT round_id, number, row_number() OVER (PARTITION BY round_id ORDER BY taken DESC, number)"
    " AS place FROM ball WHERE number > 0"
)


def _renumber(db: sqlite3.Connection) -> None:
    wrong = f"SELECT DISTINCT round_id FROM ({_NUMBERED}) WHERE place <> number"
    for (round_id,) in db.execute(wrong).fetchall():
        renumber(db, round_id)


_CHECKS = (
    _Check(
        _broken_links,
        lambda n: f"{many(n, 'row')} {'points' if n == 1 else 'point'} at something that is gone.",
    ),
    _Check(
        _number(
            "SELECT id FROM round WHERE EXISTS (SELECT 1 FROM ball WHERE round_id = round.id)"
            " AND NOT EXISTS (SELECT 1 FROM round_cue WHERE round_id = round.id)"
        ),
        lambda n: f"{many(n, 'round')} with balls {'has' if n == 1 else 'have'} no cues.",
    ),
    _Check(
        _number(
            "SELECT 1 FROM rating JOIN ball ON ball.id = ball_id WHERE NOT EXISTS"
            " (SELECT 1 FROM round_cue WHERE round_cue.round_id = ball.round_id"
            " AND round_cue.row = rating.row)"
        ),
        lambda n: (
            f"{many(n, 'grade')} {'stands' if n == 1 else 'stand'} on a cue that the round does"
            " not have."
        ),
    ),
    _Check(
        lambda db: sum(1 for _ in soundness.balls_unlike_journal(db)),
        lambda n: (
            f"{many(n, 'ball')} {'is' if n == 1 else 'are'} not as the last key in the journal"
            " left it."
        ),
    ),
    _Check(
        _number(f"SELECT 1 FROM ({_NUMBERED}) WHERE place <> number"),
        lambda n: f"{many(n, 'ball')} {'has' if n == 1 else 'have'} a wrong number in the round.",
        _renumber,
    ),
    _Check(
        _number(
            "SELECT 1 FROM note JOIN ball ON ball.id = ball_id WHERE note.round_id <> ball.round_id"
        ),
        lambda n: (
            f"{many(n, 'note')} {'lies' if n == 1 else 'lie'} in another round than its ball."
        ),
        _statements(
            "UPDATE note SET round_id = ball.round_id FROM ball"
            " WHERE ball.id = ball_id AND note.round_id <> ball.round_id"
        ),
    ),
    _Check(
        _number(
            "SELECT 1 FROM bookmark LEFT JOIN day ON day.id = bookmark.day_id"
            " LEFT JOIN round ON round.id = round_id WHERE day.id IS NULL"
            " OR day.clinic_id <> bookmark.clinic_id"
            " OR (round_id IS NOT NULL AND round.day_id IS NOT bookmark.day_id)"
        ),
        lambda n: "The bookmark points nowhere; the last day played takes its place.",
        _statements(
            "UPDATE bookmark SET (day_id, clinic_id) ="
            " (SELECT id, clinic_id FROM day ORDER BY date DESC, id DESC LIMIT 1), round_id = NULL"
            " WHERE EXISTS (SELECT 1 FROM day)",
            "DELETE FROM bookmark WHERE NOT EXISTS (SELECT 1 FROM day)",
        ),
    ),
    _Check(
        lambda db: len({row[:7] for row in tallies.proof(db)}),
        lambda n: f"The kept counts differ from the balls in {many(n, 'place')}.",
        tallies.recount,
    ),
)
