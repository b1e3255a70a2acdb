"""Everything the court screen shows, as one value. What is in it is in the book already."""

from __future__ import annotations

from dataclasses import dataclass

from courtlog.coaching.counts import Counts
from courtlog.coaching.live import Basket, LiveRound
from courtlog.coaching.people import Clinic, Day, Player
from courtlog.courtside.keymap import Pad


@dataclass(frozen=True, slots=True)
class CourtView:
    """A moment of the court screen; `trends` holds each cue's counts by date, oldest first."""

    clinic: Clinic
    day: Day
    pad: Pad
    letters: bool
    live: LiveRound | None
    basket: Basket
    trends: tuple[tuple[Counts, ...], ...]
    roster: tuple[Player, ...]
    paused: bool
    said: str

    @property
    def ended(self) -> bool:
        """Whether the round on court is over, or none was begun."""
        return self.live is None or self.live.ended_at is not None

    def player_after(self, step: int) -> Player | None:
        """The player that many places on in the roster; None with an empty roster."""
        if not self.roster:
            return None
        if self.live is None:
            return self.roster[0]
        ids = [player.id for player in self.roster]
        at = ids.index(self.live.player.id) if self.live.player.id in ids else -1
        return self.roster[(at + step) % len(self.roster)]
