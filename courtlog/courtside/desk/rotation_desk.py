"""The desk of the rotation: who is there, who goes where, reps alone, the clock of a rotation."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from courtlog import times
from courtlog.coaching.care.heat_care import PROMPT, rest_due
from courtlog.coaching.game.people import Player
from courtlog.coaching.on_court.next_act import Act, next_player_words
from courtlog.coaching.plans.clinic_plan import plan_with
from courtlog.coaching.plans.rotation import Presence
from courtlog.courtside.desk.court_state import CourtState
from courtlog.errors import CourtlogError
from courtlog.logbook.reads import clinic_lookups
from courtlog.logbook.writes import clinic_writer
from courtlog.logbook.writes.rotation_writer import RotationWriter
from courtlog.plain_text import many


class RotationDesk:
    """Writes what changes in the rotation, then reads it again."""

    def __init__(self, state: CourtState) -> None:
        self._state = state
        self._writer = RotationWriter(state.book)
        self._end_round: Callable[[], None] | None = None
        self._rung = 0
        self._rested: int | None = None

    def end_rounds_by(self, end_round: Callable[[], None]) -> None:
        """End the round on court with this when its player goes."""
        self._end_round = end_round

    def resettle(self, message: str) -> None:
        """Read everything, since the feed has another player, and send everyone to their place."""
        self._state.resume()
        self.settle()
        self._state.tell(message)

    def settle(self) -> None:
        """Send everyone where this rotation sends them."""
        self._state.read_rotation()
        rotation = self._state.view.rotation
        if not rotation.court.turns:
            return
        known = rotation.standings
        moved = {
            player: station
            for player, station in rotation.court.stand().items()
            if player not in known or known[player].station != station
        }
        if moved:
            self._writer.set_stations(self._state.view.day.id, moved, self._state.clock())
            self._state.read_rotation()

    def attend(self, player: Player, presence: Presence) -> None:
        """Keep that a player is late, has left, or is here; a late comer starts at the median.

        The round of a player who goes is over; all that was rated in it is kept.
        """
        live = self._state.open_round
        goes = presence is not Presence.HERE and live is not None and live.player.id == player.id
        if goes and self._end_round is not None:
            self._end_round()
        if presence is not Presence.HERE and player == self._state.view.rotation.chosen:
            self._state.choose_next(None)
        court = self._state.view.rotation.court
        start = court.head_start.get(player.id, 0.0)
        if presence is Presence.HERE:
            balls = sum(turn.balls for turn in court.turns if turn.player == player.id)
            start = max(start, court.late_start() - balls)
        day, at_ms = self._state.view.day.id, self._state.clock()
        self._writer.set_presence(day, player.id, presence, start, at_ms)
        self.settle()
        words = {
            Presence.HERE: "is here",
            Presence.LATE: "comes later",
            Presence.LEFT: "has left for today",
        }
        after = self._who_is_next() if goes else ""
        self._state.tell(f"{player.shown_name} {words[presence]}{after}.")

    def bring_back(self, player: Player) -> None:
        """Let a player be here again whose round is gone on with after all."""
        if player.id in self._state.view.rotation.court.away:
            self.attend(player, Presence.HERE)

    def _who_is_next(self) -> str:
        """`: 7 balls kept. Tove next: Tab`, once the player at the feed has gone."""
        live, next_up = self._state.view.live, self._state.view.rotation.next_up
        balls = len(live.feeding.taken) if live is not None else 0
        kept = f": {many(balls, 'ball')} kept" if balls else ""
        if next_up is None:
            return f"{kept}. Nobody else is waiting"
        return f"{kept}. {self._next_words(next_up)}"

    def _next_words(self, player: Player) -> str:
        return f"{next_player_words(player.shown_name)}: {self._state.view.key(Act.NEXT_PLAYER)}"

    def arrive_if_begun(self, player: Player) -> None:
        """Let a new player start at the others' median, if these have hit already."""
        if any(turn.balls for turn in self._state.view.rotation.court.turns):
            self.attend(player, Presence.HERE)

    def swap(self, first: Player, second: Player) -> None:
        """Let two waiting players change places for this rotation. Raises CourtlogError."""
        court = self._state.view.rotation.court
        able = {player.id for player in court.queue} - {court.at_feed}
        if first.id == second.id or not {first.id, second.id} <= able:
            raise CourtlogError("Two players who wait for the feed can change places.")
        day, at_ms = self._state.view.day.id, self._state.clock()
        self._writer.swap_in_queue(day, court.number, first.id, second.id, at_ms)
        self.settle()
        self._state.tell(
            f"{first.shown_name} and {second.shown_name} have changed places for this rotation."
        )

    def solo_station(self, player: Player) -> str:
        """Where the player works alone, or did before the feed."""
        standing = self._state.view.rotation.standings.get(player.id)
        stations = self._state.view.rotation.court.stations
        for place in (standing.station, standing.before) if standing else ():
            if place in stations:
                return place
        return stations[-1] if stations else "alone"

    def keep_solo(self, player: Player, reps: int) -> None:
        """Keep repetitions done alone, as the player says."""
        station = self.solo_station(player)
        self._writer.add_solo(
            self._state.view.day.id, player.id, station, reps, self._state.clock()
        )
        self._state.tell(f"{player.shown_name}: {reps} at {station}, as the player says.")

    def set_plan(self, typed: Mapping[str, str]) -> None:
        """Change how the clinic is run. Raises CourtlogError for what cannot be."""
        book, clinic = self._state.book, self._state.view.clinic.id
        clinic_writer.set_plan(book, clinic, plan_with(clinic_lookups.plan(book, clinic), typed))
        self.settle()

    def check_ball_limit(self) -> None:
        """Say so, once, when the ball just taken was the last of the player's limit."""
        court = self._state.view.rotation.court
        feeder = court.at_feed
        if feeder not in self._state.view.rotation.limited or feeder in court.off:
            return
        self._state.read_rotation()
        reason = self._state.view.rotation.court.off.get(feeder or 0)
        if reason:
            after = self._state.view.rotation.waiting
            words = f"{self._next_words(after[0])}." if after else "Nobody else is waiting."
            self._state.tell(f"That was the last ball for today: {reason}. {words}")
            self._state.ring()

    def tick(self) -> None:
        """Move the clock on, and ring once when a rotation has ended or a rest is due."""
        state = self._state
        state.view = replace(state.view, now=state.clock())
        self._prompt_to_rest()
        limit = state.view.rotation.plan.turn_seconds
        turn = state.view.rotation.court.number
        if limit is None or state.view.paused or self._rung == turn:
            return
        if turn and state.view.turn_ms >= 1000 * limit:
            self._rung = turn
            after = state.view.rotation.waiting
            who = self._next_words(after[0]) if after else "Nobody else is waiting"
            state.tell(f"The rotation is up ({times.span_words(1000 * limit)}). {who}.")
            state.ring()

    def _prompt_to_rest(self) -> None:
        view = self._state.view
        begins = [turn.started_at for turn in view.rotation.court.turns if turn.started_at]
        minutes = view.rotation.plan.rest_minutes
        if begins and rest_due(min(begins), self._rested, view.now, minutes):
            self._rested = view.now
            self._state.tell(PROMPT)
            self._state.ring()
