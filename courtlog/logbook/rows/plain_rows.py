"""Rows that join by copying: they belong to rounds and balls alone, and nothing belongs to them.

Rounds and balls keep their ids when books are joined, so such a row of the other book is copied
unchanged. Only a row that was ever changed or deleted, or differs in the two books, is contested:
then its versions decide (row_versions.py). Most rows beside the balls are plain.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Sequence

from courtlog.logbook.schema import row_versions
from courtlog.logbook.schema.tables import Table

_KEEP_THEIR_IDS = {"round", "ball"}


def plain_tables(every: Sequence[Table]) -> list[Table]:
    """The tables of such rows."""
    parents = {link.parent for table in every for link in table.links}
    return [
        table
        for table in every
        if table.name not in parents and {link.parent for link in table.links} <= _KEEP_THEIR_IDS
    ]


def mark_contested(db: sqlite3.Connection, every: Sequence[Table]) -> None:
    """Note in the temporary table `contested` the keys of plain rows whose versions must decide."""
    db.execute("DROP TABLE IF EXISTS temp.contested")
    db.execute("CREATE TEMP TABLE contested (tbl TEXT, key TEXT, PRIMARY KEY (tbl, key))")
    for table in plain_tables(every):
        for held in ("main.former", "main.conflict", "theirs.former", "theirs.conflict"):
            db.execute(
                f"INSERT OR IGNORE INTO contested SELECT tbl, key FROM {held} WHERE tbl = ?",
                [table.name],
            )
        ours, other = (row_versions.values_sql(table, row) for row in ("ours", "other"))
        db.execute(
            "INSERT OR IGNORE INTO contested"
            f" SELECT '{table.name}', {row_versions.key_sql(table, 'ours')}"
            f" FROM main.{table.name} AS ours JOIN theirs.{table.name} AS other"
            f" USING ({', '.join(table.key)}) WHERE {ours} <> {other}"
        )


def contested(table: Table) -> str:
    """The WHERE of a table's rows whose versions must decide."""
    return (
        f"{row_versions.key_sql(table, '')} IN"
        f" (SELECT key FROM temp.contested WHERE tbl = '{table.name}')"
    )


def copy_plain_rows(db: sqlite3.Connection, every: Sequence[Table]) -> None:
    """Copy the other book's plain rows that are missing here; drops the temporary table."""
    for table in plain_tables(every):
        same = " AND ".join(f"here.{name} = {table.name}.{name}" for name in table.key)
        db.execute(
            f"INSERT INTO main.{table.name} SELECT * FROM theirs.{table.name}"
            f" WHERE NOT {contested(table)}"
            f" AND NOT EXISTS (SELECT 1 FROM main.{table.name} AS here WHERE {same})"
        )
    db.execute("DROP TABLE temp.contested")


def rounds_needed(db: sqlite3.Connection, every: Sequence[Table]) -> Iterator[int]:
    """The rounds that plain rows of either book belong to."""
    for table in plain_tables(every):
        for link in table.links:
            if link.parent == "round":
                for book in ("main", "theirs"):
                    yield from (
                        row
                        for (row,) in db.execute(
                            f"SELECT DISTINCT {link.name} FROM {book}.{table.name}"
                            f" WHERE {link.name} IS NOT NULL AND NOT {contested(table)}"
                        )
                    )
