"""Contradictions left after books were joined: the version here, and the other ones.

An amended ball is decided, and so is a line that somebody confirms; both travel when books are
joined. A decided row leaves the list; a ball's journal keeps both changes.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass

from courtlog.errors import BookError
from courtlog.logbook.file.book import Book
from courtlog.logbook.rows.ball_conflicts import FORKS, IS_DECIDED, decide_forks
from courtlog.logbook.schema import row_versions
from courtlog.logbook.schema.row_versions import Key

_NO_MATTER = {("roster", "place")}
"""Two courts number their own rosters."""


@dataclass(frozen=True, slots=True)
class Disagreement:
    """One contradiction: where it is, what each book holds, and whether it is decided.

    `row` is the table and key that it is about; a ball is its id.
    """

    where: str
    here: str
    elsewhere: str
    row: Key
    decided: bool = False


def disagreements(book: Book) -> list[Disagreement]:
    """All of them: rows column by column, then balls."""
    return [*_of_rows(book), *_of_balls(book)]


def decide(book: Book, numbers: Iterable[int]) -> None:
    """Confirm this book's version in these lines of the list, counted from 1. Raises BookError.

    A line on one column of a row decides the whole row, one on a ball the whole ball.
    """
    listed = dict(enumerate(disagreements(book), 1))
    missing = [number for number in numbers if number not in listed]
    if missing:
        raise BookError(
            f"There is no line {missing[0]} in the list.", "`courtlog gather --show` prints it."
        )
    with book.writing() as db:
        for number in numbers:
            name, key = listed[number].row
            if name == "ball":
                decide_forks(db, json.loads(key)[0])
            else:
                row_versions.accept_current(db, (name, key))


def _of_rows(book: Book) -> list[Disagreement]:
    every = {table.name: table for table in row_versions.versioned_tables(book.db)}
    listed = []
    histories = row_versions.load_histories(
        book.db, only=dict.fromkeys(every, "false")
    )  # what stands in conflict
    people = dict(book.db.execute("SELECT id, name FROM player").fetchall())
    for (name, key), history in sorted(histories.items()):
        here = history.merged_values()
        if len(history.current) < 2 or here is None:
            continue
        table = every[name]
        values = dict(zip(table.key, json.loads(key), strict=True))
        values |= dict(zip(row_versions.version_columns(table), json.loads(here), strict=True))
        who = people.get(values.get("player_id") or values.get("id"), values.get("name"))
        where = name.replace("_", " ") + (f" of {who}" if who and name != "player" else "")
        where = f"player {who}" if name == "player" else where
        for index, column in enumerate(row_versions.version_columns(table)):
            others = {json.loads(row)[index] for _, row in history.current} - {values[column]}
            if (name, column) in _NO_MATTER:
                continue
            other_values = sorted(str(other) for other in others if other not in (None, ""))
            if other_values:
                what = f"{where}, {column.replace('_', ' ')}"
                listed.append(
                    Disagreement(what, str(values[column]), " or ".join(other_values), (name, key))
                )
    return listed


def _of_balls(book: Book) -> list[Disagreement]:
    """A ball that two books went on with: as the first of them left it, and as it stands."""
    rows = book.db.execute(
        "SELECT player.name, date, round.place, number, was, (SELECT journal.after FROM journal"
        "   WHERE journal.ball_id = ball.id AND kind <> 'move' ORDER BY id DESC LIMIT 1),"
        f" ball.id, {IS_DECIDED}"
        f" FROM ({FORKS}) AS fork JOIN ball ON ball.id = fork.ball_id"
        " JOIN round ON round.id = ball.round_id JOIN day ON day.id = day_id"
        " JOIN player ON player.id = player_id ORDER BY date, round.place, number, was"
    )
    return [
        Disagreement(
            f"{who}, {on}, round {place}, ball {abs(number)}",
            stands,
            was,
            ("ball", row_versions.as_json([ball])),
            bool(decided),
        )
        for who, on, place, number, was, stands, ball, decided in rows
        if was != stands
    ]
