"""Take a sheet into the book: its rounds join the days that the book has already.

The one door for rounds from paper and from sheets, in one transaction: all of it, or nothing.
Which round of the sheet is which of the book says `sheet_plan.py`; `sheet_writer.py` writes.

Notes and check-ins of the sheet join a round whichever version of its balls is kept.
"""

from __future__ import annotations

from collections.abc import Mapping

from courtlog.coaching.game.clinic_record import ClinicRecord
from courtlog.coaching.game.drills import UsedDrill
from courtlog.coaching.game.round_versions import Keep, TwoVersions
from courtlog.errors import BookError
from courtlog.logbook.file.book import Book
from courtlog.logbook.writes.sheets.sheet_plan import plan_sheet
from courtlog.logbook.writes.sheets.sheet_rows import SheetRows
from courtlog.logbook.writes.sheets.sheet_writer import SheetWriter
from courtlog.logbook.writes.sheets.taken_in import TakenIn

NO_ANSWERS: Mapping[TwoVersions, Keep] = {}


def versions_to_decide(
    book: Book, clinic: ClinicRecord, number: int | None = None
) -> list[TwoVersions]:
    """The rounds of which book and sheet have two versions, in the order of the sheet.

    `number` is of a paper sheet of one round: which of its player's rounds of that day it is.
    """
    days = plan_sheet(book, clinic, NO_ANSWERS, number)
    return [versions for day in days for versions in day.to_ask]


def take_in(
    book: Book,
    clinic: ClinicRecord,
    drills: Mapping[str, UsedDrill],
    at_ms: int,
    answers: Mapping[TwoVersions, Keep] = NO_ANSWERS,
    who: str | None = None,
    number: int | None = None,
) -> TakenIn:
    """Take in what the book does not have; a clinic of that name and zone is continued.

    `number` is of a paper sheet of one round: which of its player's rounds of that day it is.
    `who` reads the sheet in; without a name the clinic was made whole, and that is no step.
    Raises BookError, and writes nothing, where two versions of a round differ without an answer.
    """
    with book.writing() as db:
        plan = plan_sheet(book, clinic, answers, number)
        open_versions = [versions for day in plan for versions in day.to_ask]
        if open_versions:
            first = open_versions[0]
            raise BookError(
                f"The book has other balls of {first.book.player}'s round {first.place} of"
                f" {first.date} than the sheet.",
                "Nothing was written. Say which of the two is to be kept.",
            )
        amendment_id = book.ids.next(at_ms)
        rows = SheetRows(db, book.ids, drills, at_ms)
        return SheetWriter(book, rows, amendment_id, who, number).clinic(clinic, plan)
