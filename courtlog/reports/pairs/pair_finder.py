"""Finds the two balls of a cue: by the rule, or those that somebody chose."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from courtlog import times
from courtlog.coaching.answers.ball_history import PastBall
from courtlog.coaching.answers.pair_choice import (
    Candidate,
    FedKind,
    PairChoice,
    PairSide,
    choose_pair,
)
from courtlog.coaching.game.grades import LOOKS
from courtlog.coaching.game.people import Clinic
from courtlog.errors import CourtlogError
from courtlog.logbook.reads.film.round_balls import FilmPlace, RoundBall
from courtlog.names import folded_name
from courtlog.reports.facts.change_models import CueChange
from courtlog.reports.pairs import pair_words
from courtlog.reports.pairs.pair_models import CuePair, PairBall
from courtlog.reports.pairs.pair_words import WhyNone


@dataclass(frozen=True, slots=True)
class ByHand:
    """Balls that somebody chose: of each cue the clock, as typed."""

    then: Mapping[str, str]
    now: Mapping[str, str]

    def of(self, change: CueChange) -> tuple[str | None, str | None]:
        """The clocks for a cue, by its key or its name."""
        names = {folded_name(change.cue), folded_name(change.name)}
        then, now = (
            next((clock for cue, clock in side.items() if folded_name(cue) in names), None)
            for side in (self.then, self.now)
        )
        return then, now


class CueSides(NamedTuple):
    """A cue whose two yardsticks can be held against each other, and the balls of each."""

    change: CueChange
    title: str
    """The cue's name as the page shows it."""
    then: tuple[PastBall, ...]
    now: tuple[PastBall, ...]


@dataclass(frozen=True, slots=True)
class PairFinder:
    """Finds the two balls of a cue."""

    clinic: Clinic
    balls: Mapping[tuple[int, int], RoundBall]
    places: Mapping[int, FilmPlace]
    by_hand: ByHand
    every: Sequence[CueSides]
    """All cues that have two sides: two strokes may both have a cue of one name."""

    def pair(self, sides: CueSides) -> tuple[CuePair, PairChoice | WhyNone]:
        """The pair as the page shows it, and the choice, or why there is none."""
        change, title = sides.change, sides.title
        then, now = (
            self._candidates(change.cue, sides.then),
            self._candidates(change.cue, sides.now),
        )
        clocks = self._chosen_clocks(sides)
        ids = [
            None if clock is None else self._ball_at(clock, balls, change, day)
            for clock, balls, day in zip(clocks, (then, now), ("then", "now"), strict=True)
        ]
        choice = choose_pair(then, now, *ids)
        if choice is None:
            if any(ids):
                raise CourtlogError(
                    f"No ball on film goes with the one chosen for {change.name}.",
                    "Choose both: of the same drill and spot, both usual or both tough.",
                )
            why = self._why_none(sides, then, now)
            return no_pair(change, title, why.sentence), why
        return (
            CuePair(
                cue=title,
                then=self._ball(choice.then, change.cue, sides.then),
                now=self._ball(choice.now, change.cue, sides.now),
                caption=pair_words.caption(title, change.headline),
                sentence=change.said.change.sentence,
                rule=pair_words.rule(choice),
                missing=None,
            ),
            choice,
        )

    def _candidates(self, cue: str, side: Sequence[PastBall]) -> list[Candidate]:
        """The balls of one day on which the cue was seen, in their order."""
        found = []
        for past in side:
            ball, grade = self.balls.get((past.round_id, past.number)), past.grades[cue]
            if ball is not None and grade is not None:
                kind = FedKind(
                    past.kind.rung, past.kind.drill, ball.spot, ball.spot_words, ball.tough
                )
                found.append(Candidate(ball.ball_id, kind, grade, ball.ball_id in self.places))
        return found

    def _chosen_clocks(self, sides: CueSides) -> tuple[str | None, ...]:
        """The clocks for this cue: where another stroke has it too, those of this stroke's balls.

        A clock of neither stays, so that it is refused.
        """
        cue = sides.change.cue
        alike = [one for one in self.every if one.change.cue == cue]
        clocks = []
        for index, clock in enumerate(self.by_hand.of(sides.change)):
            fitting = [
                one
                for one in alike
                if clock is not None
                and _rated_at(
                    clock, self._clocks(self._candidates(cue, (one.then, one.now)[index]))
                )
            ]
            clocks.append(clock if not fitting or sides in fitting else None)
        return tuple(clocks)

    def _clocks(self, side: Sequence[Candidate]) -> dict[int, str]:
        """When each ball was rated, to the tenth; by its id."""
        by_id = {ball.ball_id: ball for ball in self.balls.values()}
        return {
            ball.ball_id: times.tenth_words(at, self.clinic.place)
            for ball in side
            if (at := by_id[ball.ball_id].first_key_at) is not None
        }

    def _ball_at(self, clock: str, side: Sequence[Candidate], change: CueChange, day: str) -> int:
        """The ball that was rated at that time."""
        clocks = self._clocks(side)
        fits = _rated_at(clock, clocks)
        what = f"{change.name} {day}"
        if not fits:
            near = ", ".join(told[:8] for ball, told in clocks.items() if ball in self.places)
            raise CourtlogError(
                f"No ball that counts for {what} was rated at {clock}.",
                f"Those on film: {near}." if near else "None of them is on film.",
            )
        if len(fits) > 1:
            told = " and ".join(clocks[ball] for ball in fits)
            raise CourtlogError(f"Two balls were rated then: {told}.", "Write the tenth too.")
        if fits[0] not in self.places:
            raise CourtlogError(
                f"No film shows the ball of {clock}.", "`courtlog film` says when each film runs."
            )
        return fits[0]

    def _ball(self, side: PairSide, cue: str, balls: Sequence[PastBall]) -> PairBall:
        (key,) = (key for key, ball in self.balls.items() if ball.ball_id == side.ball.ball_id)
        ball = self.balls[key]
        place = self.places[ball.ball_id]
        assert ball.first_key_at is not None
        (past,) = (one for one in balls if (one.round_id, one.number) == key)
        return PairBall(
            day=pair_words.day(past.day),
            what=pair_words.what(ball),
            grade=LOOKS[past.grades[cue]].word,
            film=place.film.name,
            clock=self._clock(ball.first_key_at),
            hit_moved_ms=place.moved_ms,
            film_moved_ms=place.film.hit_ms,
            chosen_by_hand=side.by_hand,
            clip=None,
            why_no_clip=None,
        )

    def _clock(self, first_key_at: int) -> str:
        """When a ball was rated, to the second; to the tenth where that would mean two balls."""
        second = times.clock_words(first_key_at, self.clinic.place)
        alike = [
            at
            for ball in self.balls.values()
            if (at := ball.first_key_at) is not None
            and abs(at - first_key_at) < 1000
            and times.clock_words(at, self.clinic.place) == second
        ]
        return second if len(alike) < 2 else times.tenth_words(first_key_at, self.clinic.place)

    def _why_none(
        self, sides: CueSides, then: Sequence[Candidate], now: Sequence[Candidate]
    ) -> WhyNone:
        """Why two yardsticks have no pair: a day without film, from a sheet, or no like balls."""
        for past, side in ((sides.then, then), (sides.now, now)):
            day: date = past[0].day
            keys = [self.balls.get((ball.round_id, ball.number)) for ball in past]
            if all(ball is None or ball.first_key_at is None for ball in keys):
                return pair_words.from_a_sheet(day)
            if not any(ball.on_film for ball in side):
                return pair_words.not_on_film(day)
        if not {ball.kind for ball in then} & {ball.kind for ball in now}:
            return pair_words.no_like_balls()
        return pair_words.middle_not_on_film()


def _rated_at(typed: str, clocks: Mapping[int, str]) -> list[int]:
    """The balls that were rated at that second, or tenth."""
    wanted = typed.strip().replace(",", ".")
    wanted = f"0{wanted}" if wanted[1:2] == ":" else wanted
    return [ball for ball, told in clocks.items() if wanted in (told, told[:8])]


def no_pair(change: CueChange, title: str, missing: str) -> CuePair:
    """A cue without a pair, and the sentence why."""
    return CuePair(
        cue=title,
        then=None,
        now=None,
        caption=pair_words.caption(title, change.headline),
        sentence=change.said.change.sentence,
        rule="",
        missing=missing,
    )
