"""`courtlog sheet in` and `courtlog sheet out`."""

from __future__ import annotations

import sys
from collections.abc import Mapping, Sequence
from pathlib import Path

from courtlog import given_files, locations
from courtlog import settings as settings_file
from courtlog.cli.actions.questions.kept_versions import KeptVersions
from courtlog.cli.book_to_write import book_alone, book_beside
from courtlog.cli.common import chosen_clinic, existing_book, library, now, typed_date, write_new
from courtlog.cli.zones import local_zone
from courtlog.coaching.game.clinic_record import ClinicRecord
from courtlog.coaching.game.drills import UsedDrill
from courtlog.coaching.game.round_versions import Keep, TwoVersions
from courtlog.errors import CourtlogError, LibraryError, Problem
from courtlog.library.drill_files import Library
from courtlog.library.sheet_in import read_sheet
from courtlog.library.sheet_out import write_sheet
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import day_lookups
from courtlog.logbook.reads.clinic_lookups import zone_of_clinic
from courtlog.logbook.writes.past_steps import number_of_step
from courtlog.logbook.writes.sheets.take_in import NO_ANSWERS, take_in, versions_to_decide
from courtlog.logbook.writes.sheets.taken_in import TakenIn
from courtlog.plain_text import many, plain
from courtlog.reports.layout.taken_in_text import taken_in_lines


def read_in(file: Path, path: Path | None, keep: Sequence[str]) -> None:
    """Read a sheet into the book, asking where the two differ, and say what came in."""
    drills = library()
    kept = KeptVersions.typed(keep)
    who = settings_file.read(locations.settings()).coach
    sheet = parse(file, drills, local_zone())
    with book_beside(path, new=True) as book:
        zone = zone_of_clinic(book, sheet.name)
        if zone is not None and zone != sheet.zone:
            sheet = parse(file, drills, zone)  # which counts only where the sheet names none
        answers = kept.answers(versions_to_decide(book, sheet))
        if Keep.SHEET not in answers.values():
            _tell(book, sheet, put_in(book, sheet, drills, now(), answers, who))
            return
    with book_alone(path) as book:  # what was rated at the court changes
        _tell(book, sheet, put_in(book, sheet, drills, now(), answers, who))


def _tell(book: Book, sheet: ClinicRecord, came: TakenIn) -> None:
    """Say what came in, where it went, and how it is taken back."""
    step = None if came.amendment_id is None else number_of_step(book, came.amendment_id)
    for line in taken_in_lines(sheet, came, step):
        print(plain(line))


def parse(file: Path, drills: Library, zone: str) -> ClinicRecord:
    """The clinic of a sheet file. Raises CourtlogError."""
    return read_sheet(text_of(file), str(file), drills, zone)


def text_of(file: Path) -> str:
    """The text of a sheet's file. Raises CourtlogError."""
    try:
        text = given_files.read_ordinary(file, "sheet").decode("utf-8-sig")
        return text.replace("\r\n", "\n").replace("\r", "\n")
    except OSError as error:
        raise CourtlogError(
            f"The sheet {file} cannot be read ({error.strerror}).", "Check its name and place."
        ) from error
    except UnicodeDecodeError as error:
        line = error.object[: error.start].count(b"\n") + 1
        raise LibraryError(
            "The sheet is not UTF-8 text; nothing was written.",
            [Problem(str(file), str(line), "this line holds bytes that are not UTF-8.")],
            "Save it as UTF-8 and read it in again.",
        ) from error


def put_in(
    book: Book,
    sheet: ClinicRecord,
    drills: Library,
    at: int,
    answers: Mapping[TwoVersions, Keep] = NO_ANSWERS,
    who: str | None = None,
) -> TakenIn:
    """Take in the clinic with its drills as they read now. Raises BookError.

    Without `who`, as for an invented clinic, it is no step that can be taken back.
    """
    names = {round_.drill for day in sheet.days for round_ in day.rounds}
    used = {name: UsedDrill.of(*drills.drill(name)) for name in names}
    return take_in(book, sheet, used, at, answers, who)


def write_out(path: Path | None, clinic: str | None, on: str | None, to: Path | None) -> None:
    """Write a clinic, or one date of it, to the terminal or a new file."""
    with existing_book(path) as book:
        chosen = chosen_clinic(book, clinic)
        record = day_lookups.record(book, chosen, typed_date(on))
        nobodys = day_lookups.rounds_of_nobody(book, chosen.id, typed_date(on))
    if not record.days:
        raise CourtlogError(
            f"{chosen.name} has no day {f'on {on}' if on else 'yet'}.",
            "Nothing was written; `courtlog clinic show` lists its days.",
        )
    text = write_sheet(record)
    if nobodys:
        print(
            f"Not on the sheet: {many(nobodys, 'round')} whose player was removed; the book keeps"
            " the balls.",
            file=sys.stderr,
        )
    if to is None:
        sys.stdout.write(text)
        return
    write_new(to, text)
