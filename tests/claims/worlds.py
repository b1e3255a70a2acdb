"""The worlds in which clinics are played: what is true in each, and what only looks like change."""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, log

from tests.samples.harbour_players import PLAYERS
from tests.samples.players import COACHED_LIFT

TOUGH_COST = PLAYERS[0].tough
"""Log-odds that a tough ball takes from a sample player."""

LEADER = "turn"
"""The cue that carries the others along where one does."""


@dataclass(frozen=True, slots=True, kw_only=True)
class World:
    """What is true of every ball of a clinic. All effects are log-odds of made unless said.

    `drills_differ`: drills are as hard as in the samples; else all alike. `one_drill`: every round
    is played on the yardstick's drill. `coached`: lent by the coach's word while it is spoken.
    `repeats`: chance that a ball goes as the one before it would have. `cold`: taken from the first
    ball of a day, less and less until WARM_AFTER balls. `looser`: given to every rating by an eye
    that looks less closely each day. `shared`: spread of a ball's own ease, the same for all cues.
    `leads`: what the other cues gain on balls where LEADER was made, over balls where it was not.
    `worst_of_five`: the coach picks the three cues of five that looked worst. `excused`: from day 2
    on, chance that a ball with a missed cue is marked tough afterwards. `change`: true share on the
    yardstick's drill on the first and on the last day; without it each cue has that of some sample
    player all week. `as_planned`: holds are on the yardstick's drill, mornings and evenings.
    `main_named`: the first cue picked is the main one.
    """

    name: str
    what: str
    drills_differ: bool = True
    one_drill: bool = False
    coached: float = COACHED_LIFT
    tough_cost: float = TOUGH_COST
    repeats: float = 0.0
    cold: float = 0.0
    looser: float = 0.0
    shared: float = 0.0
    leads: float = 0.0
    worst_of_five: bool = False
    excused: float = 0.0
    change: tuple[float, float] | None = None
    yardstick_balls: int = 20
    as_planned: bool = False
    main_named: bool = True

    def level(self, usual: float, day: int, days: int) -> float:
        """A cue's log-odds on the yardstick's drill on a day; `usual` where nothing changes."""
        if self.change is None:
            return usual
        first, last = map(log_odds, self.change)
        return first + (last - first) * (day - 1) / (days - 1)


def log_odds(share: float) -> float:
    """Log-odds of a share."""
    return log(share / (1 - share))


def share_of(odds: float) -> float:
    """The share of these log-odds."""
    return 1 / (1 + exp(-odds))


_FROM, _TO = 0.35, 0.70

WORLDS = {
    world.name: world
    for world in (
        World(
            name="alike", what="nothing changes, all drills are equally hard", drills_differ=False
        ),
        World(name="samples", what="nothing changes, drills differ as in the samples"),
        World(name="one-drill", what="nothing changes, one drill all week", one_drill=True),
        World(name="streaks", what="as samples, 3 balls of 10 go as the one before", repeats=0.3),
        World(name="warm-up", what="as samples, each day begins cold", cold=0.8),
        World(name="loose-eye", what="as samples, the eye looser by 0.15 a day", looser=0.15),
        World(name="worst-of-five", what="as samples, the worst of five cues", worst_of_five=True),
        World(
            name="excused",
            what="as samples, from day 2 on 4 misses of 10 are marked tough afterwards",
            excused=0.4,
        ),
        World(name="easy-ball", what="as samples, a ball is easy or hard for all cues", shared=1.0),
        World(name="leads", what="as samples, the turn carries the others along", leads=1.0),
        World(
            name="leads-easy-ball",
            what="as easy-ball, the turn carries the others along",
            shared=1.0,
            leads=1.0,
        ),
        World(name="unnamed", what="as samples, no main cue named", main_named=False),
        World(name="planned", what="as samples, holds as the plan offers them", as_planned=True),
        World(
            name="planned-cold",
            what="as planned, each day begins cold",
            as_planned=True,
            cold=0.8,
        ),
        World(
            name="half",
            what="nothing changes, every cue made on half of the usual balls, drills alike",
            drills_differ=False,
            coached=0.0,
            change=(0.5, 0.5),
        ),
        World(name="change-20", what="a true change, 20 balls a yardstick", change=(_FROM, _TO)),
        World(
            name="change-40",
            what="a true change, 40 balls a yardstick",
            change=(_FROM, _TO),
            yardstick_balls=40,
        ),
        World(
            name="change-planned",
            what="a true change, 20 balls a yardstick, holds as the plan offers them",
            change=(_FROM, _TO),
            as_planned=True,
        ),
    )
}
"""By name. Nothing changes but in those that say so."""
