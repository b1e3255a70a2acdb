"""The desk for putting right what is in the book already: any ball, any round."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from courtlog.coaching.game.drills import Drill, Ladder, UsedDrill
from courtlog.coaching.game.people import Player
from courtlog.coaching.game.rounds import Ball, Purpose
from courtlog.coaching.on_court.live_round import LiveRound
from courtlog.courtside.desk.court_state import CourtState
from courtlog.courtside.desk.next_round import what_next
from courtlog.courtside.desk.rotation_desk import RotationDesk
from courtlog.courtside.desk.step_sentences import ball_words, whose
from courtlog.errors import BookError, CourtlogError
from courtlog.logbook.reads import lookups, past_rounds
from courtlog.logbook.reads.past_rounds import PastRound
from courtlog.logbook.writes import (
    amendments,
    ball_repairs,
    past_steps,
    round_repairs,
    undo_amendment,
)
from courtlog.logbook.writes.past_steps import PastStep
from courtlog.plain_text import many, plain


class AmendDesk:
    """Each entry writes first and returns what it did, in words; the court is read again.

    Raises CourtlogError for what cannot be done.
    """

    def __init__(self, state: CourtState, rotation: RotationDesk) -> None:
        self.state = state
        self._rotation = rotation

    def rounds(self) -> list[tuple[PastRound, str]]:
        """The clinic's rounds with balls in words that differ, the latest first."""
        view = self.state.view
        names = {player.id: player.shown_name for player in view.roster}
        rounds = [
            (past, past.words(names.get(past.player_id, "?"), view.clinic.place))
            for past in past_rounds.past_rounds(self.state.book, view.clinic.id)
        ]
        often = Counter(words for _, words in rounds)
        return [
            (past, f"{words} · {past.place_words}" if often[words] > 1 else words)
            for past, words in rounds
        ]

    def joinable(self, live: LiveRound) -> list[tuple[PastRound, str]]:
        """The rounds that this one can be joined with."""
        ids = past_rounds.joinable_rounds(self.state.book, live.id)
        return [(past, words) for past, words in self.rounds() if past.id in ids]

    def round(self, round_id: int) -> LiveRound:
        """A round as it stands."""
        return lookups.live_round(self.state.book, round_id)

    @property
    def has_amendments(self) -> bool:
        """Whether anything was ever put right in this book."""
        return past_steps.any_amendment(self.state.book)

    def amendments(self) -> list[PastStep]:
        """What was put right in this clinic, the latest first."""
        view = self.state.view
        return past_steps.past_steps(self.state.book, view.clinic, amendments_only=True)[::-1]

    def amend(self, live: LiveRound, number: int, ball: Ball) -> str:
        """Change the ball of that number to this one."""
        ball_repairs.amend_ball(self.state.book, live.id, number, ball, *self._by)
        return self._done(f"Ball {number} of {whose(live)} round: {ball_words(live, ball)}.")

    def write_ball(self, live: LiveRound, number: int, token: str) -> str:
        """Change the ball of that number to one written as a sheet writes it."""
        try:
            ball = Ball.from_token(token.strip(), len(live.cue_keys))
        except ValueError as error:
            raise CourtlogError(f"{error}.".capitalize()) from None
        return self.amend(live, number, ball)

    def strike(self, live: LiveRound, number: int) -> str:
        """Strike out a ball that should not count."""
        ball_repairs.strike_ball(self.state.book, live.id, number, *self._by)
        return self._done(f"Ball {number} is struck out; Backspace puts it back.")

    def give(self, live: LiveRound, numbers: Sequence[int], player: Player) -> str:
        """Move these balls to another player's round."""
        round_repairs.move_balls(self.state.book, live.id, numbers, player.id, *self._by)
        return self._done(f"{many(len(numbers), 'ball')} moved to a round of {player.shown_name}.")

    def give_last(self, player: Player, count: int) -> None:
        """Move the last `count` balls of the round on court to another player's round."""
        live = self.state.view.live
        if live is None:
            raise CourtlogError("There is no round on court to move balls from.")
        taken = len(live.feeding.taken)
        numbers = range(taken - count + 1, taken + 1)
        round_repairs.move_balls(self.state.book, live.id, numbers, player.id, *self._by)
        moved = f"{many(count, 'ball')} moved to {player.shown_name}"
        if live.ended_at is None:
            self._done(f"{moved}, who is on court now.")
        else:
            self._done(f"{moved}, whose round is over.")
            act = what_next(self.state)
            if act:
                self.state.tell(f"{self.state.view.message} {act.to_do}.")

    def split(self, live: LiveRound, number: int) -> str:
        """Split the round: a new one begins with that ball."""
        round_repairs.split_round(self.state.book, live.id, number, *self._by)
        return self._done(f"A round of its own begins with what was ball {number}.")

    def join(self, live: LiveRound, other: PastRound) -> str:
        """Join two rounds into one."""
        oldest_first = [past.id for past, _ in reversed(self.rounds())]
        earlier, later = sorted((live.id, other.id), key=oldest_first.index)
        round_repairs.join_rounds(self.state.book, earlier, later, *self._by)
        return self._done(f"The two rounds of {live.player.shown_name} are one.")

    def change_drill(self, live: LiveRound, chosen: tuple[Ladder, Drill]) -> str:
        """Change the drill of the round."""
        round_repairs.change_drill(self.state.book, live.id, UsedDrill.of(*chosen), *self._by)
        return self._done(f"The round was: {plain(chosen[1].name)}.")

    def change_purpose(self, live: LiveRound, purpose: Purpose) -> str:
        """Change what the round was for."""
        round_repairs.change_purpose(self.state.book, live.id, purpose, *self._by)
        return self._done(f"The round was for {purpose}.")

    def take_back(self, step: PastStep) -> str:
        """Take back something that was put right.

        A yardstick from home that was taken back goes into the book again. Its taking back is no
        step of its own that could be taken back instead.
        """
        if step.kind == past_steps.HOME and step.is_undone:
            past_steps.put_forward_step(self.state.book, step.number, *self._by)
            return self._done(f"Step {step.number} is in the book again.")
        past_steps.take_back_step(self.state.book, step.number, *self._by)
        return self._done(f"Step {step.number} is taken back.")

    def take_back_last(self, live: LiveRound) -> str:
        """Take back what was put right last. Raises BookError if that was on another round."""
        last = amendments.last_amendment(self.state.book.db)
        if last is None or live.id not in last[1]:
            raise BookError("What was put right last is not on this round.")
        undo_amendment.take_back_amendment(self.state.book, last[0], *self._by)
        return self._done("Taken back.")

    @property
    def _by(self) -> tuple[str, int]:
        """Who puts it right, and when."""
        return self.state.amender, self.state.clock()

    def _done(self, message: str) -> str:
        self._rotation.resettle(message)
        return message
