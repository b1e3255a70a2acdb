"""What the season says, as values; JSON is made of them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonLine:
    """How often a cue was made in rounds of one purpose."""

    clinic_id: int
    clinic: str
    player_id: int
    player: str
    stroke: str
    cue: str
    purpose: str
    missed: int
    near: int
    made: int
    not_seen: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """A cue's latest yardstick against its first one, on like balls."""

    clinic_id: int
    player_id: int
    player: str
    stroke: str
    cue: str
    first_on: date
    latest_on: date
    made_first: int
    seen_first: int
    made_latest: int
    seen_latest: int
    value: float | None
    """The difference of the shares on the same mix of balls; None where no kind is shared."""
    low: float | None
    high: float | None
    verdict: str
    """In the words of every page of courtlog."""
    direction: int
    """1 up, -1 down, 0 where the balls cannot tell."""
    is_clear: bool
    """Whether the comparison was chosen beforehand and its interval leaves no change out."""
    said: str
    """The sentence."""
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DrillChange:
    """How many of those who practised a drill went up, and of those who did not."""

    stroke: str
    drill: str
    up_with: int
    players_with: int
    up_without: int
    players_without: int
    value: float | None
    low: float | None
    high: float | None
    verdict: str
    direction: int
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CourtLoad:
    """How the balls of a clinic went round on one court."""

    clinic_id: int
    court: str
    days: int
    players: int
    balls: int
    tough: int
    fewest: int
    """Balls of the player and day with the fewest."""
    most: int
    """Balls of the player and day with the most."""
    widest: int
    """The widest spread of one day: most balls of a player minus fewest."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ClinicSeason:
    """One clinic."""

    clinic_id: int
    clinic: str
    dates: tuple[date, ...]
    players: int
    balls: int
    changes: tuple[Change, ...]
    tested_once: int
    """Cues of a player with one yardstick, so that nothing can be compared."""
    courts: tuple[CourtLoad, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Season:
    """All clinics of a folder."""

    books: int
    books_left_out: tuple[str, ...]
    """Books of a later courtlog, by number."""
    minors_left_out: int
    clinics: tuple[ClinicSeason, ...]
    families: int
    """Strokes of a player with a comparison that was chosen beforehand."""
    drills: tuple[DrillChange, ...]
    lines: tuple[SeasonLine, ...]
