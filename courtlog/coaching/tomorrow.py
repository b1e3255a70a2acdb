"""What comes tomorrow for a player, and the morning's order for the group; each with its reason."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from courtlog.coaching.history import History
from courtlog.coaching.mastering import RungCall, rung_call
from courtlog.coaching.proposing import Proposal, propose
from courtlog.coaching.rounds import Purpose


@dataclass(frozen=True, slots=True)
class Tomorrow:
    """The first round of the next day, and the rung call that practice then starts from.

    `drill` is where practice was left; the proposal may name another for its round.
    """

    proposal: Proposal
    drill: str
    call: RungCall | None


def tomorrow(
    history: History, today: date, cues: Sequence[str], next_is_last: bool
) -> Tomorrow | None:
    """Tomorrow on a stroke; None for a player without balls."""
    if not history.balls:
        return None
    practice = history.of(Purpose.PRACTICE)
    last = (practice.balls or history.balls)[-1]
    return Tomorrow(
        propose(history, today + timedelta(days=1), next_is_last),
        last.kind.drill,
        rung_call(practice if practice.balls else history, last.kind.drill, cues),
    )


def morning_order(balls: dict[str, int]) -> list[str]:
    """Names by fewest balls so far, else as given: who had least comes first."""
    return sorted(balls, key=lambda name: balls[name])
