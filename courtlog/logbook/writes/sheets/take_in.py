"""Take a sheet into the book: its rounds join the days that the book has already.

The one door for rounds from paper and from sheets, in one transaction: all of it, or nothing.
What was taken in is one amendment, so that `history` takes it back. Its balls are struck out then;
notes, check-ins and players that came with it go. Their ids lie above the amendment's.

Notes and check-ins of the sheet join a round whichever version of its balls is kept.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from courtlog.coaching.game.clinic_record import CheckIn, ClinicRecord, RoundRecord
from courtlog.coaching.game.drills import UsedDrill
from courtlog.coaching.game.round_places import SheetRound
from courtlog.coaching.game.round_versions import (
    Keep,
    TwoVersions,
    differing,
    extra_balls,
    new_check_ins,
    new_texts,
)
from courtlog.coaching.game.rounds import Ball
from courtlog.errors import BookError
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import day_lookups, lookups
from courtlog.logbook.rows import tallies
from courtlog.logbook.rows.journal import state_text
from courtlog.logbook.rows.red_flags import flag_reds
from courtlog.logbook.rows.row_changes import add_to_roster, coach_id, day_id, insert, player_id
from courtlog.logbook.writes.amendments import (
    GONE,
    AmendedValue,
    Amendment,
    AmendmentKind,
    open_amendment,
)
from courtlog.logbook.writes.sheets.sheet_people import known_players
from courtlog.logbook.writes.sheets.sheet_places import day_rounds, make_room
from courtlog.logbook.writes.sheets.sheet_plan import (
    PlannedDay,
    PlannedRound,
    clinic_of_sheet,
    plan_sheet,
)
from courtlog.logbook.writes.sheets.sheet_rows import SheetRows

NO_ANSWERS: Mapping[TwoVersions, Keep] = {}


@dataclass(frozen=True, slots=True)
class PlacedRound:
    """A round of the sheet, and where it stands in a day that the book had begun."""

    date: date
    court: str
    round: RoundRecord
    place: int
    """Which round of that day on that court it is now, from 1."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenIn:
    """What a sheet changed in the book."""

    clinic_id: int
    days: int
    """Days of the sheet."""
    rounds: int
    """Rounds that came in."""
    balls: int
    """Balls that came in."""
    placed: tuple[PlacedRound, ...]
    """Those of the rounds that joined a day already begun."""
    known: tuple[PlacedRound, ...]
    """Rounds that the book had already, ball for ball, where they stand there."""
    kept: int
    """Rounds of which the book's version was kept."""
    mended: int
    """Rounds that now read as on the sheet."""
    texts: int
    """Notes and check-ins that came in."""
    amendment_id: int | None
    """The amendment that `history` takes back; None where nothing came in."""


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
        writer = _Writer(book, SheetRows(db, book.ids, drills, at_ms), amendment_id, who)
        return writer.clinic(clinic, plan)


@dataclass(slots=True)
class _Writer:
    book: Book
    rows: SheetRows
    amendment_id: int
    who: str | None
    players: dict[str, int] = field(default_factory=dict)
    placed: list[PlacedRound] = field(default_factory=list)
    known: list[PlacedRound] = field(default_factory=list)
    decided: list[tuple[PlannedRound, int]] = field(default_factory=list)
    """Rounds that are to read as on the sheet, with the id of the round that does."""
    new_rounds: int = 0
    arrived: list[tuple[AmendedValue, int, int | str, int | None]] = field(default_factory=list)
    """What was not there before: which value of which row, before and after."""
    about: list[int] = field(default_factory=list)
    """The rounds to which something came."""
    balls: int = 0

    def clinic(self, clinic: ClinicRecord, plan: Sequence[PlannedDay]) -> TakenIn:
        clinic_id = self._clinic_id(clinic)
        self._find_players(clinic_id, clinic)
        for day in plan:
            self._write_day(clinic_id, day)
        amendment = self._step(clinic_id)
        for player in set(self.players.values()):
            flag_reds(self.rows.db, clinic_id, player)
        rounds = [round_ for day in plan for round_ in day.rounds]
        return TakenIn(
            clinic_id=clinic_id,
            days=len(plan),
            rounds=self.new_rounds,
            balls=self.balls,
            placed=tuple(self.placed),
            known=tuple(self.known),
            kept=sum(round_.keep is Keep.BOOK for round_ in rounds),
            mended=sum(round_.keep is Keep.SHEET for round_ in rounds),
            texts=sum(what is not AmendedValue.STRUCK for what, *_ in self.arrived),
            amendment_id=amendment,
        )

    def _clinic_id(self, clinic: ClinicRecord) -> int:
        db = self.rows.db
        row = clinic_of_sheet(db, clinic)
        if row is None:
            row = insert(
                db, self.rows.ids, self.rows.at, "clinic", name=clinic.name, zone=clinic.zone
            )
        db.execute(
            "UPDATE clinic SET planned_days = ? WHERE id = ? AND planned_days IS NULL",
            [clinic.planned_days, row],
        )
        return row

    def _find_players(self, clinic_id: int, clinic: ClinicRecord) -> None:
        db, ids, at = self.rows.db, self.rows.ids, self.rows.at
        on_sheet = known_players(self.book, clinic_id, clinic)
        for entry in clinic.with_everyone_on_the_roster().roster:
            if entry.name not in on_sheet:
                on_sheet[entry.name] = player_id(db, ids, at, entry.name, entry.hand)
                add_to_roster(db, clinic_id, on_sheet[entry.name])
            elif entry.hand:
                db.execute(
                    "UPDATE player SET hand = ? WHERE id = ? AND hand = ''",
                    [entry.hand, on_sheet[entry.name]],
                )
        shown = {player.shown_name: player.id for player in lookups.players(self.book, clinic_id)}
        self.players = on_sheet | shown

    def _write_day(self, clinic_id: int, planned: PlannedDay) -> None:
        """Write what is new of a day: rounds at their places, notes and check-ins."""
        db, ids, at, day = self.rows.db, self.rows.ids, self.rows.at, planned.sheet
        coach = coach_id(db, ids, at, day.coach)
        if planned.day_id is None:
            row = day_id(db, ids, at, clinic_id, day.date, day.court, coach)
        else:
            row = planned.day_id
            if not day.coach:
                (coach,) = db.execute("SELECT coach_id FROM day WHERE id = ?", [row]).fetchone()
        held = day_rounds(db, row)
        index_of = {round_id: index for index, (round_id, _) in enumerate(held)}
        was_begun = any(round_.was_played for _, round_ in held)
        room = make_room(db, ids, held, [_for_place(one, index_of) for one in planned.rounds], at)
        place_of = dict(
            db.execute("SELECT id, place FROM round WHERE day_id = ?", [row]).fetchall()
        )
        said_before = day_lookups.loose_check_ins(self.book, clinic_id, day.date, row)
        for said in new_check_ins(said_before, day.check_ins):
            self._add_check_in(row, None, said)
        for index, one in enumerate(planned.rounds):
            if one.is_new:
                round_id, place = room[index]
                self._add_round(row, coach, one, round_id, place)
                if was_begun:
                    self.placed.append(PlacedRound(day.date, day.court, one.sheet, place))
            else:
                round_id = one.round_id or 0
                if one.keep is None:
                    place = place_of[round_id]
                    self.known.append(PlacedRound(day.date, day.court, one.sheet, place))
            came = len(self.arrived)
            self._add_texts(row, round_id, one)
            if one.is_new or len(self.arrived) > came:
                self.about.append(round_id)
            if one.keep is Keep.SHEET:
                self.decided.append((one, round_id))

    def _add_round(self, day: int, coach: int, one: PlannedRound, row: int, place: int) -> None:
        player = self.players[one.sheet.player]
        self.rows.add_round(day, coach, player, one.sheet, place, row)
        for ball in self.rows.add_balls(row, one.sheet.balls):
            self._arrive_ball(ball)
        tallies.count_round(self.rows.db, row)
        self.new_rounds += 1

    def _add_texts(self, day: int, row: int, one: PlannedRound) -> None:
        """Add the notes and check-ins that the round does not have yet."""
        has = None if one.keep is Keep.BOTH else one.book
        for text in new_texts(has.notes if has else (), one.sheet.notes):
            self._arrive(AmendedValue.NOTE, self.rows.add_note(row, None, text), row)
        for said in new_check_ins(has.check_ins if has else (), one.sheet.check_ins):
            self._add_check_in(day, row, said)
        if has is None or one.is_new:
            return
        balls = zip(_taken(self.rows.db, row), has.balls, one.sheet.balls, strict=False)
        for ball, was, now in balls:
            for text in new_texts(was.notes, now.notes):
                self._arrive(AmendedValue.NOTE, self.rows.add_note(row, ball, text), row)

    def _add_check_in(self, day: int, row: int | None, said: CheckIn) -> None:
        added = self.rows.add_check_in(day, self.players[said.player], row, said)
        self._arrive(AmendedValue.CHECK_IN, added, row)

    def _arrive(self, what: AmendedValue, row: int, round_id: int | None) -> None:
        self.arrived.append((what, row, GONE, round_id))

    def _arrive_ball(self, ball: int) -> None:
        self.balls += 1
        self.arrived.append((AmendedValue.STRUCK, ball, 1, 0))

    def _step(self, clinic_id: int) -> int | None:
        """Store all of it as one amendment; its id, or None where it is none."""
        any_round = self.rows.db.execute(
            "SELECT round.id FROM round JOIN day ON day.id = day_id WHERE clinic_id = ? LIMIT 1",
            [clinic_id],
        ).fetchone()
        touched = [one.round_id for one, _ in self.decided if one.round_id is not None]
        rounds = touched or self.about[:1] or list(any_round or ())
        who = "" if self.who is None and touched else self.who
        if who is None or not rounds or not (self.arrived or touched):
            return None
        with open_amendment(
            self.book,
            AmendmentKind.JOIN,
            tuple(rounds),
            who,
            self.rows.at,
            amendment_id=self.amendment_id,
        ) as amendment:
            for one, row in self.decided:
                if one.replaces:
                    _replace(amendment, one.round_id or 0, row)
                elif one.book is not None:
                    self._mend(amendment, one.book, one.sheet, row)
            for what, row, before, after in self.arrived:
                amendment.keep(what, row, before, after)
        return self.amendment_id

    def _mend(
        self, amendment: Amendment, book: RoundRecord, sheet: RoundRecord, round_id: int
    ) -> None:
        """Give the book's round the sheet's balls, one by one."""
        held = _taken(self.rows.db, round_id)
        both = zip(held, book.balls, sheet.balls, differing(book, sheet), strict=False)
        for row, was, now, differs in both:
            if differs:
                clip = was.ball.clip if now.ball.clip is None else now.ball.clip
                after = state_text(Ball(now.ball.grades, now.ball.tough, clip), False)
                amendment.change(AmendedValue.STATE, row, after)
        for row in held[len(sheet.balls) :]:
            amendment.change(AmendedValue.STRUCK, row, 1)
        for row in self.rows.add_balls(round_id, extra_balls(book, sheet), len(held)):
            self._arrive_ball(row)
        amendment.change(AmendedValue.PURPOSE, round_id, str(sheet.purpose))
        if book.drill != sheet.drill:
            amendment.change(AmendedValue.DRILL, round_id, self.rows.drill(sheet.drill))


def _replace(amendment: Amendment, old: int, new: int) -> None:
    """Strike out the balls of the old round; its notes and check-ins go to the new one."""
    db = amendment.db
    for ball in _taken(db, old):
        amendment.change(AmendedValue.STRUCK, ball, 1)
    for what, sql in (
        (AmendedValue.NOTE, "SELECT id FROM note WHERE round_id = ? AND ball_id IS NULL"),
        (AmendedValue.CHECK_IN, "SELECT id FROM check_in WHERE round_id = ?"),
    ):
        for (row,) in db.execute(sql, [old]).fetchall():
            amendment.change(what, row, new)


def _for_place(one: PlannedRound, index_of: Mapping[int, int]) -> SheetRound:
    index = None if one.round_id is None else index_of[one.round_id]
    return SheetRound(
        one.sheet.started,
        same_as=None if one.is_new else index,
        right_after=index if one.replaces else None,
    )


def _taken(db: sqlite3.Connection, round_id: int) -> list[int]:
    """The ids of a round's taken balls, in their order."""
    rows = db.execute(
        "SELECT id FROM ball WHERE round_id = ? AND taken ORDER BY number", [round_id]
    )
    return [row for (row,) in rows]
