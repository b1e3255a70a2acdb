"""The desk's part for putting right what is in the book already: any ball, any round."""

from __future__ import annotations

from collections.abc import Sequence

from courtlog.coaching.game.drills import Drill, Ladder, UsedDrill
from courtlog.coaching.game.people import Player
from courtlog.coaching.game.rounds import Ball, Purpose
from courtlog.coaching.on_court.live_round import LiveRound
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.desk.step_sentences import ball_words, whose
from courtlog.errors import BookError, CourtlogError
from courtlog.logbook.reads import lookups, past_rounds
from courtlog.logbook.reads.past_rounds import PastRound
from courtlog.logbook.writes import amendments, past_steps, repairs
from courtlog.logbook.writes.past_steps import PastStep
from courtlog.plain_text import many, plain


class AmendDesk:
    """Each entry is written first and says what it did; the court is read from the book again.

    Raises CourtlogError for what cannot be done.
    """

    def __init__(self, desk: Desk) -> None:
        self.desk = desk

    def rounds(self) -> list[tuple[PastRound, str]]:
        """The clinic's rounds with balls in words, the latest first."""
        names = {player.id: player.shown_name for player in self.desk.view.roster}
        found = past_rounds.past_rounds(self.desk.book, self.desk.view.clinic.id)
        return [(past, past.words(names.get(past.player_id, "?"))) for past in found]

    def like(self, live: LiveRound) -> list[tuple[PastRound, str]]:
        """The rounds that this one can be joined with."""
        ids = past_rounds.like_rounds(self.desk.book, live.id)
        return [(past, words) for past, words in self.rounds() if past.id in ids]

    def round(self, round_id: int) -> LiveRound:
        """A round as it stands."""
        return lookups.live_round(self.desk.book, round_id)

    @property
    def has_amendments(self) -> bool:
        """Whether anything was ever put right in this book."""
        return past_steps.any_amendment(self.desk.book)

    def amendments(self) -> list[PastStep]:
        """What was put right in this clinic, the latest first."""
        view = self.desk.view
        return past_steps.past_steps(self.desk.book, view.clinic, amendments_only=True)[::-1]

    def amend(self, live: LiveRound, number: int, ball: Ball) -> str:
        """The ball of that number was so."""
        repairs.amend_ball(self.desk.book, live.id, number, ball, *self._by)
        return self._done(f"Ball {number} of {whose(live)} round: {ball_words(live, ball)}.")

    def write_ball(self, live: LiveRound, number: int, token: str) -> str:
        """The ball of that number was so, as a sheet writes it."""
        try:
            ball = Ball.from_token(token.strip(), len(live.cue_keys))
        except ValueError as error:
            raise CourtlogError(f"{error}.".capitalize()) from None
        return self.amend(live, number, ball)

    def strike(self, live: LiveRound, number: int) -> str:
        """The ball of that number was none."""
        repairs.strike(self.desk.book, live.id, number, *self._by)
        return self._done(f"Ball {number} is struck out; Backspace puts it back.")

    def give(self, live: LiveRound, numbers: Sequence[int], player: Player) -> str:
        """These balls were another player's."""
        repairs.move_balls(self.desk.book, live.id, numbers, player.id, *self._by)
        return self._done(f"{many(len(numbers), 'ball')} moved to a round of {player.shown_name}.")

    def split(self, live: LiveRound, number: int) -> str:
        """A new round begins with that ball."""
        repairs.split(self.desk.book, live.id, number, *self._by)
        return self._done(f"A round of its own begins with what was ball {number}.")

    def join(self, live: LiveRound, other: PastRound) -> str:
        """Two rounds were one."""
        order = [row for row, _ in self._places(live.id, other.id)]
        repairs.join(self.desk.book, order[0], order[1], *self._by)
        return self._done(f"The two rounds of {live.player.shown_name} are one.")

    def drill(self, live: LiveRound, chosen: tuple[Ladder, Drill]) -> str:
        """The round was another drill."""
        repairs.change_drill(self.desk.book, live.id, UsedDrill.of(*chosen), *self._by)
        return self._done(f"The round was: {plain(chosen[1].name)}.")

    def purpose(self, live: LiveRound, purpose: Purpose) -> str:
        """The round was for something else."""
        repairs.change_purpose(self.desk.book, live.id, purpose, *self._by)
        return self._done(f"The round was for {purpose}.")

    def take_back(self, step: PastStep) -> str:
        """Take back something that was put right."""
        past_steps.take_back(self.desk.book, step.number, *self._by)
        return self._done(f"Step {step.number} is taken back.")

    def take_back_last(self, live: LiveRound) -> str:
        """Take back what was put right last, if it was on this round."""
        last = amendments.last_amendment(self.desk.book.db)
        if last is None or live.id not in last[1]:
            raise BookError("What was put right last is not on this round.")
        amendments.take_back(self.desk.book, last[0], *self._by)
        return self._done("Taken back.")

    @property
    def _by(self) -> tuple[str, int]:
        return self.desk.who, self.desk.clock()

    def _places(self, *rounds: int) -> list[tuple[int, int]]:
        order = [past.id for past, _ in reversed(self.rounds())]
        return sorted(((row, order.index(row)) for row in rounds), key=lambda one: one[1])

    def _done(self, said: str) -> str:
        self.desk.resettle(said)
        return said
