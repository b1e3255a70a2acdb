"""A yardstick that was filled in at home, from the typed sheet to the book.

It is another person's eye: kept apart from the rounds, with its date and who watched.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from courtlog.coaching.game.clinic_record import BallRecord, RoundRecord
from courtlog.coaching.game.drills import UsedDrill
from courtlog.coaching.game.round_versions import Keep, TwoVersions
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.paper.filled_sheet import FilledSheet
from courtlog.coaching.paper.home_yardstick import HomeYardstickRecord
from courtlog.errors import CourtlogError
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads.paper.home_yardsticks import HomeYardstick, other_version
from courtlog.logbook.reads.paper.sheet_owners import SheetOwner
from courtlog.logbook.writes.paper.home_yardstick_writer import keep_home_yardstick
from courtlog.times import FIRST_YEAR


def wrong_at_home(sheet: FilledSheet, today: date) -> str:
    """What is wrong with date and watcher, in a sentence; nothing where they can be kept."""
    on = _date(sheet)
    if on is None or on.year < FIRST_YEAR:
        return "Write the date that stands on the sheet, like 2026-06-20."
    if on > today:
        return f"{on.isoformat()} is still to come: read the date on the sheet once more."
    if not sheet.lines.who:
        return "Who watched? Without a name nobody knows whose eye it was."
    return ""


def versions_at_home(book: Book, owner: SheetOwner, sheet: FilledSheet) -> list[TwoVersions]:
    """The same sheet in the book with other balls, if it is there."""
    record = _record(sheet)
    other = _other(book, owner, sheet)
    if other is None or other.record.is_same(record):
        return []
    player = owner.player.shown_name
    return [
        TwoVersions(
            date=record.on,
            court="",
            place=1,
            round_id=other.id,
            book=_as_round(player, sheet.task.drill, other.record),
            sheet=_as_round(player, sheet.task.drill, record),
        )
    ]


def keep_at_home(
    book: Book,
    owner: SheetOwner,
    sheet: FilledSheet,
    used: UsedDrill,
    at_ms: int,
    answers: Mapping[TwoVersions, Keep],
) -> int | None:
    """Keep it; the id of its row, or None where the book stays as it is. Raises CourtlogError."""
    record = _record(sheet)
    if not record.balls:
        raise CourtlogError("Nothing was typed of this sheet yet.", "Esc leaves it.")
    other = _other(book, owner, sheet)
    keep = next(iter(answers.values()), None)
    if keep is Keep.BOOK or (other is not None and other.record.is_same(record)):
        return None
    if other is not None and keep is None:
        raise CourtlogError("The book has other balls of this sheet.", "Say which are right.")
    replaces = other.id if other is not None and keep is Keep.SHEET else None
    clinic, player = owner.clinic.id, owner.player.id
    return keep_home_yardstick(book, clinic, player, record, used, at_ms, replaces)


def _other(book: Book, owner: SheetOwner, sheet: FilledSheet) -> HomeYardstick | None:
    clinic, player = owner.clinic.id, owner.player.id
    return other_version(book, clinic, player, sheet.task.drill, _record(sheet))


def _record(sheet: FilledSheet) -> HomeYardstickRecord:
    on = _date(sheet)
    if on is None or not sheet.lines.who:
        raise CourtlogError("Date or watcher is missing.", "The lines are changed behind Esc.")
    return HomeYardstickRecord(
        on=on, watcher=sheet.lines.who, cues=sheet.task.cues, balls=sheet.rows.balls
    )


def _date(sheet: FilledSheet) -> date | None:
    try:
        return date.fromisoformat(sheet.lines.date.strip())
    except ValueError:
        return None


def _as_round(player: str, drill: str, record: HomeYardstickRecord) -> RoundRecord:
    return RoundRecord(
        player=player,
        drill=drill,
        purpose=Purpose.YARDSTICK,
        cues=record.cues,
        balls=tuple(map(BallRecord, record.balls)),
    )
