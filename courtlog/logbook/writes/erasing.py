"""Remove a person for good: every row that belongs to them, and the bytes of those rows.

What belongs to a player is found along the foreign keys, so a new table is covered from its first
day. This is the one exception to what the book otherwise never deletes: journal and reds go too.
"""

from __future__ import annotations

import contextlib
import sqlite3
from collections import Counter
from collections.abc import Iterable, Sequence, Set
from dataclasses import dataclass, field

from courtlog.coaching.game.people import Player
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.head_book import check_head_book
from courtlog.logbook.rows import matched_ids
from courtlog.logbook.rows.mentions import SOMEONE, find_mentions, forget_mentioning_versions
from courtlog.logbook.rows.row_changes import insert
from courtlog.logbook.schema import row_versions
from courtlog.logbook.schema.row_versions import without_triggers
from courtlog.logbook.schema.rows_of_player import Link, hanging_rows, links_of
from courtlog.logbook.schema.tables import columns_of

COUNTED = frozenset({"round", "round_cue", "ball", "rating", "tally"})
"""What is left of a person whose counts are kept: grades without a name, a time or a word.

The balls stay with the tallies, because a tally is what a recount of its balls gives.
"""


@dataclass(frozen=True, slots=True)
class ErasedRows:
    """Rows removed (or, where counts are kept, made nameless) by table.

    `mentions` counts texts of others that hold the name; they are changed only when that was asked.
    `elsewhere` counts places that are never changed, and hold the name or a longer word with it.
    """

    rows: Counter[str]
    mentions: int
    elsewhere: Counter[str] = field(default_factory=Counter)


@dataclass(frozen=True, slots=True)
class PersonIdentity:
    """All that one person is known by: ids, of which joined books have several, and names."""

    ids: frozenset[int]
    names: frozenset[str]


class _PreviewOnly(Exception):  # noqa: N818 - nothing went wrong
    """Everything was counted; the transaction is to leave no trace."""


def identity_of(db: sqlite3.Connection, who: Player) -> PersonIdentity:
    """The ids and names that a book has for the person, who may be erased from it already."""
    known = identity_of_ids(db, {who.id})
    return PersonIdentity(known.ids, known.names | ({who.name, who.short} - {""}))


def identity_of_ids(db: sqlite3.Connection, ids: Iterable[int]) -> PersonIdentity:
    everyone = {same for one in ids for same in matched_ids.same_person(one, db)}
    names = {name for one in everyone for name in names_of(db, one)}
    return PersonIdentity(frozenset(everyone), frozenset(names))


def preview(book: Book, who: Player) -> ErasedRows:
    """What would go; nothing is changed. Raises CourtlogError in a book that may not erase."""
    check_head_book(book.db)
    gone = ErasedRows(Counter(), 0)
    with contextlib.suppress(_PreviewOnly), book.writing() as db:
        gone = erase_person(db, identity_of(db, who), None, False)
        raise _PreviewOnly
    return gone


def erase(book: Book, who: Player, at_ms: int, keep_counts: bool, in_notes: bool) -> ErasedRows:
    """Remove the person from the open book. Raises BookError, and then nothing was changed."""
    with book.reading():
        check_head_book(book.db)
        be_alone(book.db)
        with book.writing() as db:
            nobody = _nobody(book, at_ms) if keep_counts else None
            gone = erase_person(db, identity_of(db, who), nobody, in_notes)
        book.db.execute("VACUUM")
        book.db.execute("PRAGMA journal_mode = WAL")
    return gone


def erased_ids(db: sqlite3.Connection) -> set[int]:
    """Who was removed for good, by id; minus the id: texts about others lost the name too.

    Nothing but these numbers is left of them. They travel with the book.
    """
    return {row for (row,) in db.execute("SELECT player_id FROM erased")}


def erase_within(
    db: sqlite3.Connection, player: int, names: Set[str], in_notes: bool
) -> ErasedRows:
    """Remove the person inside another's transaction, counts too.

    `names` are those that another book knows; the person may be erased from this one already.
    """
    known = PersonIdentity(frozenset({player}), frozenset(names | names_of(db, player)))
    return erase_person(db, known, None, in_notes)


def names_of(db: sqlite3.Connection, player: int) -> set[str]:
    """The person's names now and before, short names too; empty once erased."""
    columns = columns_of(db, "player") & {"name", "short_name"}
    rows = db.execute(f"SELECT {', '.join(columns)} FROM player WHERE id = ?", [player]).fetchall()
    if columns_of(db, "former"):
        rows += row_versions.earlier_values(db, "player", [player], columns)
    return {name for row in rows for name in row if name}


def be_alone(db: sqlite3.Connection) -> None:
    """Fails while anybody else has the file open; from here on nothing deleted leaves a trace.

    Without a write-ahead log the pages are written over where they lie, and the rollback journal
    goes with the commit. VACUUM then writes every page again.
    """
    db.execute("PRAGMA journal_mode = DELETE")
    db.execute("PRAGMA temp_store = MEMORY")


def erase_person(
    db: sqlite3.Connection, who: PersonIdentity, nobody: int | None, in_notes: bool
) -> ErasedRows:
    """Inside a transaction; `nobody` takes over what is counted."""
    links = links_of(db)
    rows: Counter[str] = Counter()
    with without_triggers(db):
        for player in sorted(who.ids):
            rows += _erase_rows(db, links, player, nobody)
        found = find_mentions(db, who.names, in_notes)
        if columns_of(db, "former"):
            for player in who.ids:
                row_versions.forget_player(db, player)
            if in_notes:
                forget_mentioning_versions(db)
    if columns_of(db, "erased"):
        for player in who.ids:
            for row in (player, *([-player] if in_notes else [])):
                db.execute("INSERT OR IGNORE INTO erased VALUES (?)", [row])
    return ErasedRows(+rows, found.texts, found.elsewhere)


def _erase_rows(
    db: sqlite3.Connection, links: Sequence[Link], player: int, nobody: int | None
) -> Counter[str]:
    hanging = hanging_rows(links, "id = :player")
    rows: Counter[str] = Counter()
    rows["amended"] += _leave_sheets_of_others(db, player)
    for link in links:
        if not link.must and link.parent in hanging:
            db.execute(
                f"UPDATE {link.child} SET {link.column} = NULL WHERE {link.column} IN"
                f" (SELECT id FROM {link.parent} WHERE {hanging[link.parent]})"
                f" AND NOT ({hanging.get(link.child, 'false')})",
                {"player": player},
            )
    for table, where in hanging.items():
        if nobody is None or table not in COUNTED:
            if table == "player":
                rows += _anonymise_counts(db, player, nobody)
            done = db.execute(f"DELETE FROM {table} WHERE {where}", {"player": player})
            rows[table] += done.rowcount
    return rows


_ITS_BALLS = "SELECT ball.id FROM round JOIN ball ON round_id = round.id WHERE player_id = :player"


def _leave_sheets_of_others(db: sqlite3.Connection, player: int) -> int:
    """Keep the sheets on which others stand too, without this player's balls; how many those are.

    A sheet's amendment names one of its rounds, and would go with that round's player.
    """
    if not columns_of(db, "amended"):
        return 0
    removed = db.execute(
        "DELETE FROM amended WHERE journal_id IS NULL AND what = 'struck'"
        " AND amendment_id IN (SELECT id FROM amendment WHERE kind = 'join' AND other_id IS NULL)"
        f" AND row_id IN ({_ITS_BALLS})",
        {"player": player},
    ).rowcount
    db.execute(
        "UPDATE amendment SET round_id = coalesce((SELECT ball.round_id FROM amended"
        "   JOIN ball ON ball.id = row_id WHERE amendment_id = amendment.id AND what = 'struck'"
        "   ORDER BY ball.id LIMIT 1), round_id)"
        " WHERE kind = 'join' AND other_id IS NULL"
        " AND round_id IN (SELECT id FROM round WHERE player_id = :player)",
        {"player": player},
    )
    return removed


def _nobody(book: Book, at_ms: int) -> int:
    """A new player without a name: `someone 1`, and for the next one `someone 2`."""
    (before,) = book.db.execute(
        "SELECT count(*) FROM player WHERE name GLOB ?", [f"{SOMEONE} [0-9]*"]
    ).fetchone()
    return insert(book.db, book.ids, at_ms, "player", name=f"{SOMEONE} {before + 1}")


def _anonymise_counts(db: sqlite3.Connection, player: int, nobody: int | None) -> Counter[str]:
    """Rounds, balls and tallies pass to nobody, without a clock time or a clip; how many."""
    if nobody is None:
        return Counter()
    both = {"player": player, "nobody": nobody}
    rounds = db.execute(
        "UPDATE round SET player_id = :nobody, started_at = NULL, ended_at = NULL, paused_ms = 0"
        " WHERE player_id = :player",
        both,
    ).rowcount
    db.execute("UPDATE tally SET player_id = :nobody WHERE player_id = :player", both)
    balls = db.execute(
        "UPDATE ball SET clip_at = NULL, taken_at = NULL"
        " WHERE round_id IN (SELECT id FROM round WHERE player_id = :nobody)",
        both,
    ).rowcount
    return Counter(round=rounds, ball=balls)
