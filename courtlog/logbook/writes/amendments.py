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
from courtlog.errors import BookError
from courtlog.logbook.file.opening import Book
from courtlog.logbook.rows import tallies
from courtlog.logbook.rows.journal import ball_state, state_text
from courtlog.logbook.rows.numbering import renumber
from courtlog.logbook.rows.row_changes import insert
from courtlog.logbook.writes.joined_balls import decide_forks

Value = int | str | None


class AmendmentKind(StrEnum):
    """What an amendment did."""

    BALL = "ball"
    STRIKE = "strike"
    MOVE = "move"
    SPLIT = "split"
    JOIN = "join"
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

_MAY_HAVE_MOVED_ON = {AmendedValue.ENDED, AmendedValue.PAUSED, AmendedValue.ORDER}
"""Values that the court goes on changing; they go back only when nothing changed them since."""

_SHAPING = {
    AmendmentKind.MOVE,
    AmendmentKind.SPLIT,
    AmendmentKind.JOIN,
    AmendmentKind.DRILL,
    AmendmentKind.PURPOSE,
}
"""Amendments of whole rounds: one stands on the one before."""


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
        else:
            table, column = _COLUMN[what]
            self.db.execute(f"UPDATE {table} SET {column} = ? WHERE id = ?", [after, row])
        if what is AmendedValue.PLACE:
            self.db.execute("UPDATE note SET round_id = ? WHERE ball_id = ?", [after, row])
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
        # A number that no other ball of either round has, until both are numbered anew.
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
    other: int | None = None,
    undoes: int | None = None,
) -> Iterator[Amendment]:
    """An amendment on these rounds in one transaction, with numbers and tallies right at its end.

    `other` is the round beside the first one that a split, move or join made or emptied.
    """
    with book.writing() as db:
        for round_id in rounds:
            tallies.uncount_round(db, round_id)
        row = insert(
            db,
            book.ids,
            at_ms,
            "amendment",
            kind=str(kind),
            round_id=rounds[0],
            other_id=other,
            who=who,
            at=at_ms,
            undoes=undoes,
        )
        doing = Amendment(book, db, row, at_ms, set(rounds))
        yield doing
        for round_id in doing.rounds:
            renumber(db, round_id)
            tallies.count_round(db, round_id)
        tallies.forget_zeros(db)


def take_back_amendment(book: Book, amendment: int, who: str, at_ms: int) -> None:
    """Take back an amendment: every value as it was before. Raises BookError when it has followers.

    An amendment that took another back can be taken back too.
    """
    with book.reading():
        kind, one, other = _kind_and_rounds(book.db, amendment)
        changes = _changes(book.db, amendment)
        _check_free(book.db, amendment, kind, {one, other} - {None})
        for _, what, row, _, after in changes:
            if what not in _MAY_HAVE_MOVED_ON and current_value(book.db, what, row) != after:
                raise BookError(_changed_since(what), "Take back the later step first.")
        rounds = {one, *filter(None, [other])} | {
            _round_of(book.db, row) for _, what, row, _, _ in changes if what in _ON_BALLS
        }
    first = (one, *sorted(rounds - {one}))
    with open_amendment(book, kind, first, who, at_ms, other, amendment) as doing:
        for journal, what, row, before, after in reversed(changes):
            if current_value(doing.db, what, row) != after:
                continue
            if what is AmendedValue.PLACE:
                doing.move(row, int(before or 0))
            else:
                doing.change(what, row, before, _undoable(doing.db, journal))
        _leave_emptied(doing.db, one, other)


_ON_BALLS = {AmendedValue.STATE, AmendedValue.STRUCK, AmendedValue.PLACE}


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
    """The value as it stands."""
    if what is AmendedValue.STATE:
        return state_text(*current_ball(db, row))
    if what is AmendedValue.STRUCK:
        return int(db.execute("SELECT number < 0 FROM ball WHERE id = ?", [row]).fetchone()[0])
    table, column = _COLUMN[what]
    value: Value = db.execute(f"SELECT {column} FROM {table} WHERE id = ?", [row]).fetchone()[0]
    return value


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
    """The last amendment that stands (what to take back first) and its rounds; None without one."""
    amendment = max(standing_amendments(db), default=None)
    if amendment is None:
        return None
    rounds = db.execute(
        "SELECT round_id, other_id FROM amendment WHERE id = ?", [amendment]
    ).fetchone()
    while row := db.execute("SELECT id FROM amendment WHERE undoes = ?", [amendment]).fetchone():
        (amendment,) = row
    return amendment, set(rounds) - {None}


def _kind_and_rounds(
    db: sqlite3.Connection, amendment: int
) -> tuple[AmendmentKind, int, int | None]:
    row = db.execute(
        "SELECT kind, round_id, other_id FROM amendment WHERE id = ?", [amendment]
    ).fetchone()
    if row is None:
        raise BookError("There is no such step.", "`courtlog history` lists them.")
    kind, one, other = row
    if db.execute("SELECT 1 FROM amendment WHERE undoes = ?", [amendment]).fetchone():
        raise BookError("This step has been taken back already.")
    return AmendmentKind(kind), one, other


def _changes(
    db: sqlite3.Connection, amendment: int
) -> list[tuple[int | None, AmendedValue, int, Value, Value]]:
    return [
        (journal, AmendedValue(what), row, json.loads(before), json.loads(after))
        for journal, what, row, before, after in db.execute(
            "SELECT journal_id, what, row_id, before, after FROM amended WHERE amendment_id = ?"
            " ORDER BY id",
            [amendment],
        )
    ]


def _check_free(
    db: sqlite3.Connection, amendment: int, kind: AmendmentKind, rounds: set[int | None]
) -> None:
    """No later amendment on whole rounds stands on this one."""
    if kind not in _SHAPING:
        return
    stand = standing_amendments(db)
    for row, other_kind, one, other in db.execute(
        "SELECT id, kind, round_id, other_id FROM amendment WHERE id > ?", [amendment]
    ):
        later = AmendmentKind(other_kind) in _SHAPING and row in stand
        if later and rounds & ({one, other} - {None}):
            raise BookError(
                "A later step on the same round stands on this one.",
                "Take back the later step first.",
            )


def _changed_since(what: AmendedValue) -> str:
    match what:
        case AmendedValue.STATE:
            return "The ball was changed again since."
        case AmendedValue.STRUCK:
            return "The ball was struck out or put back since."
        case AmendedValue.PLACE | AmendedValue.NOTE | AmendedValue.CHECK_IN:
            return "The balls have gone to another round since."
        case _:
            return "The round was changed again since."


def _round_of(db: sqlite3.Connection, ball: int) -> int:
    return int(db.execute("SELECT round_id FROM ball WHERE id = ?", [ball]).fetchone()[0])


def _undoable(db: sqlite3.Connection, journal: int | None) -> int | None:
    """The journal's line, if it is a key that no other line has undone."""
    row = db.execute(
        "SELECT id FROM journal WHERE id = ? AND kind = 'key'"
        " AND NOT EXISTS (SELECT 1 FROM journal AS undo WHERE undo.undoes = journal.id)",
        [journal],
    ).fetchone()
    return None if row is None else int(row[0])


def _leave_emptied(db: sqlite3.Connection, one: int, other: int | None) -> None:
    """The court goes along when all balls of the round on court went to the other round."""
    db.execute(
        "UPDATE bookmark SET round_id = CASE round_id WHEN :one THEN :other ELSE :one END"
        " WHERE round_id IN (:one, :other) AND :other IS NOT NULL"
        " AND NOT EXISTS (SELECT 1 FROM ball WHERE ball.round_id = bookmark.round_id)",
        {"one": one, "other": other},
    )
