"""The plan of a day as it is printed and given as JSON; models only."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from courtlog.coaching.voice.statement import Statement


@dataclass(frozen=True, kw_only=True)
class PlanLine:
    """One planned round."""

    place: int
    """The place in the plan, from 1."""
    player: str
    """The name as shown."""
    drill: str
    """The drill's full name."""
    name: str
    """The drill's name as shown."""
    stroke: str
    """The stroke's title."""
    rung: int | None
    """Its rung; None for a drill the library no longer has."""
    top: int | None
    """The highest rung of its ladder; None likewise."""
    purpose: str
    """Why the round is played."""
    balls: int
    """Balls to feed."""
    reason: str
    """Why this round, in words."""


@dataclass(frozen=True, kw_only=True)
class PlayerReason:
    """Why a player's rounds are as they are; practice with the rung call it starts from."""

    player: str
    rounds: tuple[str, ...]
    """In the figures' words."""
    said: tuple[Statement, ...]
    """The same in plain sentences, with the figures behind them."""


@dataclass(frozen=True, kw_only=True)
class LimitFacts:
    """A player's ball limit of the day, balls planned, and rounds left out because of it."""

    player: str
    limit: int
    balls: int
    left_out: int


@dataclass(frozen=True, kw_only=True)
class EffortFacts:
    """Balls, baskets and minutes; the paces are common practice, no source."""

    balls: int
    from_basket: int
    basket: int
    baskets: int
    pick_ups: int
    minutes_quick: int
    minutes_slow: int


@dataclass(frozen=True, kw_only=True)
class DifferenceFacts:
    """Rounds of a player that only the proposal has, and those that only the kept plan has."""

    player: str
    proposed: tuple[PlanLine, ...]
    kept: tuple[PlanLine, ...]


@dataclass(frozen=True, kw_only=True)
class HeldBack:
    """A player whom a red keeps off the feed, why, and whether a kept plan has rounds for them."""

    player: str
    reason: str
    planned: bool


@dataclass(frozen=True, kw_only=True)
class AskFirst:
    """A player to ask about the arm before any ball, why, and whether a kept plan has rounds."""

    player: str
    reason: str
    planned: bool


@dataclass(frozen=True, kw_only=True)
class LookFor:
    """The one thing to look for in a player's practice, as the page of their last day says it."""

    player: str
    cue: str


@dataclass(frozen=True, kw_only=True)
class RiseFacts:
    """A true rise, as made balls of so many, and the chance that it is called clear."""

    before: int
    after: int
    out_of: int
    chance: float


@dataclass(frozen=True, kw_only=True)
class ReachLine:
    """Balls of the first yardstick and of the last day, `of_hold` of these a hold's.

    `advised` is True for balls that are not planned but would tell more.
    """

    first: int
    last: int
    of_hold: int
    advised: bool
    rises: tuple[RiseFacts, ...]


@dataclass(frozen=True, kw_only=True)
class ReachFacts:
    """What the planned yardsticks can tell of a main cue; `again` once the first was played.

    `too_few` are players with under `least` seen in the first one.
    """

    again: bool
    lines: tuple[ReachLine, ...]
    least: int
    too_few: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class PlanCourt:
    """A court of the day and its players, in the order of play."""

    court: str
    players: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class PlanFacts:
    """The plan of one date, kept or proposed."""

    clinic: str
    """The clinic's name."""
    date: date
    """The date planned."""
    number: int
    """The day's number from 1."""
    planned_days: int | None
    """How many days the clinic has; None where nobody said."""
    kept: bool
    """Whether this plan is kept; else it is the proposal."""
    order: tuple[str, ...]
    """Players in the order of play; those to ask about their arm first come last in a proposal."""
    courts: tuple[PlanCourt, ...]
    """Who is on which court; empty where the clinic is on one."""
    courts_kept: bool
    """Whether the coach kept this dealing; else it is the proposal."""
    court_moves: tuple[str, ...]
    """A sentence for each player whom the proposal moves to another court."""
    blocks: tuple[tuple[PlanLine, ...], ...]
    """Rounds in blocks in which everyone comes once."""
    effort: EffortFacts
    """Balls, baskets and minutes."""
    hours: float | None
    """The length of the day that was asked about."""
    reach: ReachFacts | None
    """What the planned yardsticks will be able to tell; None without one to compare."""
    reasons: tuple[PlayerReason, ...]
    """Why each player's rounds are as they are."""
    limits: tuple[LimitFacts, ...]
    """Players at their ball limit."""
    held_back: tuple[HeldBack, ...]
    """Players whom a red keeps off the feed."""
    ask_first: tuple[AskFirst, ...]
    """Players whose amber stands: nothing is proposed for them before they are asked."""
    no_evening: tuple[str, ...]
    """Players whose morning hold has no uncoached evening to be held against."""
    look_for: tuple[LookFor, ...]
    """One thing a player, in the order of play."""
    no_drill: tuple[str, ...]
    """Players without a drill to play."""
    proposed_order: tuple[str, ...]
    """The order of the proposal."""
    differences: tuple[DifferenceFacts, ...]
    """How the proposal differs from the kept plan."""

    @property
    def after_the_last(self) -> bool:
        """Whether the clinic's planned days are over by then."""
        return self.planned_days is not None and self.number > self.planned_days
