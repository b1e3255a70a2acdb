"""Balls as coaching takes them: straight from a drawn clinic, or through a book."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, fields
from datetime import date
from typing import Any, TypeVar

from courtlog.coaching.answers.ball_history import BallKind, History, PastBall
from courtlog.coaching.game.clinic_record import (
    BallRecord,
    ClinicRecord,
    DayRecord,
    RosterEntry,
    RoundRecord,
)
from courtlog.coaching.game.counts import Counts
from courtlog.coaching.game.rounds import Purpose
from tests.claims.clinics import DAYS, DrawnPlayer, DrawnRound

STROKE = "forehand"
ZONE = "Europe/Lisbon"

T = TypeVar("T")


@dataclass(frozen=True, slots=True, eq=False)
class CutOnce(History):
    """The same balls; what was cut or counted once is kept."""

    _kept: dict[object, Any] = field(default_factory=dict, init=False, repr=False)

    def on(self, day: date) -> History:
        return self._once(day, lambda: History.on(self, day))

    def of(self, *purposes: Purpose) -> History:
        return self._once(purposes, lambda: History.of(self, *purposes))

    def with_cue(self, cue: str) -> History:
        return self._once(("with", cue), lambda: History.with_cue(self, cue))

    def counts(self, cue: str) -> Counts:
        return self._once(("counts", cue), lambda: History.counts(self, cue))

    def by_kind(self, cue: str) -> dict[BallKind, tuple[int, int]]:
        return self._once(("kinds", cue), lambda: History.by_kind(self, cue))

    def _once(self, what: object, make: Callable[[], T]) -> T:
        if what not in self._kept:
            self._kept[what] = make()
        kept: T = self._kept[what]
        return kept

    def first(self, balls: int) -> History:
        """The history after that many balls; its earlier days are cut once for all of them."""
        so_far = History(
            self.stroke, self.balls[:balls], self.doubts, self.main, self.planned_days
        ).with_ties()
        found = CutOnce(**{name.name: getattr(so_far, name.name) for name in fields(so_far)})
        today = found.balls[-1].day
        found._kept.update({day: self.on(day) for day in self.days if day < today})
        return found


def past_balls(played: DrawnRound) -> list[PastBall]:
    """The balls of a round."""
    card = played.drill
    kinds = [BallKind(card.name, card.drill.rung, card.drill.feed, t) for t in (False, True)]
    return [
        PastBall(
            played.date,
            played.id,
            played.purpose,
            kinds[ball.tough],
            dict(zip(played.cues, ball.grades, strict=True)),
        )
        for ball in played.balls
    ]


def history(rounds: Sequence[DrawnRound], main: str | None = None) -> CutOnce:
    """The history after these rounds, with the main cue that was named."""
    balls = tuple(ball for played in rounds for ball in past_balls(played))
    return CutOnce(STROKE, balls, main=main, planned_days=len(DAYS))


def record(name: str, players: Sequence[DrawnPlayer]) -> ClinicRecord:
    """The clinic as a book takes it in; on each day one player after the other."""
    days = tuple(
        DayRecord(
            on,
            "1",
            "Ines",
            tuple(
                RoundRecord(
                    player=name_of(player),
                    drill=played.drill.name,
                    purpose=played.purpose,
                    cues=played.cues,
                    balls=tuple(map(BallRecord, played.balls)),
                )
                for player in players
                for played in player.rounds
                if played.date == on
            ),
        )
        for on in DAYS
    )
    roster = tuple(RosterEntry(name_of(player)) for player in players)
    return ClinicRecord(name, ZONE, roster, days, len(days))


def name_of(player: DrawnPlayer) -> str:
    """The name in the book."""
    return f"Player {player.number + 1}"
