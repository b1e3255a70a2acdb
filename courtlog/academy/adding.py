"""Put a book's newest state into an academy's folder: its files first, then the index.

The order of two exports of one book is told by the books themselves. So it makes no difference in
which order or how often they are added.
"""

from __future__ import annotations

import contextlib
import shutil
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from courtlog import drafts, private, times
from courtlog.academy.index import (
    BOOK,
    INDEX,
    TABLE,
    BookEntry,
    Index,
    part_of,
    read_index,
    write_index,
)
from courtlog.errors import CourtlogError
from courtlog.logbook.exchange.export_choice import ExportOptions
from courtlog.logbook.exchange.snapshot import file_number, progress, write_tables
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.open_book import open_copy
from courtlog.logbook.file.writer_lock import LockOwner, WriterLock
from courtlog.logbook.schema.schema_check import SCHEMA


@dataclass(frozen=True, slots=True, kw_only=True)
class AddResult:
    """What became of one book."""

    balls: int
    """Balls of the book that are in the folder now."""
    minors_left_out: int
    """Players who stayed at home."""
    is_older: bool
    """Whether the folder had a later state of this book, and so stays as it was."""


@contextlib.contextmanager
def folder_to_write(folder: Path, owner: LockOwner) -> Iterator[None]:
    """The folder, made where there is none, for this program alone. Raises CourtlogError."""
    try:
        if folder.exists() and not folder.is_dir():
            raise CourtlogError(f"{folder} is a file.", "Name a folder.")
        is_new = not (folder / INDEX).exists()
        if is_new and folder.exists() and any(map(_is_foreign, folder.iterdir())):
            raise CourtlogError(
                f"The folder {folder} holds other files.", "Name a new or empty folder."
            )
        is_there = folder.exists()
        private.make_folder(folder)
        lock = WriterLock(folder / INDEX, owner)
        if not lock.take(briefly=True):
            raise CourtlogError(
                f"Another program is adding to {folder}.", "Add again when it has ended."
            )
        try:
            yield
        finally:
            lock.release()
            if not is_there:
                with contextlib.suppress(OSError):  # something is in it
                    folder.rmdir()
    except OSError as error:
        raise CourtlogError(
            f"The folder {folder} cannot be written ({error.strerror}).",
            "The books that were added before are still in it.",
        ) from error


def add_book(path: Path, folder: Path, wish: ExportOptions, at_ms: int) -> AddResult:
    """Add the book's state to a folder that is held. Raises CourtlogError and OSError.

    The book itself stays as it is; one of an earlier version is brought up to date in a copy.
    """
    with drafts.folder_in(folder) as draft, closing(open_copy(path, draft / "book", at_ms)) as book:
        return _add(book, folder, draft, wish, at_ms)


def _add(book: Book, folder: Path, draft: Path, wish: ExportOptions, at_ms: int) -> AddResult:
    index = read_index(folder)
    number, come = file_number(book.db), progress(book.db)
    before = index.books.get(str(number))
    if before is not None and before.progress > come:
        return AddResult(balls=before.rows.get("ball", 0), minors_left_out=0, is_older=True)
    snapshot = write_tables(book, draft, wish)
    entry = BookEntry(
        export=_free_name(folder, number, at_ms),
        progress=come,
        schema=SCHEMA,
        anonymous=wish.anonymous,
        with_minors=wish.with_minors,
        minors_left_out=snapshot.minors_left_out,
        rows=snapshot.rows,
    )
    try:
        for table in snapshot.rows:
            _put(draft / f"{table}.parquet", folder / part_of(table, number, entry.export))
        index = index.with_book(number, entry)
        write_index(folder, index)
    finally:
        remove_what_does_not_count(folder, read_index(folder))
    return AddResult(
        balls=snapshot.rows.get("ball", 0),
        minors_left_out=snapshot.minors_left_out,
        is_older=False,
    )


def _put(draft: Path, final: Path) -> None:
    """Give a file its name, with those of its folders on the disk before the index has it."""
    private.make_folder(final.parent)
    drafts.put(draft, final)
    for above in final.parents[1:4]:
        drafts.flush_folder(above)


def remove_what_does_not_count(folder: Path, index: Index) -> None:
    """Remove replaced exports, and what a stopped program left; what resists goes the next time."""
    for table in filter(_is_table, folder.iterdir()):
        for place in table.iterdir():
            entry = index.books.get(place.name.removeprefix("book="))
            kept = entry.export if entry and table.name in entry.rows else ""
            for export in place.iterdir():
                if export.name != f"export={kept}":
                    shutil.rmtree(export, ignore_errors=True)
            with contextlib.suppress(OSError):
                place.rmdir()
        with contextlib.suppress(OSError):
            table.rmdir()


def _free_name(folder: Path, number: int, at_ms: int) -> str:
    """The moment as a folder's name; a little later where that name is taken."""
    while True:
        moment = times.local(at_ms, times.zone("UTC"))
        name = f"{moment:%Y%m%dT%H%M%SZ}"
        if not any(folder.glob(f"*/book={number}/export={name}")):
            return name
        at_ms += 1000


def _is_foreign(path: Path) -> bool:
    """Whether that is nothing which a stopped `add` leaves behind."""
    return not (_is_table(path) or path.name.startswith((".courtlog-", INDEX)))


def _is_table(path: Path) -> bool:
    """Whether that is a folder of exports of a table, and holds nothing else."""
    if path.is_symlink() or not path.is_dir() or not TABLE.fullmatch(path.name):
        return False
    return all(map(_is_of_book, path.iterdir()))


def _is_of_book(path: Path) -> bool:
    number = path.name.removeprefix("book=")
    return number != path.name and BOOK.fullmatch(number) is not None and not path.is_symlink()
