"""Amendments put something right afterwards: each is kept value by value, and can be taken back.

An amendment changes plain values (a ball's grades, a ball's round, a round's drill) and
keeps each as it was and as it became. What follows from them (ball numbers, tallies) is worked out
again in the same transaction. Nothing is ever deleted; taking back is an amendment of its own.
"""

from __future__ import annotations

import contextlib
import json
import sqlite3
from collections.abc import Iterator
from dataclasses import dataclass, field
from enum import StrEnum

from courtlog.coaching.game.grades import Grade
from courtlog.coaching.game.rounds import Ball
from courtlog.logbook.file.book import Book
from courtlog.logbook.rows import tallies
from courtlog.logbook.rows.ball_conflicts import decide_forks
from courtlog.logbook.rows.journal import ball_state, state_text
from courtlog.logbook.rows.numbering import renumber
from courtlog.logbook.rows.row_changes import insert
from courtlog.logbook.schema.row_versions import bring_back_row

Value = int | str | None


class AmendmentKind(StrEnum):
    """What an amendment did."""

    BALL = "ball"
    STRIKE = "strike"
    MOVE = "move"
    SPLIT = "split"
    JOIN = "join"
    """Two rounds made one; without another round it is a sheet whose rounds joined their days."""
    DRILL = "drill"
    PURPOSE = "purpose"


class AmendedValue(StrEnum):
    """The values that amendments change."""

    STATE = "state"
    STRUCK = "struck"
    PLACE = "place"
    NOTE = "note"
    CHECK_IN = "check-in"
    DRILL = "drill"
    PURPOSE = "purpose"
    ENDED = "ended"
    PAUSED = "paused"
    ORDER = "order"


GONE = "gone"
"""The value of a note or a check-in that is not there: before it came, and once it went again."""

_COLUMN = {
    AmendedValue.PLACE: ("ball", "round_id"),
    AmendedValue.NOTE: ("note", "round_id"),
    AmendedValue.CHECK_IN: ("check_in", "round_id"),
    AmendedValue.DRILL: ("round", "drill_id"),
    AmendedValue.PURPOSE: ("round", "purpose"),
    AmendedValue.ENDED: ("round", "ended_at"),
    AmendedValue.PAUSED: ("round", "paused_ms"),
    AmendedValue.ORDER: ("round", "feed_order"),
}


@dataclass(slots=True)
class Amendment:
    """One amendment while it is being done, within its transaction."""

    book: Book
    db: sqlite3.Connection
    id: int
    at_ms: int
    rounds: set[int] = field(default_factory=set)

    def change(
        self, what: AmendedValue, row: int, after: Value, journal: int | None = None
    ) -> None:
        """Give a value, and keep what it was; nothing for a value that stays the same."""
        before = current_value(self.db, what, row)
        if before == after:
            return
        if what in (AmendedValue.STATE, AmendedValue.STRUCK):
            decide_forks(self.db, row)
        if what is AmendedValue.STATE:
            journal = regrade(self.book, self.db, row, str(after), self.at_ms, journal)
        elif what is AmendedValue.STRUCK:
            sign = -1 if after else 1
            self.db.execute(
                "UPDATE ball SET taken = ?, number = ? * id WHERE id = ?", [not after, sign, row]
            )
        elif GONE in (before, after):
            if not _come_or_go(self.db, _COLUMN[what][0], row, after):
                return
        else:
            table, column = _COLUMN[what]
            self.db.execute(f"UPDATE {table} SET {column} = ? WHERE id = ?", [after, row])
        if what is AmendedValue.PLACE:
            self.db.execute("UPDATE note SET round_id = ? WHERE ball_id = ?", [after, row])
        self.keep(what, row, before, after, journal)

    def keep(
        self,
        what: AmendedValue,
        row: int,
        before: Value,
        after: Value,
        journal: int | None = None,
    ) -> None:
        """Keep a value as it was and as it became, where it has been written already."""
        insert(
            self.db,
            self.book.ids,
            self.at_ms,
            "amended",
            amendment_id=self.id,
            journal_id=journal,
            what=str(what),
            row_id=row,
            before=json.dumps(before),
            after=json.dumps(after),
        )

    def move(self, ball: int, target: int) -> None:
        """Put a ball, with its notes, into another round."""
        # A number that no other ball of either round has, until both are numbered again.
        self.db.execute(
            "UPDATE ball SET number = CASE WHEN number < 0 THEN -id ELSE id END WHERE id = ?",
            [ball],
        )
        self.change(AmendedValue.PLACE, ball, target)


@contextlib.contextmanager
def open_amendment(
    book: Book,
    kind: AmendmentKind,
    rounds: tuple[int, ...],
    who: str,
    at_ms: int,
    other_round: int | None = None,
    undoes: int | None = None,
    amendment_id: int | None = None,
) -> Iterator[Amendment]:
    """An amendment on these rounds in one transaction, with numbers and tallies right at its end.

    `other_round` is the round beside the first one that a split, move or join made or emptied.
    `amendment_id` is its id where that was drawn before what it did.
    """
    with book.writing() as db:
        for round_id in rounds:
            tallies.uncount_round(db, round_id)
        row = book.ids.next(at_ms) if amendment_id is None else amendment_id
        db.execute(
            "INSERT INTO amendment (id, kind, round_id, other_id, who, at, undoes)"
            " VALUES (?, ?, ?, ?, ?, ?, ?)",
            [row, str(kind), rounds[0], other_round, who, at_ms, undoes],
        )
        amendment = Amendment(book, db, row, at_ms, set(rounds))
        yield amendment
        for round_id in amendment.rounds:
            renumber(db, round_id)
            tallies.count_round(db, round_id)
        tallies.forget_zeros(db)


def regrade(
    book: Book, db: sqlite3.Connection, ball: int, after: str, at_ms: int, undoes: int | None
) -> int:
    """Write a ball's grades and the line of its journal that says so; returns the line's id.

    `undoes` is the key it takes back. Leaves the tallies to the caller.
    """
    before = state_text(*current_ball(db, ball))
    then, _ = ball_state(after)
    db.execute("UPDATE ball SET tough = ?, clip_at = ? WHERE id = ?", [then.tough, then.clip, ball])
    db.execute("DELETE FROM rating WHERE ball_id = ?", [ball])
    db.executemany(
        "INSERT INTO rating VALUES (?, ?, ?)",
        [(ball, row, int(grade)) for row, grade in enumerate(then.grades) if grade is not None],
    )
    return insert(
        db,
        book.ids,
        at_ms,
        "journal",
        ball_id=ball,
        kind="key" if undoes is None else "undo",
        before=before,
        after=after,
        undoes=undoes,
        at=at_ms,
    )


def current_value(db: sqlite3.Connection, what: AmendedValue, row: int) -> Value:
    """The value as it stands; GONE of a row that is not there."""
    table, column = _COLUMN.get(what, ("ball", "number < 0"))
    found = db.execute(f"SELECT {column} FROM {table} WHERE id = ?", [row]).fetchone()
    if found is None:
        return GONE
    if what is AmendedValue.STATE:
        return state_text(*current_ball(db, row))
    value: Value = found[0]
    return value


def _come_or_go(db: sqlite3.Connection, table: str, row: int, after: Value) -> bool:
    """Delete a note or check-in, or bring it back as it was; False where it has to stay.

    A check-in that set a red stays: a red is never taken away.
    """
    if after != GONE:
        bring_back_row(db, table, row)
        return True
    if (
        table == "check_in"
        and db.execute("SELECT 1 FROM red_flag WHERE check_in_id = ?", [row]).fetchone()
    ):
        return False
    db.execute(f"DELETE FROM {table} WHERE id = ?", [row])
    return True


def current_ball(db: sqlite3.Connection, ball: int) -> tuple[Ball, bool]:
    """A ball as it stands, and whether it is open; one struck out is not."""
    taken, tough, clip, number, cues = db.execute(
        "SELECT taken, tough, clip_at, number, (SELECT count(*) FROM round_cue"
        " WHERE round_cue.round_id = ball.round_id) FROM ball WHERE id = ?",
        [ball],
    ).fetchone()
    grades: list[Grade | None] = [None] * cues
    for row, grade in db.execute("SELECT row, grade FROM rating WHERE ball_id = ?", [ball]):
        grades[row] = Grade(grade)
    return Ball(tuple(grades), bool(tough), clip), not taken and number > 0


def standing_amendments(db: sqlite3.Connection) -> set[int]:
    """The ids of amendments that stand; one that took another back is not among them."""
    undone_by: dict[int, int] = {}
    first: list[int] = []
    for row, undoes in db.execute("SELECT id, undoes FROM amendment"):
        if undoes is None:
            first.append(row)
        else:
            undone_by[undoes] = row

    def stands(row: int) -> bool:
        times = 0
        while row in undone_by:
            row, times = undone_by[row], times + 1
        return times % 2 == 0

    at_the_court = {
        row
        for (row,) in db.execute(
            "SELECT amendment_id FROM amended JOIN journal ON journal.undoes = journal_id"
            " WHERE journal.id NOT IN (SELECT journal_id FROM amended WHERE journal_id NOT NULL)"
        )
    }
    return {row for row in first if stands(row)} - at_the_court


def last_amendment(db: sqlite3.Connection) -> tuple[int, set[int]] | None:
    """The amendment to take back first, and its rounds; None where none stands."""
    amendment = max(standing_amendments(db), default=None)
    if amendment is None:
        return None
    rounds = db.execute(
        "SELECT round_id, other_id FROM amendment WHERE id = ?", [amendment]
    ).fetchone()
    while row := db.execute("SELECT id FROM amendment WHERE undoes = ?", [amendment]).fetchone():
        (amendment,) = row
    return amendment, set(rounds) - {None}
