"""Taking back an amendment or a key: each value as it was before, unless a later step needs it."""

from __future__ import annotations

import json
import sqlite3

from courtlog.coaching.on_court import feeding
from courtlog.errors import BookError
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.logbook.rows import tallies
from courtlog.logbook.rows.journal import state_text
from courtlog.logbook.writes.amendments import (
    GONE,
    AmendedValue,
    AmendmentKind,
    Value,
    current_ball,
    current_value,
    open_amendment,
    regrade,
    standing_amendments,
)
from courtlog.logbook.writes.paper.home_yardstick_writer import FORWARD, TAKEN_BACK
from courtlog.logbook.writes.round_writer import RoundWriter
from courtlog.logbook.writes.sheets.sheet_undo import follow_players, rounds_of_amendment

_MAY_HAVE_MOVED_ON = {AmendedValue.ENDED, AmendedValue.PAUSED, AmendedValue.ORDER}
"""Values that the court goes on changing; they go back only when nothing changed them since."""


_SHAPING = {
    AmendmentKind.MOVE,
    AmendmentKind.SPLIT,
    AmendmentKind.JOIN,
    AmendmentKind.DRILL,
    AmendmentKind.PURPOSE,
}
"""Amendments of whole rounds: a later one needs the earlier one."""


def take_back_amendment(book: Book, amendment_id: int, who: str, at_ms: int) -> None:
    """Take back an amendment: every value as it was before. Raises BookError when it has followers.

    An amendment that took another back can be taken back too.
    """
    with book.reading():
        kind, first, second = _kind_and_rounds(book.db, amendment_id)
        changes = _changes(book.db, amendment_id)
        _check_free(book.db, amendment_id, kind)
        for _, what, row, _, after in changes:
            now = current_value(book.db, what, row)
            was_erased = now == GONE  # with its player
            if what not in _MAY_HAVE_MOVED_ON and now != after and not was_erased:
                raise BookError(_changed_since(what), "Take back the later step first.")
        rounds = rounds_of_amendment(book.db, amendment_id)
    in_order = (first, *sorted(rounds - {first}))
    with open_amendment(book, kind, in_order, who, at_ms, second, amendment_id) as amendment:
        for journal, what, row, before, after in reversed(changes):
            if current_value(amendment.db, what, row) != after:
                continue
            if what is AmendedValue.PLACE:
                amendment.move(row, int(before or 0))
            else:
                amendment.change(what, row, before, _undoable(amendment.db, journal))
        if kind is AmendmentKind.JOIN and second is None:
            follow_players(amendment.db, amendment_id)
        _leave_emptied(amendment.db, first, second)


def put_amendment_forward(book: Book, amendment_id: int, who: str, at_ms: int) -> None:
    """Take back what took this amendment back. Raises BookError where nothing did."""
    last, is_undone = amendment_id, False
    while row := book.db.execute("SELECT id FROM amendment WHERE undoes = ?", [last]).fetchone():
        last, is_undone = int(row[0]), not is_undone
    if not is_undone:
        raise BookError("No step took this one back.", "`courtlog history` says what each did.")
    take_back_amendment(book, last, who, at_ms)


def take_back_key(book: Book, key: int, at_ms: int) -> None:
    """Take back a key at the court. Raises BookError when later balls or changes stand on it."""
    kind, ball, number, round_id, before, after, undone, last = book.db.execute(
        "SELECT kind, ball_id, number, round_id, before, after,"
        " EXISTS (SELECT 1 FROM journal AS undo WHERE undo.undoes = journal.id),"
        " (SELECT max(other.id) FROM journal AS other JOIN ball AS its ON its.id = other.ball_id"
        "   WHERE its.round_id = ball.round_id AND its.number > 0 AND other.kind = 'key' AND NOT"
        "   EXISTS (SELECT 1 FROM journal AS undo WHERE undo.undoes = other.id))"
        " FROM journal JOIN ball ON ball.id = ball_id WHERE journal.id = ?",
        [key],
    ).fetchone()
    if kind != "key" or undone:
        raise BookError("This step has been taken back already, or takes one back itself.")
    if state_text(*current_ball(book.db, ball)) != after:
        raise BookError("The ball was changed again since.", "Take back the later step first.")
    state = lookups.live_round(book, round_id).feeding
    if key == last and state.steps:
        _, (step, *more) = feeding.take_back_key(state)
        RoundWriter(book).take_back_key(round_id, step, at_ms, *more)
    elif before.endswith("?") or after.endswith("?"):
        raise BookError(
            f"Ball {abs(number)} was taken with this key, and later ones stand on it.",
            "Put the ball right, or strike it out.",
        )
    else:
        with book.writing() as db:
            tallies.uncount_ball(db, ball)
            regrade(book, db, ball, before, at_ms, key)
            tallies.count_ball(db, ball)


def _kind_and_rounds(
    db: sqlite3.Connection, amendment_id: int
) -> tuple[AmendmentKind, int, int | None]:
    row = db.execute(
        "SELECT kind, round_id, other_id FROM amendment WHERE id = ?", [amendment_id]
    ).fetchone()
    if row is None:
        raise BookError("There is no such step.", "`courtlog history` lists them.")
    kind, first, second = row
    if db.execute("SELECT 1 FROM amendment WHERE undoes = ?", [amendment_id]).fetchone():
        raise BookError(TAKEN_BACK, FORWARD)
    return AmendmentKind(kind), first, second


def _changes(
    db: sqlite3.Connection, amendment_id: int
) -> list[tuple[int | None, AmendedValue, int, Value, Value]]:
    return [
        (journal, AmendedValue(what), row, json.loads(before), json.loads(after))
        for journal, what, row, before, after in db.execute(
            "SELECT journal_id, what, row_id, before, after FROM amended WHERE amendment_id = ?"
            " ORDER BY id",
            [amendment_id],
        )
    ]


def _check_free(db: sqlite3.Connection, amendment_id: int, kind: AmendmentKind) -> None:
    """Refuse when a later amendment of whole rounds needs this one."""
    if kind not in _SHAPING:
        return
    rounds = rounds_of_amendment(db, amendment_id)
    stand = standing_amendments(db)
    for row, other_kind in db.execute(
        "SELECT id, kind FROM amendment WHERE id > ?", [amendment_id]
    ).fetchall():
        later = AmendmentKind(other_kind) in _SHAPING and row in stand
        if later and rounds & rounds_of_amendment(db, row):
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


def _undoable(db: sqlite3.Connection, journal: int | None) -> int | None:
    """The journal's line, if it is a key that no other line has undone."""
    row = db.execute(
        "SELECT id FROM journal WHERE id = ? AND kind = 'key'"
        " AND NOT EXISTS (SELECT 1 FROM journal AS undo WHERE undo.undoes = journal.id)",
        [journal],
    ).fetchone()
    return None if row is None else int(row[0])


def _leave_emptied(db: sqlite3.Connection, first: int, second: int | None) -> None:
    """Move the court to the other round when all balls of the round on court went there."""
    db.execute(
        "UPDATE bookmark SET round_id = CASE round_id WHEN :one THEN :other ELSE :one END"
        " WHERE round_id IN (:one, :other) AND :other IS NOT NULL"
        " AND NOT EXISTS (SELECT 1 FROM ball WHERE ball.round_id = bookmark.round_id)",
        {"one": first, "other": second},
    )
