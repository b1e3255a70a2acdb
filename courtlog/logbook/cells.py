"""A cell of a CSV file: how a column's value is written, and how it is read back, as SQL.

A text that begins with one of RISKY would be run by a spreadsheet, so it gets one apostrophe in
front; reading takes one apostrophe off again. An empty cell is no value, or the empty text where
the column must hold a text; where it need not, the empty text is a lone apostrophe.
(The list is OWASP's page "CSV Injection", from memory.)
"""

from __future__ import annotations

from datetime import datetime

from courtlog.coaching.times import as_moment
from courtlog.logbook.tables import Column, Kind

GUARD = "'"
RISKY = "=+-@\t\r\n＝＋－＠" + GUARD
"""The apostrophe is among them so that a text of the coach's that begins with one keeps it."""

_RISKY = ", ".join(f"char({ord(character)})" for character in RISKY)
_GUARD = f"char({ord(GUARD)})"

_SURELY_A_DAY = ("????-??-[01]?T??:??:??.???Z", "????-??-2[0-8]T??:??:??.???Z")


def written(column: Column, value: str = "") -> str:
    """The SQL of a cell as it stands in the file; `value` is SQL to use instead of the column."""
    value = value or f'"{column.name}"'
    match column.kind:
        case Kind.MOMENT:
            iso = f"strftime('%Y-%m-%dT%H:%M:%fZ', {value} / 1000.0, 'unixepoch')"
            return f"coalesce({iso}, {value})"
        case Kind.STRING:
            empty = "" if column.required else f"{value} = '' OR "
            risky = f"{empty}substr({value}, 1, 1) IN ({_RISKY})"
            return f"CASE WHEN {risky} THEN {_GUARD} || {value} ELSE {value} END"
        case _:
            return value


def read(column: Column, place: int) -> str:
    """The SQL of the value that the cell in that place (from 1) stands for."""
    cell = f"?{place}"
    match column.kind:
        case Kind.MOMENT:
            # Days up to the 28th are in every month; SQLite would roll a 31 June over into July.
            # A text that is no time comes through as it stands, and a STRICT table refuses it.
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
