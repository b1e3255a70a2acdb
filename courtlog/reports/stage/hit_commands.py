"""The commands by which the book remembers a moved hit, as they are typed in a terminal."""

from __future__ import annotations

from dataclasses import dataclass

from courtlog.systems.shell_words import quoted


@dataclass(frozen=True, slots=True, kw_only=True)
class HitMoves:
    """By how much the book has moved a hit already, and what names it in a command.

    A command is `before` or `before_ball`, then the option with the move, then `after`.
    """

    film: str
    """The film's name in the book."""
    player: str
    """Who hits."""
    clock: str
    """The ball's first key by the clinic's clock, `09:31:07`."""
    ball_ms: int
    """By how much this ball alone was moved."""
    film_ms: int
    """By how much all clips of the film were moved."""

    @property
    def before(self) -> str:
        """`courtlog film hit court2.mp4`, for all clips of the film."""
        return "courtlog film hit" + ("" if self._is_like_an_option else f" {self._film}")

    @property
    def before_ball(self) -> str:
        """The same for this ball alone."""
        return f"{self.before} --player={quoted(self.player)} --at {self.clock}"

    @property
    def after(self) -> str:
        """A name that would be read as an option stands behind a double dash."""
        return f" -- {self._film}" if self._is_like_an_option else ""

    @property
    def _film(self) -> str:
        return quoted(self.film)

    @property
    def _is_like_an_option(self) -> bool:
        return self.film.startswith("-")
