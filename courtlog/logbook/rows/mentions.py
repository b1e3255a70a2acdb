"""A person's name in texts about others: which texts hold it, taking it out, and what is left.

Names and texts are compared in one Unicode form, so that an é of two characters is an é too
(Unicode Standard Annex 15).
"""

from __future__ import annotations

import json
import re
import sqlite3
import unicodedata
from collections import Counter
from collections.abc import Callable, Mapping, Sequence, Set
from dataclasses import dataclass, field
from typing import Any

from courtlog.logbook.schema.tables import columns_of
from courtlog.plain_text import many

SOMEONE = "someone"
"""Replaces a name in texts about others."""

FREE_TEXT: Mapping[str, Sequence[str]] = {
    "note": ("text",),
    "check_in": ("place", "note", "signs"),
    "player": ("level", "complaints", "contact"),
    "roster": ("goal", "usual_week"),
    "focus": ("strengths", "why"),
    "red_flag": ("reason",),
    "clinician_word": ("who", "text"),
    "filming_consent": ("who",),
    "home_yardstick": ("watcher",),
}
"""Where a coach may have written one player's name into another player's rows."""

NOT_CHANGED: Mapping[str, Mapping[str, str]] = {
    "clinic": {"name": "the name of a clinic", "stations": "the stations of a clinic"},
    "day": {"court": "the name of a court"},
    "standing": {"station": "a station", "before": "a station"},
    "solo": {"station": "a station"},
    "drill_used": {"card": "the text of a drill"},
    "film": {"name": "the name of a film"},
    "player_court": {"court": "the name of a court"},
    "film_court": {"court": "the name of a court"},
    "court_book": {"court": "the name of a court", "stick": "the folder of a stick"},
    "court_reading": {"court": "the name of a court"},
}
"""Names of things that others use: a person's name in them is reported, never changed."""

_SHORTEST = 3
"""Letters of a part of a name that is looked for by itself."""


@dataclass(frozen=True, slots=True)
class Mentions:
    """Texts about others that hold the name, and places where it is reported but not changed."""

    texts: int = 0
    elsewhere: Counter[str] = field(default_factory=Counter)


def find_mentions(db: sqlite3.Connection, names: Set[str], change: bool) -> Mentions:
    """Look for the names; with `change` they are taken out of texts about others.

    Leaves the SQL function `unnamed` behind, which does that to one text.
    """
    parts = _parts(names)
    _add_functions(db, parts)
    texts, elsewhere = 0, Counter[str]()
    for table, columns in FREE_TEXT.items():
        there = columns_of(db, table)
        for column in filter(there.__contains__, columns):
            where = f"{column} <> '' AND {column} <> unnamed({column})"
            # A longer word with the name in it is another word, or the name with an ending.
            elsewhere["a longer word in a text about others"] += _count(
                db, table, f"still_named(unnamed({column}))"
            )
            if change:
                done = db.execute(f"UPDATE {table} SET {column} = unnamed({column}) WHERE {where}")
                texts += done.rowcount
            else:
                texts += _count(db, table, where)
    for table, places in NOT_CHANGED.items():
        there = columns_of(db, table)
        for column in filter(there.__contains__, places):
            # A drill's text has many words, and few of them are anybody's name.
            holds = (
                f"{column} <> unnamed({column})" if column == "card" else (f"still_named({column})")
            )
            elsewhere[places[column]] += _count(db, table, holds)
    return Mentions(texts, +elsewhere)


def forget_mentioning_versions(db: sqlite3.Connection) -> None:
    """Remove former versions that hold the names that `find_mentions` looked for last."""
    for table in ("former", "conflict"):
        db.execute(f"DELETE FROM {table} WHERE reading <> unnamed(reading)")


def place_phrases(elsewhere: Counter[str]) -> list[str]:
    """`the name of a clinic`, `a station (3 times)`."""
    return [
        place if count == 1 else f"{place} ({many(count, 'time')})"
        for place, count in elsewhere.items()
    ]


def _parts(names: Set[str]) -> set[str]:
    """Whole names and their longer parts, also as JSON writes them."""
    whole = {unicodedata.normalize("NFC", name) for name in names if name}
    parts = whole | {part for name in whole for part in name.split() if len(part) >= _SHORTEST}
    return parts | {json.dumps(part, ensure_ascii=False)[1:-1] for part in parts}


def unnamed_by(names: Set[str], spared: Set[str] = frozenset()) -> Callable[[Any], Any]:
    """The function that takes these names out of a text, whole or in parts; else it is as it was.

    `spared` are names whose own words stay: a family name may be shared.
    """
    kept = {part.casefold() for part in _parts(spared)}
    return _unnamed({part for part in _parts(names) if part.casefold() not in kept})


def _unnamed(parts: Set[str]) -> Callable[[Any], Any]:
    words = "|".join(map(re.escape, sorted(parts, key=len, reverse=True)))
    named = re.compile(rf"(?<!\w)(?:{words})(?!\w)" if words else "(?!)", re.IGNORECASE)

    def unnamed(text: Any) -> Any:
        if not isinstance(text, str):
            return text
        composed = unicodedata.normalize("NFC", text)
        without = named.sub(SOMEONE, composed)
        return text if without == composed else without

    return unnamed


def _add_functions(db: sqlite3.Connection, parts: Set[str]) -> None:
    long = [part for part in parts if len(part) >= _SHORTEST]
    within = re.compile("|".join(map(re.escape, long)) if long else "(?!)", re.IGNORECASE)

    def still_named(text: object) -> bool:
        return isinstance(text, str) and bool(
            within.search(unicodedata.normalize("NFC", text).replace(SOMEONE, ""))
        )

    db.create_function("unnamed", 1, _unnamed(parts))
    db.create_function("still_named", 1, still_named)


def _count(db: sqlite3.Connection, table: str, where: str) -> int:
    (found,) = db.execute(f"SELECT count(*) FROM {table} WHERE {where}").fetchone()
    return int(found)
