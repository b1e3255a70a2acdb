"""The desk of arms and heat: asks the book, writes to it, shows what holds."""

from __future__ import annotations

from collections.abc import Mapping

from courtlog.coaching.care.arm_care import Caution, DatedCheckIn
from courtlog.coaching.care.heat_care import HeatReading, reading_of
from courtlog.coaching.game.clinic_record import CheckIn
from courtlog.coaching.game.people import Player
from courtlog.coaching.plans.clinic_plan import ClinicPlan
from courtlog.courtside.desk.court_state import CourtState
from courtlog.courtside.desk.rotation_desk import RotationDesk
from courtlog.errors import CourtlogError
from courtlog.logbook.reads import care_lookups
from courtlog.logbook.rows.red_flags import age_group, check_ins_of
from courtlog.logbook.writes.care_writer import CareWriter


class CareDesk:
    """Arms and heat of the day on court; all is read again, since they may change who is next."""

    def __init__(self, state: CourtState, rotation: RotationDesk) -> None:
        self._state = state
        self._rotation = rotation
        self._writer = CareWriter(state.book)

    def held_back(self, player: Player) -> str:
        """Why a red takes this player off the feed today; empty when none does."""
        view = self._state.view
        reasons = care_lookups.held_back(self._state.book, view.clinic.id, view.day.id)
        return reasons.get(player.id, "")

    def let_hit(self, player: Player) -> None:
        """Remember that the coach lets this player hit, and has read of the red that holds now."""
        self._state.let_hit.add((player.id, self.held_back(player)))

    def unread_red(self) -> str:
        """Why a red takes the player on court off the feed, while the coach has not read it."""
        live, care = self._state.open_round, self._state.view.care
        if live is None or self._state.view.read_only:
            return ""
        reason = care.held_back.get(live.player.id, "")
        return "" if (live.player.id, reason) in self._state.let_hit else reason

    def check_ins(self, player: Player) -> list[DatedCheckIn]:
        """The player's check-ins of the clinic."""
        kept = check_ins_of(self._state.book.db, self._state.view.clinic.id, player.id)
        return [on_date for _, on_date in kept]

    def check_in(self, player: Player, check_in: CheckIn) -> tuple[Caution, ...]:
        """Keep a check-in; returns the cautions it raises."""
        state = self._state
        cautions = self._writer.add_check_in(state.view.day.id, player.id, check_in, state.clock())
        name, ask = player.shown_name, ""
        if check_in.pain and not age_group(state.book.db, player.id):
            ask = f" Is {name} a minor? Say so on the card: then pain in a joint is a red."
        state.resume(f"Kept of {name}: {check_in.words()}.{ask}")
        return cautions

    def set_red(self, player: Player, reason: str) -> None:
        """Set a red by hand. Raises CourtlogError without a reason."""
        self._writer.set_red(self._state.view.day.id, player.id, reason, self._state.clock())
        self._state.resume(f"Red for {player.shown_name}: {reason.strip()}.")

    def reds(self) -> list[care_lookups.Red]:
        """The clinic's reds up to today, the latest first."""
        view = self._state.view
        return care_lookups.reds(self._state.book, view.clinic.id, view.day.date)[::-1]

    def add_clinician_word(self, red: care_lookups.Red, who: str, text: str) -> None:
        """Keep what a clinician said, beside a red that stays. Raises CourtlogError."""
        self._writer.add_clinician_word(red.id, who, text, self._state.clock())
        self._state.resume("The clinician's word is in the book; the red stays beside it.")

    def keep_heat(self, temperature: str, humidity: str, wbgt: str) -> HeatReading:
        """Keep a reading as typed. Raises CourtlogError for nonsense."""
        try:
            reading = reading_of(temperature, humidity, wbgt, self._state.clock())
        except ValueError as error:
            raise CourtlogError(str(error)) from error
        self._writer.add_heat_reading(self._state.view.day.id, reading)
        self._state.resume("The reading is in the book.")
        return reading

    @property
    def plan(self) -> ClinicPlan:
        """How the clinic is run: its own WBGT lines, the minutes between prompts to rest."""
        return self._state.view.rotation.plan

    def set_lines(self, typed: Mapping[str, str]) -> None:
        """Keep the clinic's own lines and timer as typed. Raises CourtlogError."""
        self._rotation.set_plan(typed)
        self._state.resume("Your heat lines and timer are in the book.")
