"""Backups: checked copies of the book in the folder `backups` beside it, some of each day kept."""

from __future__ import annotations

import contextlib
import filecmp
import shutil
import sqlite3
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from courtlog import drafts, private
from courtlog.errors import BookError, NotABookError
from courtlog.logbook.file import copying
from courtlog.logbook.file.copying import BookContents, StopCopying

KEPT = 14
"""Backups kept of one book: two a day, for a week."""

LAST = 6
"""The newest of these always stay, however many a day makes: before each joining there is one."""


_A_DAY = 24 * 60 * 60 * 1000


@dataclass(frozen=True, slots=True)
class Backup:
    """A backup: its file, when it was made (milliseconds UTC), how big it is and what it holds."""

    path: Path
    at_ms: int
    size: int
    contents: BookContents


def folder_of(book: Path) -> Path:
    """The folder of a book's backups."""
    return book.absolute().parent / "backups"


def make_backups(
    book: Path, second: str, at_ms: int, stopped: Callable[[], bool] = lambda: False
) -> list[str]:
    """Make a backup beside the book, and in the second place too if one is named.

    Raises nothing: returns one sentence for each thing that could not be done.
    """
    try:
        kept = make_backup(book, at_ms, stopped)
        if kept is not None and second:
            copy_to_second_place(kept[0], Path(second).expanduser())
    except BookError as error:
        return [str(error)]
    return []


def make_backup(
    book: Path, at_ms: int, stopped: Callable[[], bool] = lambda: False
) -> tuple[Path, bool] | None:
    """Make a backup unless nothing changed since the last; returns the last one, and whether it is
    new.

    Returns None when told to stop, or for a book without a clinic. Raises BookError; never writes
    in the book.
    """
    folder = folder_of(book)
    with _failures():
        private.make_folder(folder)
        with drafts.file_in(folder) as draft:
            try:
                held = copying.copy_to(book, draft, stopped)
            except StopCopying:
                return None
            if not held.clinics:
                return None
            before = backup_paths(folder, held.tag)
            if before and filecmp.cmp(before[-1], draft, shallow=False):
                return before[-1], False
            # Names follow the clock, and go on by seconds where it stands still or goes back.
            after = max(at_ms, copying.moment_of(before[-1]) + 1000) if before else at_ms
            made = copying.put_under_free_name(draft, folder, f"book-{held.tag:06x}", after)
        _prune(folder, held.tag)
        return made, True


def copy_to_second_place(copy: Path, folder: Path) -> None:
    """Copy a backup into a second folder, which must exist: a memory stick may be out.

    Raises BookError when it is not there or cannot be written to.
    """
    there = folder / copy.name
    if not folder.is_dir():
        raise BookError(
            f"The second place for backups ({folder}) is not there;"
            " the backup beside the book is there."
        )
    try:
        if there.exists() and filecmp.cmp(copy, there, shallow=False):
            return
        with drafts.file_in(folder) as draft:
            shutil.copyfile(copy, draft)
            drafts.put(draft, there)
        _prune(folder, int(copy.name.split("-")[1], 16))
    except OSError as error:
        raise BookError(
            f"The second place for backups ({folder}) cannot be written to ({error.strerror});"
            " the backup beside the book is there."
        ) from error


def write_backup(book: Path, file: Path) -> BookContents:
    """Write a checked copy of the book as a new file of that name. Raises BookError."""
    taken = BookError(f"There is a file {file} already.", "Name a new one.")
    if file.exists():
        raise taken
    with _failures(), drafts.file_in(file.absolute().parent, book.absolute().parent) as draft:
        held = copying.copy_to(book, draft)
        try:
            drafts.put_new(draft, file)
        except FileExistsError as error:
            raise taken from error
    return held


def backup_paths(folder: Path, tag: int | None = None) -> list[Path]:
    """The backups in a folder, oldest first: of one book, or of all."""
    book = "*" if tag is None else f"{tag:06x}"
    return sorted(folder.glob(f"book-{book}-*.db"), key=copying.moment_of)


def read_backup(path: Path, thorough: bool = False) -> Backup:
    """A backup with what it holds. Raises NotABookError for a damaged or foreign file."""
    try:
        held = copying.contents_of(path, thorough)
        return Backup(path, copying.moment_of(path), path.stat().st_size, held)
    except (sqlite3.Error, OSError) as error:
        raise NotABookError(f"{path} is not a courtlog book, or it is damaged.") from error


def _prune(folder: Path, tag: int) -> None:
    """Remove what is too many, from the day with most, so that no day pushes others out."""
    kept = backup_paths(folder, tag)
    while len(kept) > KEPT:
        days = [copying.moment_of(path) // _A_DAY for path in kept[:-LAST]]
        old = kept.pop(days.index(max(days, key=days.count)))  # of equal days the earliest
        with contextlib.suppress(OSError):  # one too many is no reason to doubt the new one
            old.unlink()


@contextlib.contextmanager
def _failures() -> Iterator[None]:
    """Turn a failure of the copy into one sentence; the book itself is not harmed."""
    try:
        yield
    except (sqlite3.Error, OSError) as error:
        why = error.strerror if isinstance(error, OSError) else error
        raise BookError(f"No backup could be made ({why}).", "The book itself goes on.") from error
    except NotABookError as error:
        raise BookError(
            "No backup could be made: the book did not pass the check.", "`courtlog doctor` helps."
        ) from error
