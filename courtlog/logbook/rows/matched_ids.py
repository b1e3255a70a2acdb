"""Which ids of clinics, players and rounds mean one and the same in joined books, and which not."""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass, field

from courtlog.logbook.schema.tables import columns_of

Pair = tuple[str, int, int]
"""A table and two ids of it, the lower one first."""


@dataclass(slots=True)
class Matching:
    """Ids that mean the same, by table, and pairs that somebody declared to be two."""

    stands_for: dict[str, dict[int, int]] = field(default_factory=dict)
    apart: set[Pair] = field(default_factory=set)

    def kept_id(self, table: str, row: int) -> int:
        """The id that replaces this one."""
        known = self.stands_for.get(table, {})
        while row in known:
            row = known[row]
        return row

    def unite(self, table: str, first: int, second: int) -> bool:
        """Make two ids one; whether that is new."""
        low, high = sorted((self.kept_id(table, first), self.kept_id(table, second)))
        if low != high:
            self.stands_for.setdefault(table, {})[high] = low
        return low != high

    def are_apart(self, table: str, first: int, second: int) -> bool:
        """Whether somebody declared these to be two."""
        pair = {self.kept_id(table, first), self.kept_id(table, second)}
        return any(
            name == table and {self.kept_id(table, low), self.kept_id(table, high)} == pair
            for name, low, high in self.apart
        )

    def rows(self) -> set[tuple[str, int, int, int]]:
        """As the book keeps it."""
        same = {
            (table, self.kept_id(table, row), row, 1)
            for table, known in self.stands_for.items()
            for row in known
        }
        apart = {
            (table, *sorted((self.kept_id(table, low), self.kept_id(table, high))), 0)
            for table, low, high in self.apart
        }
        return same | {row for row in apart if row[1] != row[2]}  # type: ignore[misc]


def load_matching(*books: sqlite3.Connection) -> Matching:
    """The answers that any of these books holds."""
    matches = Matching()
    for db in books:
        for table, low, high, same in db.execute("SELECT * FROM matched"):
            if same:
                matches.unite(table, low, high)
            else:
                matches.apart.add((table, low, high))
    return matches


def same_person(player: int, *books: sqlite3.Connection) -> set[int]:
    """Every id of this person that these books know; joined books know a person by several."""
    matches = load_matching(*(db for db in books if columns_of(db, "matched")))
    stands = matches.kept_id("player", player)
    others = {
        row
        for row in matches.stands_for.get("player", {})
        if matches.kept_id("player", row) == stands
    }
    return {player, stands} | others


def store_matching(db: sqlite3.Connection, matching: Matching) -> None:
    """Write it into the book."""
    held = set(db.execute("SELECT * FROM matched").fetchall())
    db.executemany(
        "DELETE FROM matched WHERE (tbl, one_id, other_id, same) = (?, ?, ?, ?)",
        held - matching.rows(),
    )
    db.executemany("INSERT INTO matched VALUES (?, ?, ?, ?)", matching.rows() - held)


def call_two_rounds(db: sqlite3.Connection, first: int, second: int) -> None:
    """Note that two rounds of one sheet are two: somebody kept both."""
    low, high = sorted((first, second))
    db.execute(
        "INSERT INTO matched VALUES ('round', ?, ?, 0) ON CONFLICT DO UPDATE SET same = 0",
        [low, high],
    )
