"""Which rows of which tables hang on a player, found along the foreign keys of the schema.

A new table with a link to a player, or to what hangs on one, is covered from its first day.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass
from graphlib import TopologicalSorter


@dataclass(frozen=True, slots=True)
class Link:
    """A foreign key; a row that must have its parent goes with it, any other is only let loose."""

    child: str
    column: str
    parent: str
    must: bool


def links_of(db: sqlite3.Connection) -> list[Link]:
    """Every foreign key of the book that leads to another table."""
    rows = db.execute(
        'SELECT master.name, key."from", key."table", info."notnull" OR info.pk'
        " FROM sqlite_master AS master, pragma_foreign_key_list(master.name) AS key"
        ' JOIN pragma_table_info(master.name) AS info ON info.name = key."from"'
        " WHERE master.type = 'table' AND master.name <> key.\"table\" ORDER BY 1, 2"
    )
    return [Link(child, column, parent, bool(must)) for child, column, parent, must in rows]


def hanging_rows(links: Sequence[Link], players: str) -> dict[str, str]:
    """The WHERE of the rows that hang on these players, by table; children before parents.

    `players` is the WHERE of the table `player` itself.
    """
    order = TopologicalSorter[str]()
    for link in links:
        order.add(link.parent, link.child)
    found = {"player": players}
    for table in reversed(list(order.static_order())):
        reasons = [
            f"{link.column} IN (SELECT id FROM {link.parent} WHERE {found[link.parent]})"
            for link in links
            if link.child == table and link.must and link.parent in found
        ]
        if reasons:
            found[table] = " OR ".join(reasons)
    return dict(reversed(found.items()))
