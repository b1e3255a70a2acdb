"""`courtlog backup`, `courtlog restore` and `courtlog doctor`."""

from __future__ import annotations

from pathlib import Path

import typer

from courtlog import finished_steps, given_files, locations, private, times
from courtlog import settings as settings_file
from courtlog.cli.book_to_write import book_alone, this_writer
from courtlog.cli.common import existing_book, now
from courtlog.cli.keep_reminder import keep_reminder
from courtlog.cli.laptop_notes import laptop_notes
from courtlog.cli.zones import local_zone
from courtlog.errors import BookError, CourtlogError, NewerBookError
from courtlog.logbook.file import backups, copying, doctor, restoring, salvage
from courtlog.logbook.writes import erase_copies
from courtlog.plain_text import many, plain
from courtlog.systems.shell_words import quoted


def back_up(path: Path | None, file: Path | None) -> None:
    """Make a backup now: in the usual places, or as a new file."""
    second = settings_file.read(locations.settings()).second_backup
    with existing_book(path) as book:
        if file is not None:
            held = backups.write_backup(book.path, file)
            finished_steps.note(f"{file} is written")
            print(f"{plain(str(file))} holds {many(held.balls, 'ball')}.")
            return
        kept = backups.make_backup(book.path, now())
        if kept is None:
            raise CourtlogError("The book has no clinic yet.", "There is nothing to keep.")
        last, is_new = kept
        if is_new:
            finished_steps.note(f"{last} is made")
        held = copying.contents_of(last)
        words = "holds" if is_new else "holds the same as the book, nothing to add:"
        print(f"{plain(str(last))} {words} {many(held.balls, 'ball')}.")
        changed = erase_copies.erase_owed(book.path, second)
        if changed:
            print(f"Who had been erased before is gone from {many(len(changed), 'older backup')}.")
        if second:
            backups.copy_to_second_place(last, Path(second).expanduser())
            print(f"So does {plain(str(Path(second) / last.name))}.")


def restore(path: Path | None, file: Path | None, sure: bool) -> None:
    """Put a backup in the book's place, or list the backups."""
    book = locations.book(path)
    if file is None:
        _list(book)
        return
    given_files.check_ordinary(file, "book")
    copy = file if file.exists() else backups.folder_of(book) / file
    wanted = restoring.check(copy)
    lost = restoring.loss(book, copy)
    if lost is None and not sure:
        raise BookError(
            "The book cannot be read, so what it holds more than the backup is not known.",
            "Nothing was changed. `courtlog doctor --mend` saves what can be read;"
            " with --yes the backup takes its place, and the book is kept as it is.",
        )
    if lost is not None and lost.words() and not sure:
        raise BookError(
            f"The book holds {lost.words()} that this backup does not.",
            "Nothing was changed. With --yes the backup takes its place, and the book is kept.",
        )
    kept = restoring.restore(book, copy, this_writer())
    finished_steps.note("the backup is in the book's place")
    print(f"The book is as it was on {_when(wanted.at_ms)}: {many(wanted.contents.balls, 'ball')}.")
    if kept is not None:
        print(f"What it replaced lies at {plain(str(kept))}.")


def examine(path: Path | None, wished: bool) -> None:
    """Say what is wrong with the book, mend what can be if wished; exit code 1 if some is left."""
    where = locations.book(path)
    damage = doctor.damage(where) if where.exists() else None
    if damage is not None:
        print(plain(damage))
        if wished:
            _save(where)
        else:
            print(
                "`courtlog doctor --mend` reads what can be read into a new book;"
                " `courtlog restore` lists the backups."
            )
        raise typer.Exit(1)
    with (book_alone if wished else existing_book)(path) as book:
        found = doctor.findings(book)
        for finding in found:
            print(finding.sentence)
        if wished and any(finding.mendable for finding in found):
            backups.make_backup(book.path, now())
            doctor.mend(book)
            found = doctor.findings(book)
            print("A backup was made, then what can be worked out from the balls was mended.")
            for finding in found:
                print(f"Not mended: {finding.sentence}")
        reminder = "" if found else keep_reminder(book)
        notes = list(laptop_notes(book.path))
    if not found:
        print("The book is sound.")
    for line in (reminder, *notes):
        if line:
            print(line)
    if found:
        raise typer.Exit(1)


def _save(where: Path) -> None:
    folder = backups.folder_of(where)
    private.make_folder(folder)
    new = copying.free_name(folder, "saved", now())
    saved = salvage.salvage_book(where, new, now())
    finished_steps.note(f"what could be read is in {new}")
    print(f"{many(saved.balls, 'ball')} could be saved; they are in {plain(str(new))}.")
    if saved.filled:
        print(f"{many(saved.filled, 'row')} could not be read and came from the last backup.")
    if saved.loose:
        print(f"{many(saved.loose, 'row')} had to be left out: what they belong to is lost.")
    restore = f"courtlog restore {plain(quoted(str(new)))}"
    print(f"The damaged book is as it was. `{restore}` puts it in place.")


def _list(book: Path) -> None:
    folders = [backups.folder_of(book)]
    second = settings_file.read(locations.settings()).second_backup
    if second:
        folders.append(Path(second).expanduser())
    found = [path for folder in folders for path in reversed(backups.backup_paths(folder))]
    if not found:
        print(f"There is no backup of {plain(str(book))} yet; `courtlog backup` makes one.")
        return
    for path in found:
        try:
            copy = backups.read_backup(path)
        except CourtlogError as error:
            what = "of a later courtlog" if isinstance(error, NewerBookError) else "damaged"
            print(f"{what:34}{plain(str(path))}")
            continue
        size = f"{copy.size / 1e6:.1f} MB"
        balls = many(copy.contents.balls, "ball")
        print(f"{_when(copy.at_ms)}  {balls:>12} {size:>8}  {plain(str(path))}")
    print("`courtlog restore FILE` puts one in the book's place; what it replaces is kept.")


def _when(at: int) -> str:
    """`2026-05-12 09:30` by this laptop's clock."""
    return times.local(at, times.zone(local_zone())).strftime("%Y-%m-%d %H:%M")
