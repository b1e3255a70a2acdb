"""An export without names: people, places and free text give way to words that tell nobody.

What may stay is listed; every other text is emptied, so that a new column is safe before anyone
thinks of it.
"""

from __future__ import annotations

from courtlog.logbook.database import Database
from courtlog.logbook.tables import Column, Kind, Table

NOBODY = "00000000-0000-0000-0000-000000000000"
"""The nil UUID of RFC 9562, section 5.9."""

_STAYS = {
    "book": {"app_version"},
    "clinic": {"zone", "turn_order"},
    "player": {"hand", "backhand", "age_group"},
    "roster": {"next_drill"},
    "drill_used": {"name", "stroke", "feed", "card", "digest"},
    "round": {"purpose", "feed_order", "order_kind", "tough_plan", "speak"},
    "round_cue": {"cue"},
    "journal": {"kind", "before", "after"},
    "check_in": {"moment"},
    "focus": {"stroke"},
    "attendance": {"state"},
    "said": {"wording"},
    "planned_round": {"drill", "purpose"},
}
_NUMBERED = {("clinic", "name"), ("coach", "name"), ("player", "name"), ("day", "court")}


def give_numbers(db: Database) -> None:
    """Temporary tables `called_NAME`: `player 1` and so on; a court is a number."""
    for table, column in sorted(_NUMBERED):
        word = "" if column == "court" else f"{table} "
        order = "id" if column == "name" else column
        db.execute(
            f"CREATE TEMP TABLE called_{table} AS SELECT id, CASE {column} WHEN '' THEN ''"
            f" ELSE '{word}' || dense_rank() OVER (PARTITION BY {column} = '' ORDER BY {order})"
            f" END AS words FROM main.{table}"
        )


def forget_numbers(db: Database) -> None:
    """Drop the temporary tables."""
    for table, _ in _NUMBERED:
        db.execute(f"DROP TABLE IF EXISTS temp.called_{table}")


def without_names(table: Table, column: Column) -> str:
    """The SQL of the column's value as it may be seen by anybody."""
    if column.kind is not Kind.STRING or column.name in _STAYS.get(table.name, ()):
        return f'"{column.name}"'
    if (table.name, column.name) in _NUMBERED:
        return f"(SELECT words FROM called_{table.name} WHERE id = main.{table.name}.id)"
    if (table.name, column.name) == ("book", "uuid"):
        return f"'{NOBODY}'"
    if not column.required:
        return "NULL"
    return column.default or "''"
