"""What an invented player can do, how it grows ball by ball, and how it sags overnight."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

COACHED_LIFT = 0.3
"""Log-odds that a coach's word adds while it is spoken: practice looks better than it is."""


@dataclass(frozen=True, slots=True)
class Skill:
    """One cue in log-odds of made on the day-one ball; `sag` is the share of a day lost."""

    start: float
    learn: float = 0.0
    sag: float = 0.25


@dataclass(frozen=True, slots=True)
class Player:
    """A player: skills by stroke and cue, and what tough balls and tiredness take away."""

    name: str
    hand: str
    strokes: Mapping[str, Mapping[str, Skill]]
    tough: float = 0.7
    tough_by_day: float = 0.0
    tired: float = 0.003


@dataclass(slots=True)
class Form:
    """The player as of now: the level of every cue, and the balls hit since the last rest."""

    player: Player
    nights: int = 0
    hit: int = 0
    level: dict[tuple[str, str], float] = field(default_factory=dict)
    morning: dict[tuple[str, str], float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for stroke, cues in self.player.strokes.items():
            for cue, skill in cues.items():
                self.level[stroke, cue] = skill.start
        self.morning = dict(self.level)

    def log_odds(self, stroke: str, cue: str, ease: float, tough: bool) -> float:
        """Log-odds of made on the next ball; `ease` is what the feed gives or takes."""
        odds = self.level[stroke, cue] + ease - self.player.tired * self.hit
        if tough:
            odds -= self.player.tough + self.player.tough_by_day * self.nights
        return odds

    def after_ball(self, stroke: str, cues: Iterable[str], coached: bool) -> None:
        """One ball more in the arm; a coached one also leaves something behind."""
        self.hit += 1
        if coached:
            for cue in cues:
                self.level[stroke, cue] += self.player.strokes[stroke][cue].learn

    def rest(self) -> None:
        """Lunch: the tiredness goes, the level stays."""
        self.hit = 0

    def night(self) -> None:
        """The tiredness goes, and so does a part of what the day brought."""
        for (stroke, cue), level in self.level.items():
            gained = level - self.morning[stroke, cue]
            self.level[stroke, cue] = level - gained * self.player.strokes[stroke][cue].sag
        self.morning = dict(self.level)
        self.nights += 1
        self.rest()
