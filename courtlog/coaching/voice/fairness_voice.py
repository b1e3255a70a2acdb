"""What is said of balls that did not go round evenly over the courts of a clinic."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from courtlog.coaching.voice.statement import Statement
from courtlog.plain_text import listed, many


@dataclass(frozen=True, slots=True)
class CourtLoad:
    """How many players hit on a court today, and how many balls."""

    court: str
    players: int
    balls: int

    @property
    def each(self) -> float:
        """Balls a player."""
        return self.balls / self.players


def crowded_court(full: CourtLoad, free: CourtLoad, loads: Sequence[CourtLoad]) -> Statement:
    """That the full court gave each player fewer balls than the free one, with the counts."""
    others = "one" if free.players == 1 else str(free.players)
    return Statement(
        f"Court {full.court} was crowded: its {full.players} players hit"
        f" {many(full.balls, 'ball')}, fewer each than the {others}"
        f" on court {free.court} with {free.balls}.",
        f"That is {full.each:.0f} balls a player on court {full.court}"
        f" and {free.each:.0f} on court {free.court}.",
        "; ".join(
            f"court {load.court}: {many(load.balls, 'ball')}, {many(load.players, 'player')}"
            for load in loads
        )
        + ".",
    )


def missing_court(court: str, players: tuple[str, ...]) -> str:
    """`Nothing has come from court 3 yet: Tove and Ruben are missing from this page.`"""
    if not players:
        return f"Nothing has come from court {court} yet."
    are = "is" if len(players) == 1 else "are"
    return f"Nothing has come from court {court} yet: {listed(players)} {are} missing here."
