"""What a sheet would change in the book: for each of its rounds the round that it is, or none."""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from courtlog.coaching.game.clinic_record import (
    CheckIn,
    ClinicRecord,
    DayRecord,
    RoundRecord,
)
from courtlog.coaching.game.round_versions import (
    Keep,
    TwoVersions,
    can_be_mended,
    later_sheet,
    match_by_number,
    matches,
)
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import day_lookups, lookups
from courtlog.logbook.writes.sheets.sheet_numbers import (
    day_of_number,
    numbers_of_day,
    rounds_of_player,
)
from courtlog.logbook.writes.sheets.sheet_people import day_of_sheet, known_players


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedRound:
    """A round of the sheet, and what it is in the book."""

    sheet: RoundRecord
    book: RoundRecord | None = None
    round_id: int | None = None
    keep: Keep | None = None
    """What was decided where they are two versions of one round."""
    before: int | None = None
    """The id of the round that the player's next sheet of that day was kept as."""

    @property
    def is_new(self) -> bool:
        """Whether it comes in as a round of its own."""
        return self.book is None or self.keep is Keep.BOTH or self.replaces

    @property
    def replaces(self) -> bool:
        """Whether it takes the place of a round that was seen on other cues."""
        mended = self.book is None or can_be_mended(self.book, self.sheet)
        return self.keep is Keep.SHEET and not mended

    @property
    def mends(self) -> bool:
        """Whether the book's round takes over its balls one by one."""
        return self.keep is Keep.SHEET and not self.replaces


@dataclass(frozen=True, slots=True)
class PlannedDay:
    """A day of the sheet, with the book's day that it joins."""

    sheet: DayRecord
    day_id: int | None
    rounds: tuple[PlannedRound, ...]
    to_ask: tuple[TwoVersions, ...] = ()
    """Rounds of which sheet and book have two versions, while nobody has decided."""


def clinic_of_sheet(db: sqlite3.Connection, clinic: ClinicRecord) -> int | None:
    """The id of the clinic that the sheet goes on with; None for a new one."""
    row = db.execute(
        "SELECT id FROM clinic WHERE name = ? AND zone = ?", [clinic.name, clinic.zone]
    ).fetchone()
    return None if row is None else int(row[0])


def plan_sheet(
    book: Book,
    clinic: ClinicRecord,
    answers: Mapping[TwoVersions, Keep],
    number: int | None = None,
) -> tuple[PlannedDay, ...]:
    """What each round of the sheet is in the book; without rounds in which nothing was said.

    `number` is of a paper sheet of one round: which of its player's rounds of that day it is.
    """
    clinic_id = clinic_of_sheet(book.db, clinic)
    shown = {} if clinic_id is None else _shown_names(book, clinic_id, clinic)
    days = []
    for day in clinic.days:
        rounds = tuple(
            replace(
                round_,
                player=shown.get(round_.player, round_.player),
                check_ins=_with_shown_names(round_.check_ins, shown),
            )
            for round_ in day.rounds
            if round_.has_something
        )
        day = replace(day, rounds=rounds, check_ins=_with_shown_names(day.check_ins, shown))
        known = None if clinic_id is None else _known_day(book, clinic_id, day, clinic, number)
        if clinic_id is None or known is None:
            planned = tuple(PlannedRound(sheet=round_) for round_ in rounds)
            days.append(PlannedDay(day, None, planned))
        else:
            days.append(_against_the_book(book, clinic_id, day, known, answers, number))
    return tuple(days)


def _known_day(
    book: Book, clinic_id: int, day: DayRecord, clinic: ClinicRecord, number: int | None
) -> tuple[int, str] | None:
    """The book's day; that of a paper sheet which is there already, whatever court is named now."""
    if number is not None:
        ids = {player.shown_name: player.id for player in lookups.players(book, clinic_id)}
        for round_ in day.rounds:
            player = ids.get(round_.player)
            has = player and day_of_number(book.db, clinic_id, day.date, player, number)
            if has:
                return has
    return day_of_sheet(book.db, clinic_id, day, clinic)


def _with_shown_names(said: Sequence[CheckIn], shown: Mapping[str, str]) -> tuple[CheckIn, ...]:
    return tuple(replace(one, player=shown.get(one.player, one.player)) for one in said)


def _shown_names(book: Book, clinic_id: int, clinic: ClinicRecord) -> dict[str, str]:
    players = known_players(book, clinic_id, clinic)
    names = {player.id: player.shown_name for player in lookups.players(book, clinic_id)}
    return {name: names[row] for name, row in players.items()}


def _against_the_book(
    book: Book,
    clinic_id: int,
    day: DayRecord,
    known: tuple[int, str],
    answers: Mapping[TwoVersions, Keep],
    number: int | None,
) -> PlannedDay:
    day_id, court = known
    held = day_lookups.recorded_rounds(book, clinic_id, day.date, day_id)
    place_of = rounds_of_player(book.db, day_id)
    in_book = [round_ for _, round_ in held]
    kept_from = numbers_of_day(book.db, day_id)
    numbers = [kept_from.get(row, frozenset()) for row, _ in held]
    if number is None:
        found = matches(in_book, day.rounds)
    else:
        found = [match_by_number(in_book, numbers, round_, number) for round_ in day.rounds]
    planned, to_ask = [], []
    for round_, match in zip(day.rounds, found, strict=True):
        if match.index is None:
            index = None if number is None else later_sheet(in_book, numbers, round_, number)
            before = None if index is None else held[index][0]
            planned.append(PlannedRound(sheet=round_, before=before))
            continue
        round_id, held_round = held[match.index]
        keep = None
        if not match.is_same:
            versions = TwoVersions(
                date=day.date,
                court=court,
                place=place_of[round_id],
                round_id=round_id,
                book=held_round,
                sheet=round_,
            )
            keep = answers.get(versions)
            if keep is None:
                to_ask.append(versions)
        planned.append(PlannedRound(sheet=round_, book=held_round, round_id=round_id, keep=keep))
    return PlannedDay(replace(day, court=court), day_id, tuple(planned), tuple(to_ask))
