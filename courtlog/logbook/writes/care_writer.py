"""Write arm care and heat: each entry is one committed transaction.

Check-ins, reds and clinicians' words are only ever added to. `at_ms` is milliseconds UTC.
"""

from __future__ import annotations

from dataclasses import replace

from courtlog.coaching.care.arm_care import Caution, cautions
from courtlog.coaching.care.heat_care import HeatReading
from courtlog.coaching.game.clinic_record import CheckIn
from courtlog.errors import CourtlogError
from courtlog.logbook.file.book import Book
from courtlog.logbook.rows.check_ins import insert_check_in
from courtlog.logbook.rows.red_flags import check_ins_of, flag_reds, is_minor
from courtlog.logbook.rows.row_changes import insert


class CareWriter:
    """Everything that may be written about arms and heat."""

    def __init__(self, book: Book) -> None:
        self._book = book

    def add_check_in(
        self, day_id: int, player_id: int, check_in: CheckIn, at_ms: int
    ) -> tuple[Caution, ...]:
        """Keep a check-in, and a red if it calls for one; returns the cautions it raises."""
        with self._book.writing() as db:
            kept = replace(check_in, at_ms=at_ms - at_ms % 1000)
            row = insert_check_in(db, self._book.ids, at_ms, day_id, player_id, None, kept)
            (clinic,) = db.execute("SELECT clinic_id FROM day WHERE id = ?", [day_id]).fetchone()
            flag_reds(db, clinic, player_id)
            check_ins = check_ins_of(db, clinic, player_id)
            place = [row_id for row_id, _ in check_ins].index(row)
            raised = cautions([on_date for _, on_date in check_ins], is_minor(db, player_id))
            return tuple(caution for caution in raised if caution.place == place)

    def set_red(self, day_id: int, player_id: int, reason: str, at_ms: int) -> int:
        """Set a red by hand; returns its id. Raises CourtlogError without a reason."""
        if not reason.strip():
            raise CourtlogError("Nothing was set: a red needs a reason.", "Write what you saw.")
        with self._book.writing() as db:
            return insert(
                db,
                self._book.ids,
                at_ms,
                "red_flag",
                day_id=day_id,
                player_id=player_id,
                reason=reason.strip(),
                at=at_ms,
            )

    def add_clinician_word(self, red_id: int, who: str, text: str, at_ms: int) -> int:
        """Add a clinician's word on a red; returns its id. Raises CourtlogError."""
        if not who.strip() or not text.strip():
            raise CourtlogError(
                "Nothing was kept: write both who spoke and what was said.",
                "The red stays as it is.",
            )
        with self._book.writing() as db:
            return insert(
                db,
                self._book.ids,
                at_ms,
                "clinician_word",
                red_flag_id=red_id,
                who=who.strip(),
                text=text.strip(),
                at=at_ms,
            )

    def add_heat_reading(self, day_id: int, reading: HeatReading) -> int:
        """Add a heat reading to the day; returns its id."""
        with self._book.writing() as db:
            return insert(
                db,
                self._book.ids,
                reading.at_ms,
                "heat",
                day_id=day_id,
                celsius=reading.celsius,
                humidity=reading.humidity,
                wbgt=reading.wbgt,
                at=reading.at_ms,
            )
