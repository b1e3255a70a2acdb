"""Balls on a film: where each one lies in it, and what is said of it in words.

Times are milliseconds. A coach rates a ball one to three seconds after the hit, so a ball's window
begins before its first key.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from itertools import groupby

from courtlog.plain_text import plain

BEFORE_KEY_MS = 4000
"""How long before a ball's first key its window begins."""

AFTER_KEY_MS = 1000
"""How long after the key it ends."""

HIT_BEFORE_KEY_MS = 2000
"""How long before its first key a ball is taken to be hit, until the book knows better."""


@dataclass(frozen=True, kw_only=True)
class FilmBall:
    """One ball on a film: its window, and what captions say of it."""

    start_ms: int
    """Where its window begins, counted from the film's beginning."""
    end_ms: int
    """Where its window ends."""
    player: str
    """The player's name."""
    drill: str
    """The drill's name."""
    number: int
    """Its place in the round, from 1."""
    cues: tuple[tuple[str, str], ...]
    """Each cue's name and its grade in a word."""
    tough: bool = False
    """Whether it was harder than usual."""
    marked: bool = False
    """Whether it has a clip mark."""

    @cached_property  # five files say the same words
    def lines(self) -> tuple[str, ...]:
        """`Maren · Racquet feed · ball 7`, then `turn made · spacing missed`.

        A hidden character in a name is written as a visible one, so that no line is broken.
        """
        told = [f"{name} {word}" for name, word in self.cues]
        told += ["tough ball"] * self.tough + ["marked"] * self.marked
        lines = (f"{self.player} · {self.drill} · ball {self.number}", " · ".join(told))
        return tuple(plain(line) for line in lines if line)

    @cached_property
    def title(self) -> str:
        """The same in one line."""
        return " · ".join(self.lines)


@dataclass(frozen=True, slots=True)
class FilmPart:
    """A stretch of a film that overlaps no other, with the balls that begin with it."""

    start_ms: int
    end_ms: int
    balls: tuple[FilmBall, ...]

    @property
    def title(self) -> str:
        """What is seen in it, in one line; two courts may have a ball at the same moment."""
        return " / ".join(ball.title for ball in self.balls)


def window(key_at: int, film_start: int, film_length: int) -> tuple[int, int] | None:
    """Where the ball with this first key begins and ends on the film; None where it is not on it.

    The key and the film's start are moments in UTC, so a film may run past midnight.
    """
    at = key_at - film_start
    if film_length <= 0 or not 0 <= at <= film_length:
        return None
    return max(0, at - BEFORE_KEY_MS), min(film_length, at + AFTER_KEY_MS)


def film_parts(balls: Iterable[FilmBall]) -> list[FilmPart]:
    """The balls in the film's order as stretches, each cut where the next one begins.

    Every beginning stays where it is. With three seconds between two keys no hit is cut off,
    since a key comes at most three seconds after its hit.
    """
    in_order = sorted(balls, key=lambda ball: ball.start_ms)
    groups = [tuple(group) for _, group in groupby(in_order, key=lambda ball: ball.start_ms)]
    next_starts = [group[0].start_ms for group in groups[1:]]
    ends = [max(ball.end_ms for ball in group) for group in groups]
    cut = map(min, ends, [*next_starts, *ends[-1:]])
    return [FilmPart(group[0].start_ms, end, group) for group, end in zip(groups, cut, strict=True)]
