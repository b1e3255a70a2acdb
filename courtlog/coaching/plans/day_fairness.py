"""How evenly balls and waits went round on one court in a day."""

from __future__ import annotations

from dataclasses import dataclass

from courtlog.coaching.game.people import Player
from courtlog.coaching.plans.rotation import Court, FedTurn
from courtlog.measures.court_day import schedule
from courtlog.plain_text import listed

BREAK_MS = 15 * 60_000
"""With nobody at the feed for this long it is a break of the day, and nobody's wait."""


@dataclass(frozen=True, slots=True)
class Share:
    """A player's part of the day at the feed: balls, minutes hitting, longest wait in minutes."""

    player: Player
    balls: int
    minutes: float
    longest_wait: float


@dataclass(frozen=True, slots=True)
class Fairness:
    """Everyone's share, and by how much the balls of those there now are apart."""

    shares: tuple[Share, ...]
    spread: float
    """With the balls that late comers are credited."""
    unfair: bool
    """Whether that is more than one rotation."""
    longest_rotation: int
    """Balls of the longest rotation so far."""
    credits: tuple[tuple[Player, float], ...] = ()
    """Balls that late comers are taken to have had."""

    def words(self) -> str:
        """`balls 20 to 30, 10 apart (longest rotation 10); longest wait 14 min, Tove`."""
        if not self.shares:
            return "nobody is there"
        balls = sorted(share.balls for share in self.shares)
        patient = max(self.shares, key=lambda share: share.longest_wait)
        longest = f"longest rotation {self.longest_rotation}"
        longest = f"MORE than the {longest}" if self.unfair else longest
        apart = f"{self.spread:g} apart ({longest})"
        words = f"balls {balls[0]} to {balls[-1]}{self._credited()}, {apart}"
        if patient.longest_wait >= 1:
            words += f"; longest wait {patient.longest_wait:.0f} min, {patient.player.list_name}"
        return words

    def _credited(self) -> str:
        """`; with 20 credited to Tove for coming late`, where there is any credit."""
        if not self.credits:
            return ""
        each = [f"{balls:g} credited to {player.list_name}" for player, balls in self.credits]
        return f"; with {listed(each)} for coming late"


def fairness(court: Court, now: int) -> Fairness:
    """How evenly balls and waits went round among those who are there and able, up to a moment.

    A late comer's head start counts in the spread and not in the balls.
    """
    able = [player for player in court.present if player.id not in court.off]
    even = schedule.ball_spread(court.counted, [str(p.id) for p in able], court.head_starts)
    credited = [(player, court.head_start.get(player.id, 0.0)) for player in able]
    return Fairness(
        shares=tuple(_share(court, player, now) for player in able),
        spread=even.spread,
        unfair=even.unfair,
        longest_rotation=max((turn.balls for turn in court.turns), default=0),
        credits=tuple((player, balls) for player, balls in credited if balls),
    )


def _share(court: Court, player: Player, now: int) -> Share:
    breaks = _breaks(court.turns, now)
    begins = [turn.started_at for turn in court.turns if turn.started_at is not None]
    since = court.arrived.get(player.id, min(begins, default=now))
    hitting = longest = 0.0
    for turn in court.turns:
        if turn.player != player.id or turn.started_at is None:
            continue
        longest = max(longest, _wait(since, turn.started_at, breaks))
        since = _end(turn, turn is court.turns[-1], now)
        hitting += max(0, since - turn.started_at - turn.paused_ms)
    if player.id != court.at_feed:
        longest = max(longest, _wait(since, now, breaks))
    balls = sum(turn.balls for turn in court.turns if turn.player == player.id)
    return Share(player, balls, hitting / 60_000, longest / 60_000)


def _end(turn: FedTurn, last: bool, now: int) -> int:
    return turn.ended_at or (now if last else turn.started_at or now)


def _breaks(turns: tuple[FedTurn, ...], now: int) -> list[tuple[int, int]]:
    """Spans in which nobody was at the feed for so long that nobody was waiting for it."""
    ends = [_end(turn, turn is turns[-1], now) for turn in turns]
    begins = [turn.started_at or end for turn, end in zip(turns, ends, strict=True)]
    gaps = zip(ends, [*begins[1:], now], strict=True) if turns else ()
    return [(end, begin) for end, begin in gaps if begin - end >= BREAK_MS]


def _wait(since: int, until: int, breaks: list[tuple[int, int]]) -> int:
    away = sum(max(0, min(until, end) - max(since, begin)) for begin, end in breaks)
    return until - since - away
