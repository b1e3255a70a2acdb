"""An export without names: people, places and free text become words that identify nobody.

What may stay is listed. Every other text is emptied, so that a new column is safe before anybody
thinks of it.
"""

from __future__ import annotations

import hashlib
import json
import sqlite3
from typing import Any

from courtlog.logbook.schema.tables import Column, Kind, Table

NOBODY = "00000000-0000-0000-0000-000000000000"
"""The nil UUID of RFC 9562, section 5.9."""

_STAYS = {
    "book": {"app_version"},
    "clinic": {"zone", "turn_order"},
    "player": {"hand", "backhand", "age_group"},
    "roster": {"next_drill"},
    "drill_used": {"name", "stroke", "feed"},
    "round": {"purpose", "feed_order", "order_kind", "tough_plan", "speak"},
    "round_cue": {"cue"},
    "journal": {"kind", "before", "after"},
    "check_in": {"moment"},
    "focus": {"stroke"},
    "main_cue": {"stroke", "cue"},
    "attendance": {"state"},
    "said": {"wording"},
    "planned_round": {"drill", "purpose"},
    "amendment": {"kind"},
    "amended": {"what", "before", "after"},
    "matched": {"tbl"},
    "film": {"known_by"},
    "filming_consent": {"answer"},
    "home_yardstick": {"cues", "balls"},
    "blind_page": {"stroke", "cues", "code"},
    "player_court": {"kind"},
}
_STAYS_OF_A_CARD = {"stroke", "key", "part", "feed", "order", "station"}
"""A drill is kept by its keys; its texts may be the coach's own, and hold a name."""

_LEFT_OUT = "left out"
"""Replaces a text that a card must have."""

_NUMBERED = {
    *(("clinic", "name"), ("coach", "name"), ("player", "name")),
    *(("day", "court"), ("player_court", "court"), ("film_court", "court")),
}

_NAMES_OF = {
    "name": "SELECT id AS place, name AS called FROM main.{table}",
    # One court has one number, wherever it is named.
    "court": "SELECT court AS place, court AS called FROM"
    " (SELECT court FROM main.day UNION SELECT court FROM main.player_court"
    " UNION SELECT court FROM main.film_court)",
}
"""What is numbered with a column: each thing by its place in the order."""


_LETTERS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
"""Without letters that look like digits (Crockford's base 32, from memory)."""


def number_names(db: sqlite3.Connection, by_id: bool = False) -> None:
    """Temporary tables `called_NAME`: `player 1`, courts as numbers, cards without words.

    `by_id`: a code made of the row's id instead of its number, so that all exports agree.
    """
    for table, column in sorted(_NUMBERED):
        word = "" if column == "court" else f"{table} "
        if by_id:
            _name_by_id(db, table, column, word)
            continue
        key = "id" if column == "name" else column
        db.execute(
            f"CREATE TEMP TABLE called_{table} AS WITH named AS (SELECT place,"
            f" CASE called WHEN '' THEN '' ELSE '{word}' || dense_rank()"
            f" OVER (PARTITION BY called = '' ORDER BY place) END AS words"
            f" FROM ({_NAMES_OF[column].format(table=table)}))"
            f" SELECT id, words FROM main.{table} JOIN named ON place = {key}"
        )
    db.execute("CREATE TEMP TABLE called_drill_used (id INTEGER PRIMARY KEY, card, digest)")
    cards = db.execute("SELECT id, card FROM main.drill_used ORDER BY id").fetchall()
    for number, (row, card) in enumerate(cards, 1):
        words = _wordless(card, number)
        digest = hashlib.sha256(words.encode()).hexdigest()
        db.execute("INSERT INTO called_drill_used VALUES (?, ?, ?)", [row, words, digest])


def _name_by_id(db: sqlite3.Connection, table: str, column: str, word: str) -> None:
    """The same with codes; a court has that of its first day in the clinic."""
    first = "id"
    if column == "court":
        first = (
            "coalesce((SELECT min(known.id) FROM main.day AS known"
            f" WHERE (known.clinic_id, known.court) = ({table}.clinic_id, {table}.court)),"
            " min(id) OVER (PARTITION BY clinic_id, court))"
        )
    rows = db.execute(f"SELECT id, {column} = '', {first} FROM main.{table}").fetchall()
    db.execute(f"CREATE TEMP TABLE called_{table} (id INTEGER PRIMARY KEY, words)")
    db.executemany(
        f"INSERT INTO called_{table} VALUES (?, ?)",
        [(row, "" if nameless else word + code_of(named_by)) for row, nameless, named_by in rows],
    )


def code_of(row: int) -> str:
    """Six letters and digits for an id, to be read aloud; only a book knows whose id it is."""
    number = int.from_bytes(hashlib.sha256(str(row).encode()).digest()[:4], "big") >> 2
    return "".join(_LETTERS[number >> place & 31] for place in range(25, -1, -5))


def _wordless(card: str, number: int) -> str:
    """The card without its texts; its number tells it from another that had other texts."""
    kept = _without_texts(json.loads(card), "")
    kept["drill"]["name"] = f"drill {number}"
    return json.dumps(kept, separators=(",", ":"))


def _without_texts(value: Any, name: str) -> Any:
    match value:
        case dict():
            return {key: _without_texts(one, key) for key, one in value.items()}
        case list():
            return [_without_texts(one, name) for one in value]
        case str() if name not in _STAYS_OF_A_CARD:
            return _LEFT_OUT
    return value


def drop_numbers(db: sqlite3.Connection) -> None:
    """Drop the temporary tables."""
    for table in ("drill_used", *(table for table, _ in _NUMBERED)):
        db.execute(f"DROP TABLE IF EXISTS temp.called_{table}")


def anonymous_sql(table: Table, column: Column) -> str:
    """The SQL of the column's value as it may be seen by anybody."""
    if column.kind is not Kind.STRING or column.name in _STAYS.get(table.name, ()):
        return f'"{column.name}"'
    if (table.name, column.name) in _NUMBERED:
        return f"(SELECT words FROM called_{table.name} WHERE id = main.{table.name}.id)"
    if table.name == "drill_used":
        return f"(SELECT {column.name} FROM called_drill_used WHERE id = main.drill_used.id)"
    if (table.name, column.name) == ("book", "uuid"):
        return f"'{NOBODY}'"
    if not column.required:
        return "NULL"
    return column.default or "''"
