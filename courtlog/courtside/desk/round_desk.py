"""The desk of the rounds: who hits next, on which drill and why, and the end of a round."""

from __future__ import annotations

from collections.abc import Sequence

from courtlog.coaching.game.drills import Drill, Ladder
from courtlog.coaching.game.people import Player
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.on_court.feed_order import FeedChoice
from courtlog.coaching.on_court.next_act import Act
from courtlog.coaching.on_court.round_to_start import NextRound
from courtlog.courtside.desk import next_round
from courtlog.courtside.desk.ball_desk import BallDesk
from courtlog.courtside.desk.court_state import CourtState
from courtlog.courtside.desk.idle_time import IdleTime
from courtlog.courtside.desk.next_round import Wish
from courtlog.courtside.desk.rotation_desk import RotationDesk
from courtlog.courtside.desk.step_sentences import FEED_ONE
from courtlog.logbook.reads.main_cue_lookups import named_main
from courtlog.logbook.writes.round_writer import RoundWriter


class RoundDesk:
    """Begins and ends rounds; the round before is finished first."""

    def __init__(
        self, state: CourtState, idle: IdleTime, rotation: RotationDesk, balls: BallDesk
    ) -> None:
        self._state = state
        self._idle = idle
        self._rotation = rotation
        self._balls = balls
        self._writer = RoundWriter(state.book)
        rotation.end_rounds_by(self.end_round)

    def start(
        self,
        player: Player | None = None,
        drill: tuple[Ladder, Drill] | None = None,
        purpose: Purpose | None = None,
        cues: Sequence[str] | None = None,
        feeds: FeedChoice | None = None,
    ) -> None:
        """Begin a round; what is not given stays as it is. Raises CourtlogError without a drill."""
        state = self._state
        wish = Wish(player, drill, purpose, tuple(cues) if cues else None, feeds)
        coming = next_round.next_round(state, wish)
        before = self._idle.subtract() + self._balls.finish_open_ball()
        on_court = state.open_round
        round_id = self._writer.start_round(
            coming.player.id,
            coming.used,
            coming.purpose,
            coming.cues,
            state.clock(),
            coming.feeds,
            coming.balls,
        )
        state.choose_next(None)
        if on_court is not None and on_court.empty and on_court.player.id == coming.player.id:
            self._balls.remember_choice(None if cues else on_court, round_id)
        why = ""
        if coming.purpose is not Purpose.PRACTICE:
            why = f" ({coming.reason}; {state.view.key(Act.CHANGE_PURPOSE)} changes it)"
        between = f" {FEED_ONE}" if coming.feeds.every > 1 else ""
        what = (
            f"{coming.used.drill.name}, {coming.purpose}{self._main_words(coming)}{why}.{between}"
        )
        came_from = state.view.rotation.origins.get(coming.player.id)
        known = f" Known of {came_from}." if came_from else ""
        self._rotation.resettle(f"{before}{coming.player.shown_name}: {what}{known}")

    def _main_words(self, coming: NextRound) -> str:
        """The main cue of a yardstick, whose first ball settles it; nothing of other rounds."""
        if coming.purpose is not Purpose.YARDSTICK:
            return ""
        book, clinic = self._state.book, self._state.view.clinic.id
        main = named_main(book, clinic, coming.player.id, coming.used.stroke)
        return f", main cue {coming.used.cue(main).name}" if main in coming.cues else ""

    def has_drill_for(self, player: Player) -> bool:
        """Whether a round of this player can start without choosing a drill."""
        return next_round.knows_a_drill(self._state, player)

    def change_rung(self, by: int) -> None:
        """Begin a round of the same player on the next rung up (1) or down (-1)."""
        live = self._state.view.live
        if live is None:
            self._state.turn_down("Choose a drill first.")
            return
        ladder = self._state.library.ladder(live.drill.stroke)
        drill = ladder.beside(live.drill.drill, by)
        if drill is None:
            end = "highest" if by > 0 else "lowest"
            self._state.turn_down(f"This is the {end} rung of the ladder.")
        else:
            self.start(drill=(ladder, drill))

    def end_round(self) -> None:
        """End the round on court; a ball half rated is taken first."""
        if self._state.open_round is None:
            self._state.turn_down("No round is open.")
            return
        idle = self._idle.subtract()
        self._balls.finish_open_ball()
        self._writer.end_round(self._state.clock())
        self._state.resume(f"{idle}Round over.")
        self._state.ring()

    def end_day(self) -> None:
        """Let the screen say that the day is over; the next round goes on with it."""
        self._state.ended_day = self._state.view.day.id
        self._state.tell("The day is over; everything is in the book.")

    def take_rung_call(self) -> None:
        """Let the player go one rung up the next time, as the rung call says."""
        live = self._state.view.live
        if live is None:
            return
        ladder = self._state.library.ladder(live.drill.stroke)
        drill = ladder.beside(live.drill.drill, 1)
        if drill is None:
            self._state.turn_down("This is the highest rung of the ladder.")
            return
        clinic = self._state.view.clinic.id
        self._writer.set_next_drill(clinic, live.player.id, f"{ladder.stroke}/{drill.key}")
        self._state.tell(f"{live.player.shown_name} goes up to {drill.name} next time.")
