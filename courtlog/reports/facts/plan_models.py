"""The plan of a day as it is printed and given as JSON; models only."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, kw_only=True)
class PlanLine:
    """One planned round; rung and top are None for a drill the library no longer has."""

    place: int
    player: str
    drill: str
    name: str
    rung: int | None
    top: int | None
    purpose: str
    balls: int
    reason: str


@dataclass(frozen=True, kw_only=True)
class PlayerReason:
    """Why a player's rounds are as they are; practice with the rung call it starts from."""

    player: str
    rounds: tuple[str, ...]


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
class PlanFacts:
    """The plan of one date, kept or proposed."""

    clinic: str
    date: date
    number: int
    planned_days: int | None
    kept: bool
    order: tuple[str, ...]
    blocks: tuple[tuple[PlanLine, ...], ...]
    effort: EffortFacts
    hours: float | None
    reasons: tuple[PlayerReason, ...]
    limits: tuple[LimitFacts, ...]
    held_back: tuple[HeldBack, ...]
    no_drill: tuple[str, ...]
    proposed_order: tuple[str, ...]
    differences: tuple[DifferenceFacts, ...]
