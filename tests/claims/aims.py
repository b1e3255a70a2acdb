"""What a claim may err and must find: the one table that the simulation is held to."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from typing import Literal

Unit = Literal["cue", "player", "clinic"]

SURE = 3.0
"""Standard errors beyond its aim at which a share is out of bounds: 1 run in 740 by luck."""


@dataclass(frozen=True, slots=True)
class Aim:
    """A share that is to be at most, or at least (`found`), this; by kind, worlds and unit."""

    kind: str
    worlds: tuple[str, ...]
    unit: Unit
    share: float
    found: bool = False

    def met(self, value: float, of: int) -> bool:
        """Whether the share of so many units can be the aim or better, luck allowed for."""
        slack = SURE * sqrt(self.share * (1 - self.share) / of)
        return value >= self.share - slack if self.found else value <= self.share + slack


STILL = (
    "alike",
    "samples",
    "one-drill",
    "warm-up",
    "worst-of-five",
    "excused",
    "half",
    "planned",
    "unnamed",
)
"""Nothing changes, and an honest eye sees it.

Streaks and a loose eye have no aim but are measured: a plain interval takes every ball for one,
and where 3 of 10 go as the one before, 20 balls are worth 11.
"""

AIMS = (
    Aim("yardstick a real gain", STILL, "cue", 0.03),
    Aim("yardstick a real gain", STILL, "clinic", 0.15),
    Aim("main cue a real gain", ("change-20",), "player", 0.60, found=True),
    Aim("main cue a real gain", ("change-40",), "player", 0.85, found=True),
    Aim("yardstick a real drop", STILL, "cue", 0.05),
    Aim("all cues at once up", STILL, "player", 0.05),
    Aim("all cues at once down", STILL, "player", 0.05),
    Aim("hold up", STILL, "cue", 0.05),
    Aim("hold down", STILL, "cue", 0.05),
    Aim("practice up", STILL, "cue", 0.05),
    Aim("practice down", STILL, "cue", 0.05),
    Aim("trend up", STILL, "cue", 0.05),
    Aim("trend down", STILL, "cue", 0.05),
    Aim("overnight up on some night", STILL, "cue", 0.05),
    Aim("overnight down on some night", STILL, "cue", 0.05),
    Aim("review: up at some round", STILL, "cue", 0.05),
    Aim("review: down at some round", STILL, "cue", 0.05),
    Aim("tough balls higher", STILL, "cue", 0.05),
    Aim("curve better since some ball", STILL, "cue", 0.0),
    Aim("slip told at some review", STILL, "cue", 0.09),
    Aim("rung ready at some review", STILL, "player", 0.10),
    Aim("they go together, last day", (*STILL, "easy-ball"), "player", 0.05),
    Aim("they go together, last day", ("leads",), "player", 0.50, found=True),
    Aim("they go together, last day", ("leads-easy-ball",), "player", 0.25, found=True),
)
"""Over a whole week: a false "real" .03 a cue and .15 a clinic, other directions .05 a cue."""
