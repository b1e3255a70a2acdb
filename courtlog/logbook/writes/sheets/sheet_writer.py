"""Writes a sheet's rounds beside those of the book, as one amendment.

`history` takes it back. Its balls are struck out then;
notes, check-ins and players that came with it go. Their ids lie above the amendment's.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from courtlog.coaching.game.clinic_record import CheckIn, ClinicRecord, RoundRecord
from courtlog.coaching.game.round_places import SheetRound
from courtlog.coaching.game.round_versions import Keep, new_check_ins, new_texts
from courtlog.logbook.file.book import Book
from courtlog.logbook.file.head_book import check_head_book
from courtlog.logbook.reads import day_lookups, lookups
from courtlog.logbook.rows import tallies
from courtlog.logbook.rows.matched_ids import call_two_rounds
from courtlog.logbook.rows.red_flags import flag_reds
from courtlog.logbook.rows.row_changes import add_to_roster, coach_id, day_id, insert, player_id
from courtlog.logbook.writes.amendments import GONE, AmendedValue, AmendmentKind, open_amendment
from courtlog.logbook.writes.sheets.mend_round import mend_round, replace_round, taken_ids
from courtlog.logbook.writes.sheets.sheet_numbers import (
    note_known_round,
    note_new_round,
    rounds_of_player,
)
from courtlog.logbook.writes.sheets.sheet_people import known_players
from courtlog.logbook.writes.sheets.sheet_places import day_rounds, make_room
from courtlog.logbook.writes.sheets.sheet_plan import PlannedDay, PlannedRound, clinic_of_sheet
from courtlog.logbook.writes.sheets.sheet_rows import SheetRows
from courtlog.logbook.writes.sheets.taken_in import PlacedRound, TakenIn


@dataclass(slots=True)
class SheetWriter:
    """Writes one sheet as it was planned against the book, inside the caller's transaction."""

    book: Book
    rows: SheetRows
    amendment_id: int
    who: str | None
    number: int | None
    """The number in the code of a paper sheet."""
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
            check_head_book(db)
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
                check_head_book(db)
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
        placed, known = dict[int, RoundRecord](), dict[int, RoundRecord]()
        said_before = day_lookups.loose_check_ins(self.book, clinic_id, day.date, row)
        for said in new_check_ins(said_before, day.check_ins):
            self._add_check_in(row, None, said)
        for index, one in enumerate(planned.rounds):
            if one.is_new:
                round_id, place = room[index]
                self._add_round(row, coach, one, round_id, place)
                if one.keep is Keep.BOTH and one.round_id is not None:
                    call_two_rounds(db, one.round_id, round_id)
                if was_begun:
                    placed[round_id] = one.sheet
            else:
                round_id = one.round_id or 0
                note_known_round(db, round_id, self.number)
                if one.keep is None:
                    known[round_id] = one.sheet
            came = len(self.arrived)
            self._add_texts(row, round_id, one)
            if one.is_new or len(self.arrived) > came:
                self.about.append(round_id)
            if one.keep is Keep.SHEET:
                self.decided.append((one, round_id))
        place_of = rounds_of_player(db, row)
        for told, rounds in ((self.placed, placed), (self.known, known)):
            for round_id, sheet in rounds.items():
                told.append(PlacedRound(day.date, day.court, sheet, place_of[round_id]))

    def _add_round(self, day: int, coach: int, one: PlannedRound, row: int, place: int) -> None:
        player = self.players[one.sheet.player]
        self.rows.add_round(day, coach, player, one.sheet, place, row)
        balls = self.rows.add_balls(row, one.sheet.balls)
        for ball in balls:
            self._arrive_ball(ball)
        note_new_round(self.rows.db, row, self.number, one.sheet, balls)
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
        balls = zip(taken_ids(self.rows.db, row), has.balls, one.sheet.balls, strict=False)
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
                    replace_round(amendment, one.round_id or 0, row)
                elif one.book is not None:
                    for ball in mend_round(amendment, self.rows, one.book, one.sheet, row):
                        self._arrive_ball(ball)
            for what, row, before, after in self.arrived:
                amendment.keep(what, row, before, after)
        return self.amendment_id


def _for_place(one: PlannedRound, index_of: Mapping[int, int]) -> SheetRound:
    index = None if one.round_id is None else index_of[one.round_id]
    return SheetRound(
        one.sheet.started,
        same_as=None if one.is_new else index,
        right_after=index if one.replaces else None,
        right_before=None if one.before is None else index_of[one.before],
    )
