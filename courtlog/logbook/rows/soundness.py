"""What the schema alone cannot promise of a book: everything a look-up takes for granted.

Each check names the rows that break it, so that an import can say which line it was.
"""

from __future__ import annotations

import hashlib
import re
import sqlite3
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum, auto
from itertools import product

from courtlog import times
from courtlog.coaching.game.clinic_record import signs_of
from courtlog.coaching.game.drills import KEY, LONGEST_KEY, MOST_CUES, UsedDrill
from courtlog.coaching.game.grades import LOOKS, Grade
from courtlog.coaching.game.rounds import Ball
from courtlog.coaching.game.speaking import Speak
from courtlog.logbook.rows import value_limits
from courtlog.logbook.rows.journal import ball_state, state_sql
from courtlog.logbook.schema import row_versions
from courtlog.logbook.schema.tables import LATEST_MOMENT, Kind, Table, columns_of
from courtlog.values import WrongValueError, take_json

Key = tuple[object, ...]

_CUES_OF_ROUNDS = (
    "SELECT round.id AS round_id, count(row) AS cues, max(row) = count(row) - 1 AS in_order"
    " FROM round LEFT JOIN round_cue ON round_cue.round_id = round.id GROUP BY round.id"
)

_ROWS_OF_EVERY_ROUND = (
    f"SELECT min(CASE WHEN in_order THEN cues ELSE 0 END) FROM ({_CUES_OF_ROUNDS})"
)

_ROWS = {
    "book": (("one IS NULL", "a book has one row here"),),
    "round": (
        (
            "(SELECT count(*) FROM round_cue WHERE round_id = round.id) = 0",
            "the round has no cue",
        ),
        (
            "(SELECT group_concat(row, '') FROM (SELECT row FROM round_cue"
            " WHERE round_id = round.id ORDER BY row))"
            " IS NOT substr('0123', 1, (SELECT count(*) FROM round_cue WHERE round_id = round.id))",
            "the round's cues are not in rows 0, 1, 2, 3",
        ),
        ("feed_order GLOB '*[^1-8]*'", "the order of feeds is not made of the digits 1 to 8"),
        ("tough_plan GLOB '*[^01]*'", "the plan of tough balls is not made of 0 and 1"),
    ),
    "ball": (
        (
            # No number is twice in a round, so that these counts tell whether a ball is out of
            # place. Only then the balls are looked for one by one.
            "round_id IN (SELECT round_id FROM ball WHERE number > 0 GROUP BY round_id"
            " HAVING max(number) <> count(*) OR max(number * taken) <> sum(taken))"
            " AND id IN (SELECT id FROM (SELECT id, number, row_number() OVER"
            " (PARTITION BY round_id ORDER BY taken DESC, number) AS counted FROM ball"
            " WHERE number > 0)"
            " WHERE counted <> number)",
            "the round's balls are not numbered 1, 2, 3 with the taken ones first",
        ),
    ),
    "rating": (
        (
            # A row that every round has cues for needs no look at the ball's own round.
            f"(row < 0 OR row >= ({_ROWS_OF_EVERY_ROUND})) AND NOT EXISTS"
            " (SELECT 1 FROM ball JOIN round_cue ON round_cue.round_id = ball.round_id"
            " WHERE ball.id = ball_id AND round_cue.row = rating.row)",
            "the ball's round has no such cue",
        ),
    ),
    "clinic": (("json_type(stations) IS NOT 'array'", "the stations are not a list"),),
}

_DIGITS = "".join(
    "".join(LOOKS[grade].digit for grade in reversed(grades))
    for grades in product((None, *Grade), repeat=MOST_CUES)
)
"""The grades of all balls there can be, as the journal writes them. A ball's place in it is its
grades as a number: two bits a cue, 0 for not seen, the first cue lowest."""

_NUMBER = (
    "SELECT sum((grade + 1) << (2 * row)) FROM rating"
    f" WHERE ball_id = ball.id AND row < {MOST_CUES}"
)

_STATE = state_sql(
    f"substr('{_DIGITS}', 1 + {MOST_CUES} * ifnull(({_NUMBER}), 0), cues)",
    is_open="NOT taken AND number > 0",
)

_LAST_STATE = (
    "SELECT after FROM journal WHERE ball_id = ball.id AND kind <> 'move' ORDER BY id DESC LIMIT 1"
)

_LAST_LINE = (
    "SELECT CASE kind WHEN 'move' THEN 'moved' ELSE after END FROM journal"
    " WHERE id = (SELECT max(id) FROM journal WHERE ball_id = ball.id)"
)

_UNLIKE_JOURNAL = (
    f"WITH played AS MATERIALIZED ({_CUES_OF_ROUNDS})"
    " SELECT ball.id FROM ball CROSS JOIN played USING (round_id)"
    # The index alone says which line is the last; only after a move another one is looked for.
    f" WHERE ({_LAST_LINE}) <> {_STATE} AND ({_LAST_STATE}) <> {_STATE}"
)
"""Compared by SQLite, since handing a million balls to Python would take most of the time."""


@dataclass(frozen=True, slots=True)
class Fault:
    """One row that a book cannot have."""

    table: str
    key: Key
    sentence: str


class Part(Enum):
    """What of a book is looked at."""

    ALL = auto()
    BALLS = auto()
    """Balls, their grades and the lines of their journal: nearly all rows of a book."""
    BESIDE_BALLS = auto()


_OF_BALLS = {"ball", "rating", "journal"}


def faults(
    db: sqlite3.Connection,
    every: Sequence[Table],
    linked: bool = False,
    part: Part = Part.ALL,
) -> Iterator[Fault]:
    """All of them; none in a book that courtlog wrote.

    `linked`: the caller has just seen that every link leads to a row.
    """
    if part is not Part.ALL:
        every = [table for table in every if (table.name in _OF_BALLS) == (part is Part.BALLS)]
    if db.execute("SELECT count(*) FROM book").fetchone() != (1,):
        yield Fault("book", (), "there is not one row in it")
    linked = linked or db.execute("PRAGMA main.foreign_key_check").fetchone() is None
    for table in every:
        links = () if linked else _links(table)
        conditions = [*links, *_roster(table), *_values(table), *_ROWS.get(table.name, ())]
        if _all_pass(db, table, [condition for condition, _ in conditions]):
            continue
        for condition, sentence in conditions:
            rows = db.execute(f"SELECT {table.in_order} FROM {table.name} WHERE {condition}")
            for key in rows:
                yield Fault(table.name, key, f"{sentence}.")
    if part is not Part.BESIDE_BALLS:
        yield from _journal(db)
        for ball in balls_unlike_journal(db):
            yield Fault("ball", (ball,), "the ball is not as the last line of its journal left it.")
    if part is Part.BALLS:
        return
    yield from _clinics(db)
    yield from _drills(db)
    yield from _home_yardsticks(db)
    yield from _readings(db)
    for table in every:
        for column, read in _WORDS.get(table.name, {}).items():
            yield from _words(db, table, column, read)


def _all_pass(db: sqlite3.Connection, table: Table, conditions: Sequence[str]) -> bool:
    """Whether no row meets any of these conditions: one walk through the table for all of them."""
    any_of_them = " OR ".join(f"({condition})" for condition in conditions)
    rows = db.execute(f"SELECT 1 FROM {table.name} WHERE {any_of_them or 0} LIMIT 1")
    return rows.fetchone() is None


def _links(table: Table) -> Iterator[tuple[str, str]]:
    for link in table.links:
        yield (
            f"{link.name} IS NOT NULL AND NOT EXISTS (SELECT 1 FROM {link.parent} AS parent"
            f" WHERE parent.id = {table.name}.{link.name})",
            f"{link.name} names a {link.parent} that is not there",
        )


_ON_NO_ROSTER = {"round", "tally", "roster"}
"""Where counts are kept of somebody who was erased, they are on nobody's roster."""


def _roster(table: Table) -> Iterator[tuple[str, str]]:
    """Whoever is spoken of in a clinic is one of its players."""
    if table.name in _ON_NO_ROSTER or not {"day_id", "clinic_id"} & set(table.names):
        return
    clinic, day = f"{table.name}.clinic_id", ""
    if "clinic_id" not in table.names:
        clinic, day = (
            "that_day.clinic_id",
            f" JOIN day AS that_day ON that_day.id = {table.name}.day_id",
        )
    for link in table.links:
        if link.parent == "player":
            yield (
                f"NOT EXISTS (SELECT 1 FROM roster AS there{day} WHERE there.clinic_id = {clinic}"
                f" AND there.player_id = {table.name}.{link.name})",
                f"{link.name} is nobody on the roster of that clinic",
            )


def _values(table: Table) -> Iterator[tuple[str, str]]:
    yield from value_limits.conditions(table)
    for column in table.columns:
        if column.kind is Kind.DATE:  # without "+0 days" SQLite passes a 31 February
            yield (
                f"date({column.name}, '+0 days') IS NOT {column.name}"
                f" OR {column.name} NOT BETWEEN '{times.FIRST_YEAR}' AND '{times.LAST_YEAR + 1}'",
                f"{column.name} is no date of a clinic",
            )


def _clinics(db: sqlite3.Connection) -> Iterator[Fault]:
    for key, name in db.execute("SELECT id, zone FROM clinic"):
        try:
            times.zone(name)
        except ValueError as error:
            yield Fault("clinic", (key,), f"{error}.")


def _drill_of(card: str) -> UsedDrill | None:
    """The drill that a card tells of; None where it tells of none."""
    try:
        used = take_json(UsedDrill, card)
    except WrongValueError:
        return None
    return used if used.drill.tough <= used.drill.most_tough else None


def _drills(db: sqlite3.Connection) -> Iterator[Fault]:
    """A card reads as the drill that its row names."""
    for key, name, stroke, rung, feed, card, digest in db.execute(
        "SELECT id, name, stroke, rung, feed, card, digest FROM drill_used"
    ):
        used = _drill_of(card)
        if used is None:
            yield Fault("drill_used", (key,), "the card is no drill.")
            continue
        told = (used.name, used.stroke, used.drill.rung, str(used.drill.feed))
        if told != (name, stroke, rung, feed):
            yield Fault("drill_used", (key,), "the row and its card speak of two drills.")
        if hashlib.sha256(card.encode()).hexdigest() != digest:
            yield Fault("drill_used", (key,), "the card was changed after its digest was taken.")


def _key(words: str) -> None:
    """A cue or a stroke, called as a drill file may call it."""
    if len(words) > LONGEST_KEY or not re.fullmatch(KEY, words):
        raise ValueError(f"{words[:LONGEST_KEY]!r} is no key of a drill file")


def _keys(words: str) -> None:
    for word in words.split():
        _key(word)


def _drill_name(words: str) -> None:
    for part in words.split("/", 1):
        _key(part)


_WORDS: Mapping[str, Mapping[str, Callable[[str], object]]] = {
    "round": {"speak": Speak},
    "round_cue": {"cue": _key},
    "check_in": {"signs": signs_of},
    "focus": {"stroke": _key},
    "main_cue": {"stroke": _key, "cue": _key},
    "blind_page": {"stroke": _key, "cues": _keys},
    "home_yardstick": {"cues": _keys},
    "planned_round": {"drill": _drill_name},
}


def _words(
    db: sqlite3.Connection, table: Table, column: str, read: Callable[[str], object]
) -> Iterator[Fault]:
    """A column of words that only some are allowed in, but for the empty text."""
    name = table.name
    found = db.execute(f"SELECT DISTINCT {column} FROM {name} WHERE {column} <> ''").fetchall()
    for (words,) in found:
        try:
            read(words)
        except ValueError as error:
            which = f"SELECT {table.in_order} FROM {name} WHERE {column} = ?"
            for key in db.execute(which, [words]):
                yield Fault(name, key, f"{error}.")


def _home_yardsticks(db: sqlite3.Connection) -> Iterator[Fault]:
    """The balls of a yardstick at home have as many grades as it has cues."""
    if not columns_of(db, "home_yardstick"):
        return
    for key, cues, balls in db.execute("SELECT id, cues, balls FROM home_yardstick").fetchall():
        try:
            for token in balls.split():
                Ball.from_token(token, len(cues.split()))
        except ValueError as error:
            yield Fault("home_yardstick", (key,), f"{error}.")


def _readings(db: sqlite3.Connection) -> Iterator[Fault]:
    """A former version is of a table that has versions, and as long as a row of it."""
    known = {table.name: table for table in row_versions.versioned_tables(db)}
    for name in ("former", "conflict"):
        if not columns_of(db, name):
            continue
        for (tbl,) in db.execute(f"SELECT DISTINCT tbl FROM {name}").fetchall():
            if tbl == "journal":
                continue  # which line was decided against
            table, wrong = known.get(tbl), "true"
            if table is not None:
                width = len(row_versions.version_columns(table))
                wrong = (
                    "NOT CASE WHEN json_valid(key) AND json_valid(reading) THEN"
                    f" json_type(key) = 'array' AND json_array_length(key) = {len(table.key)}"
                    " AND json_type(key, '$[0]') <> 'null' AND json_type(reading) = 'array'"
                    f" AND json_array_length(reading) = {width} ELSE 0 END"
                )
            which = f"SELECT tbl, key, revision, reading FROM {name} WHERE tbl = ? AND {wrong}"
            for key in db.execute(which, [tbl]).fetchall():
                yield Fault(name, key, "the earlier reading is of no row of a book.")


def balls_unlike_journal(db: sqlite3.Connection) -> Iterator[int]:
    """Balls that differ from what the last line of their journal says."""
    yield from (ball for (ball,) in db.execute(_UNLIKE_JOURNAL).fetchall())


_BEFORE_AND_AFTER = "before, after FROM journal"

_STATES = (
    f"WITH played AS MATERIALIZED ({_CUES_OF_ROUNDS}) SELECT DISTINCT cues, {_BEFORE_AND_AFTER}"
    " JOIN ball ON ball.id = ball_id JOIN played USING (round_id)"
)


def _journal(db: sqlite3.Connection) -> Iterator[Fault]:
    """A line's two states are balls with as many grades as the ball's round has cues."""
    least, most = db.execute(f"SELECT min(cues), max(cues) FROM ({_CUES_OF_ROUNDS})").fetchone()
    states = _STATES if least != most else f"SELECT DISTINCT {most or 0}, {_BEFORE_AND_AFTER}"
    for cues, before, after in db.execute(f"{states} WHERE kind <> 'move'").fetchall():
        try:
            balls = [ball_state(state)[0] for state in (before, after)]
            lengths = {len(ball.grades) for ball in balls}
        except (ValueError, OverflowError):
            balls, lengths = [], set()
        if any((ball.clip or 0) > LATEST_MOMENT for ball in balls):
            lengths = set()
        if lengths != {cues}:
            yield from (
                Fault("journal", key, "the line speaks of no ball of that round.")
                for key in db.execute(
                    "SELECT journal.id FROM journal JOIN ball ON ball.id = ball_id"
                    " WHERE kind <> 'move' AND before = ? AND after = ?"
                    " AND ? = (SELECT count(*) FROM round_cue"
                    " WHERE round_cue.round_id = ball.round_id)",
                    [before, after, cues],
                ).fetchall()
            )
