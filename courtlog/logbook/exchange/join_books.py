"""Join books: the result holds what either of them knows, in whatever order and however often.

Rows are joined by their versions (row_versions.py), people and clinics by who they are
(matching.py), balls by their journal. It all happens in one transaction after a backup; the other
book is only read.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import closing
from dataclasses import dataclass, replace
from pathlib import Path

from courtlog import drafts, given_files
from courtlog.errors import BookError, CourtlogError
from courtlog.logbook.exchange import matching, other_book, removals, same_sheets
from courtlog.logbook.exchange.join_balls import join_balls
from courtlog.logbook.exchange.matching import Ask
from courtlog.logbook.exchange.other_book import OtherBook
from courtlog.logbook.exchange.removals import MayRemove, PersonToRemove, Removal
from courtlog.logbook.file import backups, file_identity
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads.courts.court_file import CourtFile, told_by
from courtlog.logbook.rows import matched_ids, plain_rows, tallies
from courtlog.logbook.rows.ids import COUNT_BITS
from courtlog.logbook.rows.matched_ids import Matching
from courtlog.logbook.rows.numbering import renumber_all
from courtlog.logbook.rows.red_flags import flag_reds_everywhere
from courtlog.logbook.rows.soundness import faults
from courtlog.logbook.schema import row_versions, schema_check
from courtlog.logbook.schema.row_versions import RowHistories, RowHistory, without_triggers
from courtlog.logbook.schema.tables import Table, tables
from courtlog.logbook.writes import erasing


@dataclass(frozen=True, slots=True)
class JoinResult:
    """What a joining changed in this book."""

    balls: int
    """Balls that were new here."""

    keys: int
    """Lines of balls' journals that were new here."""

    reds: tuple[int, ...] = ()
    """Ids of red flags that only both books together call for."""

    removed: tuple[PersonToRemove, ...] = ()
    """People who were removed because the other book had removed them for good."""

    backup: Path | None = None
    court: CourtFile | None = None
    """What the other one says of itself, where it is the book of a court."""


def join_book(
    book: Book,
    other_path: Path,
    ask: Ask,
    at_ms: int,
    may_remove: MayRemove = removals.refuse_removal,
) -> JoinResult:
    """Take in all that the other book knows. Raises CourtlogError, and then nothing is changed.

    `may_remove` is asked before people are removed because the other book removed them.
    """
    given_files.check_ordinary(other_path, "book")
    if other_path.exists() and other_path.samefile(book.path):
        raise BookError("A book cannot be joined with itself.", "Name another book.")
    with drafts.scratch_near(book.path) as scratch:
        copy = scratch / "other.db"
        other_book.copy_checked(other_path, copy, at_ms)
        kept = backups.make_backup(book.path, at_ms)
        backup = None if kept is None else kept[0]
        with closing(sqlite3.connect(copy, isolation_level=None)) as theirs:
            erased = _erased_in_either(book.db, theirs)
            court = told_by(theirs, other_path)
            book.db.execute("ATTACH ? AS theirs", [str(copy)])
            whole = not erased and other_book.balls_come_whole(book.db)
            other = OtherBook(other_path, theirs, whole)
            if not whole:
                other.check_balls()
                _erase(theirs, erased)
            book.db.execute("PRAGMA foreign_keys = OFF")  # all links are looked at once, at the end
            try:
                with book.writing() as db, without_triggers(db):
                    removed = removals.people_to_remove(
                        db, [(person.player_id, person.in_notes) for person in erased]
                    )
                    texts_changed = _erase(db, erased)
                    removal = Removal(
                        from_book=other_path, people=removed, texts=texts_changed, backup=backup
                    )
                    if (removed or texts_changed) and not may_remove(removal):
                        raise CourtlogError("Nothing was joined, and nothing was changed.")
                    joined = _join(db, other, ask)
                    _check_links(db)
                    _check_result(db, other_path)
                    file_identity.rise_above_all(db, book.ids)
            except CourtlogError:
                if whole:
                    other.check_balls()  # where they are the reason, the sentence says so
                raise
            finally:
                book.db.execute("PRAGMA foreign_keys = ON")
                book.db.execute("DETACH theirs")
    if removed or texts_changed:
        with book.reading():
            book.db.execute("VACUUM")  # what was deleted earlier may still lie on free pages
    return replace(joined, removed=removed, backup=backup, court=court)


def _check_result(db: sqlite3.Connection, other: Path) -> None:
    """Refuse a result that a later command could not read; its links were looked at.

    Raises BookError.
    """
    with schema_check.within_bounds(db):
        fault = next(faults(db, tables(db), linked=True), None)
    if fault is not None:
        raise BookError(
            f"Joined with {other} the book would not be sound ({fault.table}: {fault.sentence})",
            "Nothing was changed. `courtlog doctor` looks at each of the two.",
        )


def _check_links(db: sqlite3.Connection) -> None:
    loose = db.execute("PRAGMA main.foreign_key_check").fetchone()
    if loose is not None:
        raise sqlite3.IntegrityError(f"a row of {loose[0]} names a {loose[2]} that is not there")


def _join(db: sqlite3.Connection, other: OtherBook, ask: Ask) -> JoinResult:
    """Join the attached book's rows to this one's: in one transaction, which is the caller's."""
    # 1. Read the versions of every row. Plain rows that nobody changed are copied as they are.
    every = row_versions.versioned_tables(db)
    by_name = {table.name: table for table in every}
    matches = matched_ids.load_matching(db, other.db)
    united = same_sheets.give_kept_ids(db, matches)
    ours, theirs_rows = _histories_of_both(db, every)
    # 2. A row is the versions that either book knows.
    histories = _joined_histories(ours, theirs_rows)
    # 3. Ask which clinics and people are the same, and give each the id that is kept.
    for table, question in (("clinic", matching.ask_clinics), ("player", matching.ask_players)):
        question(histories, by_name, (_ids(ours, table), _ids(theirs_rows, table)), matches, ask)
    matching.unite_equals(histories, by_name, matches)
    if same_sheets.unite_same_sheets(db, matches):
        united = same_sheets.give_kept_ids(db, matches)
        ours, theirs_rows = _histories_of_both(db, every)
        histories = _joined_histories(ours, theirs_rows)
    histories = matching.with_kept_ids(histories, every, matches)
    # 4. Bring back deleted rows that a living row needs.
    if not all(history.current for history in histories.values()):
        _revive(histories, every, {*_rounds_of_balls(db), *plain_rows.rounds_needed(db, every)})
    # 5. Balls follow their journals; then the rows are written.
    joined = join_balls(db, united, other.whole)
    row_versions.store_histories(db, every, ours, histories)
    plain_rows.copy_plain_rows(db, every)
    matched_ids.store_matching(db, matches)
    # 6. Numbers, places and tallies are worked out again.
    _rename_local(db, matches)
    if _renumber_rounds_and_balls(db) and other.whole:
        other.check_balls()  # the numbers were put right, and the result no longer shows them
    tallies.recount(db)
    return JoinResult(joined.balls, joined.keys, tuple(flag_reds_everywhere(db)))


def _histories_of_both(
    db: sqlite3.Connection, every: Sequence[Table]
) -> tuple[RowHistories, RowHistories]:
    """The histories of all rows that are not copied as they are, here and in the other book."""
    plain_rows.mark_contested(db, every)
    only = {table.name: plain_rows.contested(table) for table in plain_rows.plain_tables(every)}
    ours, other = (row_versions.load_histories(db, book, only) for book in ("main", "theirs"))
    return ours, other


def _joined_histories(ours: RowHistories, theirs: RowHistories) -> RowHistories:
    histories = dict(ours)
    for key, history in theirs.items():
        known = histories.get(key, history)
        histories[key] = history if known == history else known.joined_with(history)
    return histories


@dataclass(frozen=True, slots=True)
class _ErasedPerson:
    """Somebody whom a book removed for good."""

    player_id: int
    names: frozenset[str]
    """Every name that either book knows the person by."""
    in_notes: bool
    """Whether the names are taken out of notes about others too."""


def _erased_in_either(*books: sqlite3.Connection) -> list[_ErasedPerson]:
    """Everybody whom any of the books removed for good, under each of their ids."""
    erased_ids = {row for db in books for row in erasing.erased_ids(db)}
    people: dict[int, _ErasedPerson] = {}
    for row in map(abs, erased_ids):
        # Every id of the same person: one book may know an id that the other never did.
        ids = matched_ids.same_person(row, *books)
        names = frozenset(
            name for db in books for same_id in ids for name in erasing.names_of(db, same_id)
        )
        in_notes = any(-same_id in erased_ids for same_id in ids)
        people |= {same_id: _ErasedPerson(same_id, names, in_notes) for same_id in ids}
    return [people[row] for row in sorted(people)]


def _erase(db: sqlite3.Connection, erased: Sequence[_ErasedPerson]) -> int:
    """Remove these people, and their names from notes where asked; how many texts were changed."""
    texts_changed = 0
    for person in erased:
        removed = erasing.erase_within(db, person.player_id, person.names, person.in_notes)
        texts_changed += removed.mentions if person.in_notes else 0
    return texts_changed


def _ids(histories: RowHistories, table: str) -> set[int]:
    return {
        json.loads(key)[0]
        for (name, key), history in histories.items()
        if name == table and history.current
    }


def _rounds_of_balls(db: sqlite3.Connection) -> Iterator[int]:
    rounds = "SELECT round_id FROM main.ball UNION SELECT round_id FROM theirs.ball"
    yield from (row for (row,) in db.execute(rounds))


def _revive(histories: RowHistories, every: Sequence[Table], rounds: set[int]) -> None:
    """Bring back rows that one book deleted and a row of the other book needs."""
    needed: dict[str, set[int]] = {"round": set(rounds)}
    for table in reversed(every):
        for row in needed.get(table.name, ()):
            _bring_back(histories, (table.name, f"[{row}]"))
        if table.name == "round":
            for name, key in [entry for entry in histories if entry[0] == "round_cue"]:
                if json.loads(key)[0] in needed["round"]:
                    _bring_back(histories, (name, key))
        names = row_versions.version_columns(table)
        links = {link.name: str(link.parent) for link in table.links}
        for (name, key), history in histories.items():
            if name != table.name or not links or (reading := history.merged_values()) is None:
                continue
            row_values = dict(zip(table.key, json.loads(key), strict=True))
            row_values |= dict(zip(names, json.loads(reading), strict=True))
            for column, parent in links.items():
                if row_values[column] is not None:
                    needed.setdefault(parent, set()).add(row_values[column])


def _bring_back(histories: RowHistories, key: tuple[str, str]) -> None:
    history = histories.get(key)
    if history is not None and not history.current and history.former:
        revision, reading = max(history.former)
        histories[key] = RowHistory({(revision + 1, reading)}, history.former)


def _rename_local(db: sqlite3.Connection, matches: Matching) -> None:
    """Give the rows that only this laptop has (bookmark, standing) the ids that are kept."""
    for table in tables(db):
        if table.name not in ("bookmark", "standing"):
            continue
        for link in table.links:
            for row in matches.stands_for.get(str(link.parent), {}):
                db.execute(
                    f"UPDATE OR REPLACE {table.name} SET {link.name} = ? WHERE {link.name} = ?",
                    [matches.kept_id(str(link.parent), row), row],
                )
    db.execute("UPDATE bookmark SET round_id = NULL WHERE round_id NOT IN (SELECT id FROM round)")


_PLACES = (
    "SELECT id, place AS old_place, row_number() OVER (PARTITION BY day_id"
    f" ORDER BY id & {(1 << COUNT_BITS) - 1}, id) AS new_place FROM round"
)


def _renumber_rounds_and_balls(db: sqlite3.Connection) -> int:
    """Number the rounds of each day and the balls of each round, and put notes in their round.

    Returns how many balls got another number.
    """
    db.execute(
        "UPDATE note SET round_id = ball.round_id FROM ball"
        " WHERE ball.id = ball_id AND note.round_id <> ball.round_id"
    )
    db.execute(
        f"CREATE TEMP TABLE renumbered AS SELECT * FROM ({_PLACES}) WHERE old_place <> new_place"
    )
    # Below 0 first, since no two rounds of a day may share a place even for a moment.
    db.execute("UPDATE round SET place = -id WHERE id IN (SELECT id FROM renumbered)")
    db.execute("UPDATE round SET place = new_place FROM renumbered WHERE round.id = renumbered.id")
    db.execute("DROP TABLE renumbered")
    return renumber_all(db)
