"""The rotation's side of the desk: who is there, who goes where, solo reps, the turn's clock."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from courtlog import times
from courtlog.coaching.care.heat_care import PROMPT, rest_due
from courtlog.coaching.game.people import Day, Player
from courtlog.coaching.plans.clinic_plan import plan_with
from courtlog.coaching.plans.rotation import Presence
from courtlog.courtside.desk.view import Rotation
from courtlog.errors import CourtlogError
from courtlog.logbook.reads import clinic_lookups, rotation_lookups
from courtlog.logbook.reads.care_lookups import held_back
from courtlog.logbook.reads.plan_lookups import planned
from courtlog.logbook.writes import clinics
from courtlog.logbook.writes.rotation_writer import RotationDoor

if TYPE_CHECKING:
    from courtlog.courtside.desk.desk import Desk


class RotationDesk:
    """Writes what changes in the rotation, then looks at it anew."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self._door = RotationDoor(desk.book)
        self._rung = 0
        self._rested: int | None = None

    def read(self, clinic: int, on: Day, roster: Sequence[Player]) -> Rotation:
        """The rotation as the book holds it, in the order of the kept plan where there is one."""
        book, day = self._desk.book, on.id
        places: dict[int, int] = {}
        for place, round_ in enumerate(planned(book, clinic, on.date)):
            places.setdefault(round_.player.id, place)
        roster = sorted(roster, key=lambda player: places.get(player.id, len(places)))
        off = rotation_lookups.over_limit(book, clinic, day) | held_back(book, clinic, day)
        return Rotation(
            rotation_lookups.court(book, clinic, day, roster, off),
            rotation_lookups.standings(book, day),
            clinic_lookups.plan(book, clinic),
            rotation_lookups.limited(book, clinic),
        )

    def look(self) -> None:
        """Show the rotation as the book holds it."""
        view = self._desk.view
        rotation = self.read(view.clinic.id, view.day, view.roster)
        self._desk.view = replace(view, rotation=rotation, now=self._desk.clock())

    def settle(self) -> None:
        """Everyone goes where the turn at the feed sends them."""
        self.look()
        rotation = self._desk.view.rotation
        if not rotation.court.turns:
            return
        known = rotation.standings
        moved = {
            player: station
            for player, station in rotation.court.stand().items()
            if player not in known or known[player].station != station
        }
        if moved:
            self._door.stand(self._desk.view.day.id, moved, self._desk.clock())
            self.look()

    def attend(self, player: Player, state: Presence) -> None:
        """A player is late, has left, or is here; a late comer starts at the median."""
        court = self._desk.view.rotation.court
        start = court.head_start.get(player.id, 0.0)
        if state is Presence.HERE:
            balls = sum(turn.balls for turn in court.turns if turn.player == player.id)
            start = max(start, court.late_start() - balls)
        self._door.attend(self._desk.view.day.id, player.id, state, start, self._desk.clock())
        self.settle()
        words = {
            Presence.HERE: "is here",
            Presence.LATE: "comes later",
            Presence.LEFT: "has left for today",
        }
        self._desk.tell(f"{player.shown_name} {words[state]}.")

    def arrive_if_begun(self, player: Player) -> None:
        """A new player on the roster, while others have hit already, starts at their median."""
        if any(turn.balls for turn in self._desk.view.rotation.court.turns):
            self.attend(player, Presence.HERE)

    def swap(self, one: Player, other: Player) -> None:
        """Two waiting players change places for this turn. Raises CourtlogError."""
        court = self._desk.view.rotation.court
        able = {player.id for player in court.queue} - {court.at_feed}
        if one.id == other.id or not {one.id, other.id} <= able:
            raise CourtlogError("Two players who wait for the feed can change places.")
        self._door.swap(self._desk.view.day.id, court.number, one.id, other.id, self._desk.clock())
        self.settle()
        self._desk.tell(
            f"{one.shown_name} and {other.shown_name} have changed places for this turn."
        )

    def solo_station(self, player: Player) -> str:
        """Where the player works alone, or did before the feed."""
        standing = self._desk.view.rotation.standings.get(player.id)
        stations = self._desk.view.rotation.court.stations
        for place in (standing.station, standing.before) if standing else ():
            if place in stations:
                return place
        return stations[-1] if stations else "alone"

    def solo(self, player: Player, reps: int) -> None:
        """Repetitions alone, in the player's word."""
        station = self.solo_station(player)
        self._door.solo(self._desk.view.day.id, player.id, station, reps, self._desk.clock())
        self._desk.tell(f"{player.shown_name}: {reps} at {station}, in the player's word.")

    def set_plan(self, typed: Mapping[str, str]) -> None:
        """Change how the clinic is run. Raises CourtlogError for what cannot be."""
        book, clinic = self._desk.book, self._desk.view.clinic.id
        clinics.set_plan(book, clinic, plan_with(clinic_lookups.plan(book, clinic), typed))
        self.settle()

    def ball_taken(self) -> None:
        """Says so, once, when the ball just taken was the last of the player's limit."""
        court = self._desk.view.rotation.court
        feeder = court.at_feed
        if feeder not in self._desk.view.rotation.limited or feeder in court.off:
            return
        self.look()
        reason = self._desk.view.rotation.court.off.get(feeder or 0)
        if reason:
            self._desk.tell(f"That was the last ball for today: {reason}. Tab next player.")
            self._desk.rings += 1

    def tick(self) -> None:
        """A second has gone by: the clock goes on, and rings once when a turn or a rest is due."""
        desk = self._desk
        desk.view = replace(desk.view, now=desk.clock())
        self._prompt_to_rest()
        limit = desk.view.rotation.plan.turn_seconds
        turn = desk.view.rotation.court.number
        if limit is None or desk.view.paused or self._rung == turn:
            return
        if turn and desk.view.turn_ms >= 1000 * limit:
            self._rung = turn
            after = desk.view.rotation.waiting
            who = f"Tab puts {after[0].shown_name} on court" if after else "nobody else is waiting"
            desk.tell(f"The turn is up ({times.span_words(1000 * limit)}): {who}.")
            desk.rings += 1

    def _prompt_to_rest(self) -> None:
        view = self._desk.view
        begins = [turn.started_at for turn in view.rotation.court.turns if turn.started_at]
        minutes = view.rotation.plan.rest_minutes
        if begins and rest_due(min(begins), self._rested, view.now, minutes):
            self._rested = view.now
            self._desk.tell(PROMPT)
            self._desk.rings += 1
