"""`courtlog erase`: a person and all that was written of them, gone from book and backups."""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Sequence
from pathlib import Path

from courtlog import drafts, finished_steps, locations, stale_drafts
from courtlog import settings as settings_file
from courtlog.cli.book_to_write import book_alone
from courtlog.cli.common import chosen_clinic, now
from courtlog.cli.opening import has_terminal
from courtlog.coaching.game.court_book import court_order
from courtlog.coaching.game.people import Player
from courtlog.errors import CourtlogError
from courtlog.logbook.file import backups, sheet_drafts
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.logbook.reads.courts.court_groups import court_book, readings
from courtlog.logbook.reads.film.films import films_of_person
from courtlog.logbook.reads.find_person import player_named
from courtlog.logbook.rows.mentions import place_phrases
from courtlog.logbook.writes import erase_copies, erasing
from courtlog.logbook.writes.erasing import ErasedRows
from courtlog.plain_text import listed, many, plain
from courtlog.reports.pages.film_text import left_on_films

WORDS = {
    "round": "round",
    "ball": "ball",
    "note": "note",
    "check_in": "check-in",
    "red_flag": "red",
    "journal": "journal line",
}
"""The tables that are counted by name; all others are `other lines`."""


def erase_person(
    path: Path | None, clinic: str | None, name: str, yes: bool, keep_counts: bool, in_notes: bool
) -> None:
    """Ask for the full name, remove the person, and say what went. Raises CourtlogError."""
    with book_alone(path) as book:
        where = None if clinic is None else chosen_clinic(book, clinic).id
        who = player_named(book, name, where)
        _confirm(who, name, yes, erasing.preview(book, who))
        # Backups first: while the book still holds the name, the command can be repeated.
        shown_in = films_of_person(book, erasing.identity_of(book.db, who).ids)
        changed, unreadable = erase_from_backups(book, who, in_notes)
        half_typed = _delete_typed_sheets(book, who)
        in_books_of_courts = _left_in_books_of_courts(book, who)
        gone = erasing.erase(book, who, now(), keep_counts, in_notes)
        finished_steps.note(f"{who.shown_name} is gone from the book")
    words = [
        *_words(who, gone, keep_counts, in_notes, changed),
        *([f"Gone too: {many(half_typed, 'sheet')} that waited half typed."] if half_typed else []),
        *left_on_films(who.shown_name, shown_in),
        *in_books_of_courts,
    ]
    for line in [*words, *owed_words(who)]:
        print(plain(line))
    refuse_unread(who, unreadable)


def erase_from_backups(book: Book, who: Player, in_notes: bool) -> tuple[int, list[Path]]:
    """Remove the person from every copy of the book, and what a program left half made of one.

    Looks in its folder of backups, in the second place for backups, and for drafts beside it.
    Returns how many backups changed, and the files that may still hold the person.
    """
    beside = backups.folder_of(book.path)
    found, folders = (
        list(beside.rglob("*.db")),
        [
            beside,
            book.path.absolute().parent,
            sheet_drafts.folder_of(book.path),
        ],
    )
    second = _second_place()
    if second is not None:
        folders.append(second)
        found += backups.backup_paths(second)
    known = erasing.identity_of(book.db, who)
    changed, unreadable = erase_copies.erase_from_copies(sorted(found), known, in_notes)
    if changed:
        finished_steps.note(f"{who.shown_name} is gone from {many(len(changed), 'backup')}")
    left = [draft for folder in folders for draft in stale_drafts.left_in(folder)]
    stale_drafts.sweep(drafts.scratch_place())  # of other programs too, that are dead
    return len(changed), unreadable + [draft for draft in left if not stale_drafts.remove(draft)]


def _delete_typed_sheets(book: Book, who: Player) -> int:
    """Delete what was typed of the person's sheets and is not in the book yet; how many."""
    names = erasing.identity_of(book.db, who).names | {who.shown_name}
    clinics = [clinic.name for clinic in lookups.clinics(book)]
    return sheet_drafts.delete_drafts_of(book.path, clinics, names)


def _left_in_books_of_courts(book: Book, who: Player) -> list[str]:
    """Where the clinic's other courts still hold the person; nothing where it is on one court."""
    own, courts = court_book(book), sorted(readings(book), key=court_order)
    if own is None or not courts:
        return []
    books = "The books of courts" if len(courts) > 1 else "The book of court"
    hold = "their copies" if len(courts) > 1 else "its copy"
    return [
        f"{books} {listed(courts)}, and {hold} in {own.stick}, still hold {who.shown_name}:"
        " gather them, then delete them."
    ]


def owed_words(who: Player) -> list[str]:
    """What has to wait until the second place for backups is there again."""
    second = _second_place()
    if second is None or second.is_dir():
        return []
    return [
        f"The second place for backups ({second}) is not there, so {who.shown_name} is still in"
        " what lies in it. That goes when the place is there and the next backup is made"
        " (`courtlog backup`)."
    ]


def _second_place() -> Path | None:
    second = settings_file.read(locations.settings()).second_backup
    return Path(second).expanduser() if second else None


def refuse_unread(who: Player, files: Sequence[Path]) -> None:
    """Refuse when a backup could not be looked through. Raises CourtlogError."""
    if files:
        names = ", ".join(map(str, files))
        raise CourtlogError(
            f"{who.shown_name} may still be in a backup that cannot be read: {names}.",
            "Delete it by hand.",
        )


def _confirm(who: Player, typed: str, yes: bool, gone: ErasedRows) -> None:
    """Ask for the whole name. The beginning of a name removes nobody."""
    if yes:
        if not _is_whole_name(typed, who):
            raise CourtlogError(
                f"{typed!r} is only the beginning of {who.shown_name!r}; nothing was removed.",
                "With --yes write the full name.",
            )
        return
    if not has_terminal():
        raise CourtlogError(
            "Nothing was removed: nobody can be asked here.", "Write the full name and --yes."
        )
    rows = _counts_in_words(gone.rows)
    print(plain(f"{who.shown_name} goes from this book and its backups for good: {rows}."))
    if gone.mentions:
        print(f"{_texts(gone)} may hold the name too; --in-notes takes it out of them.")
    sys.stdout.write("Type the full name to go on (Enter alone changes nothing): ")
    sys.stdout.flush()
    if not _is_whole_name(sys.stdin.readline(), who):
        raise CourtlogError("That is not the full name; nothing was removed.")


def _is_whole_name(typed: str, who: Player) -> bool:
    """Whether the typed text is the whole name or the whole short name."""
    whole = {name.strip() for name in (who.name, who.shown_name, who.short) if name.strip()}
    return typed.strip() in whole | set(map(plain, whole))


def _words(
    who: Player, gone: ErasedRows, keep_counts: bool, in_notes: bool, copies: int
) -> list[str]:
    rows = Counter(gone.rows)
    kept = [many(rows.pop(table, 0), table) for table in ("round", "ball") if keep_counts]
    lines = [f"{who.shown_name} is gone: {_counts_in_words(rows)}."]
    if kept:
        lines.append(
            f"Kept without a name, a time or a word: {listed(kept)}."
            " In a small group people may still guess whose they were."
        )
    if gone.mentions and in_notes:
        lines.append(f"The name was taken out of {_texts(gone)}.")
    elif gone.mentions:
        lines.append(f"{_texts(gone)} may still hold the name: look through their notes.")
    if gone.elsewhere:
        lines.append(
            f"Not changed, and the name may stand there: {listed(place_phrases(gone.elsewhere))}."
        )
    if copies:
        lines.append(f"Gone from {many(copies, 'backup')} too.")
    lines.append(
        "Pages, sheets, exports and copies of the book that were put elsewhere are yours to delete."
    )
    return lines


def _counts_in_words(rows: Counter[str]) -> str:
    """`4 rounds, 40 balls, 2 notes, 130 other lines`."""
    others = sum(rows.values()) - sum(rows[table] for table in (*WORDS, "player"))
    counts = [(rows[table], word) for table, word in WORDS.items()] + [(others, "other line")]
    return ", ".join(many(count, word) for count, word in counts if count) or "the name alone"


def _texts(gone: ErasedRows) -> str:
    return f"{many(gone.mentions, 'text')} about others"
