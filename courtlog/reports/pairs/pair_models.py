"""The facts of a page of pairs: the same ball then and now, for each cue of a player."""

from __future__ import annotations

from dataclasses import dataclass

from courtlog.film.clip import Clip


@dataclass(frozen=True, kw_only=True)
class PairBall:
    """One ball of a pair, with its clip or the reason why there is none."""

    day: str
    """`Monday 11 May`."""
    what: str
    """`Racquet feed · deep right · ball 7 of 20 · tough`."""
    grade: str
    """The cue's grade on this ball in a word."""
    film: str
    """The film's name in the book."""
    clock: str
    """The ball's first key by the clinic's clock, `09:31:07`."""
    hit_moved_ms: int
    """By how much the book has moved this ball's hit, for the film and for the ball together."""
    film_moved_ms: int = 0
    """How much of that is for all clips of the film."""
    chosen_by_hand: bool
    """Whether somebody chose this ball, not the rule."""
    clip: Clip | None
    """Where it is seen."""
    why_no_clip: str | None
    """One sentence where it is not."""


@dataclass(frozen=True, kw_only=True)
class CuePair:
    """One cue: a ball of the first yardstick beside one of the last."""

    cue: str
    """The cue's name as it is shown."""
    then: PairBall | None
    """The ball of the first yardstick."""
    now: PairBall | None
    """The ball of the last one."""
    caption: str
    """`spacing: 6 of 19 then, 16 of 19 now`."""
    sentence: str
    """The verdict's own sentence."""
    rule: str
    """How the two balls were chosen."""
    missing: str | None
    """One sentence where there is no pair."""
    blind: tuple[str, ...] = ()
    """What came out for those who rated the yardsticks' clips without knowing the day."""


@dataclass(frozen=True, kw_only=True)
class PairPage:
    """All that stands on a player's page of pairs."""

    clinic: str
    """The clinic's name."""
    player: str
    """The player's name."""
    cues: tuple[CuePair, ...]
    """The chosen cues in order."""
    left_out: tuple[str, ...]
    """What would have been cut, films that were not found: a sentence each."""
    foot: tuple[str, ...]
    """The words on pictures of people that stand on every page with pictures."""
