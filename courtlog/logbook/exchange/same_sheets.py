"""One sheet that was read into two books: its round is one, and so is each of its balls.

Two rounds are of one sheet where day, player, number and all that was written are the same. A sheet
without a number needs the time at which the round began. What was written is kept as it came in
(`sheet_round.digest`), so that later corrections change nothing of the answer. The lowest id is
kept. Journals and amendments of both books follow it, as those of any ball that two books share.
Notes and check-ins of both sheets stay: they may have gone or come again in one book alone.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Sequence

from courtlog.logbook.exchange.matching import id_places, with_ids
from courtlog.logbook.rows.matched_ids import Matching
from courtlog.logbook.schema.row_versions import as_json
from courtlog.logbook.schema.tables import Table, tables

_BOOKS = ("main", "theirs")
_ONE = ("ball", "round")
"""Tables whose rows become one: balls first, since they lie in rounds."""

_ABOUT_BALLS = ("state", "struck", "place")
_ABOUT_ROUNDS = ("drill", "purpose", "ended", "paused", "order")
_NAMES_ROUNDS = ("place", "note", "check-in")
"""What was put right (`amended.what`) that names a ball, a round, and rounds as its two values."""


def unite_same_sheets(db: sqlite3.Connection, matching: Matching) -> bool:
    """Make rounds of one sheet one, as soon as day and player are; whether any of it is new."""
    by_sheet: dict[tuple[object, ...], dict[int, tuple[str, int, int]]] = {}
    for book in _BOOKS:
        for day, player, number, digest, round_id, first_ball, count in db.execute(
            "SELECT day_id, player_id, sheet_round.number, digest, round_id, first_ball_id, balls"
            f" FROM {book}.sheet_round JOIN {book}.round ON round.id = round_id"
            " WHERE digest <> '' AND first_ball_id IS NOT NULL"
        ):
            kept = matching.kept_id("day", day), matching.kept_id("player", player)
            same = by_sheet.setdefault((*kept, number, digest), {})
            same[round_id] = book, first_ball, count
    is_new = False
    for rounds in by_sheet.values():
        if len(rounds) > 1:
            first, *others = sorted(rounds)
            balls = _balls(db, *rounds[first])
            for other in others:
                other_balls = _balls(db, *rounds[other])
                if len(other_balls) == len(balls):
                    is_new |= matching.unite("round", first, other)
                    for kept_ball, ball in zip(balls, other_balls, strict=True):
                        matching.unite("ball", kept_ball, ball)
    return is_new


def _balls(db: sqlite3.Connection, book: str, first: int, count: int) -> list[int]:
    """The balls that came with a sheet: their ids followed each other, whatever became of them."""
    rows = db.execute(
        f"SELECT id FROM {book}.ball WHERE id >= ? ORDER BY id LIMIT ?", [first, count]
    )
    return [row for (row,) in rows]


def give_kept_ids(db: sqlite3.Connection, matching: Matching) -> set[int]:
    """Give such rounds and balls their kept ids in both books; returns the balls that are kept.

    This book's triggers and all foreign keys must be off; those of the other one, which is a copy,
    are dropped.
    """
    if not any(matching.stands_for.get(name) for name in _ONE):
        return set()
    every = tables(db)
    triggers = db.execute("SELECT name FROM theirs.sqlite_master WHERE type = 'trigger'").fetchall()
    for (name,) in triggers:
        db.execute(f"DROP TRIGGER theirs.{name}")
    for book in _BOOKS:
        for name in _ONE:
            for row in matching.stands_for.get(name, {}):
                _rename(db, book, every, name, row, matching.kept_id(name, row))
        _rename_amended(db, book, matching)
        _rename_versions(db, book, every, matching)
    return {matching.kept_id("ball", row) for row in matching.stands_for.get("ball", {})}


def _rename(
    db: sqlite3.Connection, book: str, every: Sequence[Table], name: str, old: int, new: int
) -> None:
    has_both = db.execute(
        f"SELECT count(*) = 2 FROM {book}.{name} WHERE id IN (?, ?)", [old, new]
    ).fetchone()[0]
    if name == "round":  # out of the way of the other round's numbers until all are counted again
        db.execute(
            f"UPDATE {book}.ball SET number = CASE WHEN number < 0 THEN -id ELSE id END"
            " WHERE round_id = ?",
            [old],
        )
    elif has_both:  # the journal of both says which grades are right
        db.execute(f"DELETE FROM {book}.rating WHERE ball_id = ?", [old])
    for table in every:
        for link in table.links:
            if link.parent == name:
                both = {"old": old, "new": new}
                where = f"{link.name} = :old"
                db.execute(
                    f"UPDATE OR IGNORE {book}.{table.name} SET {link.name} = :new WHERE {where}",
                    both,
                )
                db.execute(f"DELETE FROM {book}.{table.name} WHERE {where}", both)
    if has_both:
        db.execute(f"DELETE FROM {book}.{name} WHERE id = ?", [old])
    else:
        db.execute(f"UPDATE {book}.{name} SET id = ? WHERE id = ?", [new, old])


def _rename_amended(db: sqlite3.Connection, book: str, matching: Matching) -> None:
    for row, what, about, *values in db.execute(
        f"SELECT id, what, row_id, before, after FROM {book}.amended"
    ).fetchall():
        new = _renamed_deed(what, about, values, matching)
        if new != [about, *values]:
            db.execute(
                f"UPDATE {book}.amended SET row_id = ?, before = ?, after = ? WHERE id = ?",
                [*new, row],
            )


def _renamed_deed(what: str, about: int, values: list[str], matching: Matching) -> list[object]:
    if what in _ABOUT_BALLS:
        about = matching.kept_id("ball", about)
    elif what in _ABOUT_ROUNDS:
        about = matching.kept_id("round", about)
    if what not in _NAMES_ROUNDS:
        return [about, *values]
    rounds = [json.loads(value) for value in values]
    return [
        about,
        *(
            json.dumps(matching.kept_id("round", row)) if isinstance(row, int) else value
            for row, value in zip(rounds, values, strict=True)
        ),
    ]


def _rename_versions(
    db: sqlite3.Connection, book: str, every: Sequence[Table], matching: Matching
) -> None:
    """Former and contradicting versions of rows that name such a round or ball."""
    only = Matching({name: matching.stands_for.get(name, {}) for name in _ONE})
    places = {table.name: id_places(table, only) for table in every}
    for held in ("former", "conflict"):
        for table, key, revision, reading in db.execute(f"SELECT * FROM {book}.{held}").fetchall():
            in_key, in_row = places.get(table, ([], []))
            new_key, new = with_ids(key, in_key, only), with_ids(reading, in_row, only)
            if table == "amended":
                new = _renamed_version(new, only)
            if (new_key, new) == (key, reading):
                continue
            old_row = (table, key, revision, reading)
            db.execute(
                f"DELETE FROM {book}.{held} WHERE (tbl, key, revision, reading) = (?, ?, ?, ?)",
                old_row,
            )
            db.execute(
                f"INSERT OR IGNORE INTO {book}.{held} VALUES (?, ?, ?, ?)",
                [table, new_key, revision, new],
            )


def _renamed_version(reading: str, matching: Matching) -> str:
    """A version of an amended value: its last four columns are what, row_id, before, after."""
    *others, what, about, before, after = json.loads(reading)
    return as_json([*others, what, *_renamed_deed(what, about, [before, after], matching)])
