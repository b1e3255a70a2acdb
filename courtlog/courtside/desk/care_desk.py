"""The part of the desk that holds arms and heat: asks the book, writes to it, shows what stands."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from courtlog.coaching.care.arm_care import Caution, DatedCheckIn
from courtlog.coaching.care.heat_care import HeatReading, in_short, reading_of
from courtlog.coaching.game.clinic_record import CheckIn
from courtlog.coaching.game.people import Player
from courtlog.coaching.plans.clinic_plan import ClinicPlan
from courtlog.courtside.desk.view import CareView
from courtlog.errors import CourtlogError
from courtlog.logbook.reads import care_lookups, clinic_lookups
from courtlog.logbook.rows.reds import age_group, said_by
from courtlog.logbook.writes.care_writer import CareDoor

if TYPE_CHECKING:
    from courtlog.courtside.desk.desk import Desk


def care_view(desk: Desk, clinic_id: int, day_id: int) -> CareView:
    """Care as the book holds it for this day."""
    book = desk.book
    readings = care_lookups.heat_on(book, clinic_id, care_lookups.date_of(book, day_id))
    lines = clinic_lookups.plan(book, clinic_id).heat_lines
    heat = in_short(readings[-1], lines) if readings else ""
    return CareView(care_lookups.levels_on(book, clinic_id, day_id), heat)


class CareDesk:
    """Arms and heat of the day on court."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self._door = CareDoor(desk.book)

    def held_back(self, player: Player) -> str:
        """Why a red takes this player off the feed today; empty when none does."""
        view = self._desk.view
        found = care_lookups.held_back(self._desk.book, view.clinic.id, view.day.id)
        return found.get(player.id, "")

    def said_by(self, player: Player) -> list[DatedCheckIn]:
        """The player's check-ins of the clinic."""
        said = said_by(self._desk.book.db, self._desk.view.clinic.id, player.id)
        return [on_date for _, on_date in said]

    def check_in(self, player: Player, check_in: CheckIn) -> tuple[Caution, ...]:
        """Keep a check-in; returns the cautions it raises."""
        desk = self._desk
        found = self._door.check_in(desk.view.day.id, player.id, check_in, desk.clock())
        ask = ""
        if check_in.pain and not age_group(desk.book.db, player.id):
            name = player.shown_name
            ask = f" Is {name} a minor? Say so on the card: then pain in a joint is a red."
        self._show(f"Kept of {player.shown_name}: {check_in.words()}.{ask}")
        return found

    def set_red(self, player: Player, reason: str) -> None:
        """A red by hand. Raises CourtlogError without a reason."""
        self._door.set_red(self._desk.view.day.id, player.id, reason, self._desk.clock())
        self._show(f"Red for {player.shown_name}: {reason.strip()}.")

    def reds(self) -> list[care_lookups.Red]:
        """The clinic's reds up to today, the latest first."""
        view = self._desk.view
        return care_lookups.reds(self._desk.book, view.clinic.id, view.day.date)[::-1]

    def clinician_word(self, red: care_lookups.Red, who: str, text: str) -> None:
        """What a clinician said, beside a red that stays. Raises CourtlogError."""
        self._door.clinician_word(red.id, who, text, self._desk.clock())
        self._show("The clinician's word is in the book; the red stays beside it.")

    def heat(self, temperature: str, humidity: str, wbgt: str) -> HeatReading:
        """Keep a reading as typed. Raises CourtlogError for nonsense."""
        try:
            reading = reading_of(temperature, humidity, wbgt, self._desk.clock())
        except ValueError as error:
            raise CourtlogError(str(error)) from error
        self._door.heat(self._desk.view.day.id, reading)
        self._show("The reading is in the book.")
        return reading

    @property
    def plan(self) -> ClinicPlan:
        """How the clinic is run: its own WBGT lines, the minutes between prompts to rest."""
        return self._desk.view.rotation.plan

    def set_lines(self, typed: Mapping[str, str]) -> None:
        """Keep the clinic's own lines and timer as typed. Raises CourtlogError."""
        self._desk.rotation.set_plan(typed)
        self._show("Your heat lines and timer are in the book.")

    def _show(self, words: str) -> None:
        """Who hits next may have changed with it."""
        self._desk.resume(words)
