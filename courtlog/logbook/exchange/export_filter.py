"""Which rows an export leaves out, with every row that belongs to them; found along the links."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence

from courtlog.logbook.schema.tables import Table

MINORS = {"player": "age_group = 'minor'"}

_SEEN_IN = "SELECT player_id FROM {table} JOIN day ON day.id = day_id WHERE clinic_id = {clinic}"


def other_clinics(clinic: int) -> dict[str, str]:
    """The rows of every clinic but this one, and the people and drills that it never saw."""
    of_day = " UNION ".join(
        _SEEN_IN.format(table=table, clinic=clinic) for table in ("round", "check_in")
    )
    rounds = f"FROM round JOIN day ON day.id = day_id WHERE clinic_id = {clinic}"
    return {
        "clinic": f"id <> {clinic}",
        "player": f"id NOT IN (SELECT player_id FROM roster WHERE clinic_id = {clinic}"
        f" UNION {of_day})",
        "coach": f"id NOT IN (SELECT coach_id FROM day WHERE clinic_id = {clinic}"
        f" UNION SELECT round.coach_id {rounds})",
        "drill_used": f"id NOT IN (SELECT drill_id {rounds})",
    }


def mark_left_out(
    db: sqlite3.Connection, every: Sequence[Table], seeds: Sequence[dict[str, str]]
) -> None:
    """Note in temporary tables `home_NAME` the ids of the rows that do not travel."""
    for table in every:
        if table.key != ("id",):
            continue
        db.execute(f"CREATE TEMP TABLE home_{table.name} (id INTEGER PRIMARY KEY)")
        reasons = [seed[table.name] for seed in seeds if table.name in seed]
        reasons += _names_left_out(table)
        if reasons:
            db.execute(
                f"INSERT INTO home_{table.name} SELECT id FROM main.{table.name}"
                f" WHERE {' OR '.join(reasons)}"
            )


def drop_marks(db: sqlite3.Connection, every: Sequence[Table]) -> None:
    """Drop the temporary tables."""
    for table in every:
        db.execute(f"DROP TABLE IF EXISTS temp.home_{table.name}")


def exported_where(table: Table) -> str:
    """The WHERE of the rows that travel, once `stay_home` has run."""
    own = (
        [f"id IN (SELECT id FROM home_{table.name})"]
        if table.key == ("id",)
        else _names_left_out(table)
    )
    return f"NOT ifnull({' OR '.join(own)}, 0)" if own else "true"


def _names_left_out(table: Table) -> list[str]:
    return [
        f"ifnull({link.name} IN (SELECT id FROM home_{link.parent}), 0)"
        for link in table.links
        if link.parent != table.name
    ]
