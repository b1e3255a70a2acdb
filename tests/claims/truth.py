"""Whether a claim is true of the clinic it was made of: the world knows."""

from __future__ import annotations

import numpy as np

from courtlog.coaching.game.rounds import Purpose
from courtlog.measures.learning.mastery import MasteryTest
from tests.claims.claims import Claim
from tests.claims.clinics import DAYS, DrawnPlayer
from tests.claims.worlds import LEADER, World

NOT_THERE = MasteryTest().low
"""The share at which a player is not to be moved up."""


def holds(claim: Claim, player: DrawnPlayer, world: World) -> bool:
    """Whether what was claimed is so.

    A direction is that of the skill from day to day: what coaching, warm-up, streaks or the eye add
    is not skill. Others go with a cue where it leads; a ball that is easy for all of them ties all.
    """
    match claim.kind:
        case "tough" | "review tough":
            return world.tough_cost > 0 and not world.excused and claim.direction < 0
        case "ready":
            return _weakest(player, claim) > NOT_THERE
        case "together":
            return world.leads > 0 and claim.said.cue == LEADER
        case _:
            return claim.direction == _change(world, claim.said.day)


def _change(world: World, day: int) -> int:
    """The direction of the skill from the first day to this one; that of a night is the same."""
    first, now = (world.level(0.0, on, len(DAYS)) for on in (1, day))
    return (now > first) - (now < first)


def _weakest(player: DrawnPlayer, claim: Claim) -> float:
    """The true share of the cue that holds the rung back, over the practice balls on it so far."""
    so_far = [played for played in player.rounds if played.id <= claim.said.round_id]
    practice = [played for played in so_far if played.purpose is Purpose.PRACTICE]
    on_rung = [played for played in practice if played.drill == practice[-1].drill]
    watched = {cue for played in on_rung for cue in played.cues}
    return min(
        float(np.concatenate([p.of_cue(cue) for p in on_rung if cue in p.cues]).mean())
        for cue in watched
    )
