"""A cue round by round: what the strip of a cue is drawn of."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from courtlog.coaching.game.rounds import Purpose

if TYPE_CHECKING:
    from courtlog.coaching.answers.ball_history import History


@dataclass(frozen=True, slots=True)
class CueRound:
    """One round, and how many balls of it were made and seen on a cue."""

    on: date
    """The day of the round."""
    purpose: Purpose
    """What the round was for."""
    made: int
    """Balls made."""
    seen: int
    """Balls seen; none where the cue was not watched in this round."""
    clinic: int = 0
    """The id of its clinic, where rounds of several stand side by side."""


def rounds_of_cue(history: History, cue: str) -> tuple[CueRound, ...]:
    """Every round of the history, also those in which the cue was not watched."""
    rounds = []
    for part in history.rounds:
        counts, first = part.counts(cue), part.balls[0]
        rounds.append(CueRound(first.day, first.purpose, counts.made, counts.seen))
    return tuple(rounds)
