"""When the coach speaks: less from round to round, or only after a miss. Offered, never required.

Words fade so that the stroke holds without them. Nothing here claims which way keeps better.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from functools import lru_cache

from courtlog.coaching.game.rounds import Ball
from courtlog.measures.court_day.schedule import speak_now, speak_outside_band

FADING = (1.0, 0.75, 0.5, 0.25)
"""Share of balls spoken on in the first, second, third and every later practice round of a day."""


class Speak(StrEnum):
    """When the screen says that it is time to speak."""

    PLAN = "plan"
    BAND = "band"
    OFF = "off"

    @property
    def meaning(self) -> str:
        """The rule in the coach's words."""
        return _MEANINGS[self]


_MEANINGS = {
    Speak.PLAN: "by plan, less each round",
    Speak.BAND: "after a miss, or three nears of a cue in a row",
    Speak.OFF: "not shown",
}


class Wording(StrEnum):
    """Which of a cue's two phrases was said: the one for the body, or the one for the effect."""

    INNER = "inner"
    OUTER = "outer"

    @property
    def words(self) -> str:
        """The phrase by its place on the screen."""
        return "first wording" if self is Wording.INNER else "second wording"


def next_wording(last_said: Wording | None) -> Wording | None:
    """The wording that the next press of the key logs: first, second, then none."""
    return {None: Wording.INNER, Wording.INNER: Wording.OUTER, Wording.OUTER: None}[last_said]


@dataclass(frozen=True, slots=True)
class Advice:
    """Whether to speak after the ball in hand, in a few words."""

    speak: bool
    words: str
    cue: str = field(default="", compare=False)
    """The cue to speak of, by its name; empty where the rule names none."""


def share_of(rounds_before: int) -> float:
    """The share of balls to speak on, after `before` practice rounds of the drill that day."""
    return FADING[min(rounds_before, len(FADING) - 1)]


@lru_cache(512)  # asked twice with every key, about ever more balls
def is_planned(ball: int, share: float) -> bool:
    """Whether to speak after the rated ball of that number (1-based) at this share of balls."""
    return speak_now(ball, ball, share, share, 1)


def planned_to_speak(balls: int, share: float) -> int:
    """The number of balls to speak after, of this many rated ones."""
    return sum(is_planned(ball, share) for ball in range(1, balls + 1))


def by_plan(ball: int, number: int, share: float) -> Advice:
    """The plan's word on a rated ball: its place among the rated ones, and its number."""
    speak = is_planned(ball, share)
    return Advice(speak, f"{'SPEAK' if speak else 'quiet'} after ball {number}")


def by_band(balls: Sequence[Ball], names: Sequence[str]) -> Advice:
    """The band's word after the last of these rated balls: the first cue, a miss before nears."""
    if not balls:
        return Advice(False, "quiet")
    due = [
        (balls[-1].grades[row] != 0, name)
        for row, name in enumerate(names)
        if speak_outside_band([ball.grades[row] for ball in balls])
    ]
    if not due:
        return Advice(False, "quiet")
    nears, name = min(due, key=lambda found: found[0])
    return Advice(True, f"SPEAK now: {name} {'near three times' if nears else 'missed'}", name)
