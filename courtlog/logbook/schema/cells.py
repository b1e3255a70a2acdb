"""A cell of a CSV file: how a column's value is written, and how it is read back, as SQL.

Cells that a spreadsheet might run as formulas start with '; import removes it. Such a cell's first
visible character is one of RISKY: a spreadsheet may drop what cannot be seen before it. An empty
cell is no value, or the empty text where the column must hold a text. Where it need not, the empty
text is a lone apostrophe.

(The list is OWASP's page "CSV Injection", from memory.)
"""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Callable
from datetime import datetime
from functools import lru_cache

from courtlog.logbook.schema.tables import Column, Kind, Table
from courtlog.plain_text import is_seen
from courtlog.times import as_moment

GUARD = "'"
RISKY = "=+-@\t\r\n＝＋－＠" + GUARD
"""The apostrophe is among them so that a text of the coach's that begins with one keeps it."""

_QUOTED = re.compile('[,"\r\n]')

_SURELY_A_DAY = ("????-??-[01]?T??:??:??.???Z", "????-??-2[0-8]T??:??:??.???Z")


def line_sql(table: Table, value: Callable[[Column], str]) -> str:
    """The SQL of a row's line in the file; `value` gives the SQL of a column."""
    # A table of one whole-number column would else be a number and no text.
    return "''||" + "||','||".join(write_sql(column, value(column)) for column in table.columns)


def write_sql(column: Column, value: str) -> str:
    """The SQL of a value's cell in the file; it needs the functions of `add_functions`."""
    match column.kind:
        case Kind.MOMENT:
            iso = f"strftime('%Y-%m-%dT%H:%M:%fZ', {value} / 1000.0, 'unixepoch')"
            return f"coalesce({iso}, {value}, '')"
        case Kind.STRING if not column.required:
            return f"CASE {value} WHEN '' THEN '{GUARD * 2}' ELSE text_cell({value}) END"
        case Kind.STRING | Kind.DATE:
            return f"text_cell({value})"
        case Kind.NUMBER:
            return f"number_cell({value})"
        case _:
            return value if column.required else f"ifnull({value}, '')"


def add_functions(db: sqlite3.Connection) -> None:
    """Give the connection the functions that `write_sql` and `read_sql` call."""
    for function in (text_cell, number_cell, iso_moment):
        db.create_function(function.__name__, 1, function, deterministic=True)


@lru_cache(maxsize=1024)
def text_cell(text: str | None) -> str:
    """A text with its guard, in quotes where RFC 4180 wants them (section 2, rules 6 and 7)."""
    if not text:
        return ""
    cell = GUARD + text if _is_risky(text) else text
    if not _QUOTED.search(cell):
        return cell
    doubled = cell.replace('"', '""')
    return f'"{doubled}"'


def _is_risky(text: str) -> bool:
    """Whether it begins with one of RISKY, or has nothing but unseen characters before one."""
    if text[0].isascii() and text[0].isalnum():
        return False
    return text[0] in RISKY or next(filter(is_seen, text), " ") in RISKY


def number_cell(number: float | None) -> str:
    """In the fewest digits that read back as the same number; SQLite would keep fifteen."""
    return "" if number is None else repr(number)


def read_sql(column: Column, place: int) -> str:
    """The SQL of the value in the cell at that place (from 1)."""
    cell = f"?{place}"
    match column.kind:
        case Kind.MOMENT:
            # Days up to the 28th are in every month; SQLite would roll a 31 June over into July.
            # A text that is not a time is left as it is, and a STRICT table refuses it.
            fast = " OR ".join(f"{cell} GLOB '{pattern}'" for pattern in _SURELY_A_DAY)
            ours = f"coalesce(strftime('%s', {cell}) * 1000 + substr({cell}, 21, 3), {cell})"
            return (
                f"CASE WHEN {cell} = '' THEN NULL WHEN {fast} THEN {ours}"
                f" ELSE iso_moment({cell}) END"
            )
        case Kind.STRING:
            # As bytes: SQLite's substr ends a text at a NUL.
            bare = f"CAST(substr(CAST({cell} AS BLOB), 2) AS TEXT)"
            none = "" if column.required else f"WHEN {cell} = '' THEN NULL "
            return f"CASE {none}WHEN {_guarded(cell)} THEN {bare} ELSE {cell} END"
        case Kind.INTEGER | Kind.YES_NO if column.required:
            return cell
        case _:
            return f"nullif({cell}, '')"


def _guarded(cell: str) -> str:
    """Whether it begins with an apostrophe: between two texts, which costs less than cutting."""
    return f"{cell} >= '{GUARD * 2}' AND {cell} < '{chr(ord(GUARD) + 1)}'"


def iso_moment(cell: str) -> int | str:
    """Milliseconds UTC of an ISO 8601 time with its offset; anything else as it stands."""
    try:
        when = datetime.fromisoformat(cell)
        return as_moment(when) if when.tzinfo else cell
    except (ValueError, OverflowError):
        return cell
