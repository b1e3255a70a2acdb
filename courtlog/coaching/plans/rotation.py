"""The rotation of a day on one court: who hits next, and who stands where.

Everything follows from the rotations so far and from who is there. A player who comes late or
leaves changes nothing but the queue.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum
from typing import NamedTuple

from courtlog.coaching.game.people import Player
from courtlog.measures.court_day import schedule
from courtlog.measures.court_day.schedule import Turn

FEED, REST = "feed", "rest"

USUAL_TURN = 10
"""Balls of a rotation that has not been played yet (common practice, no source: 6 to 10)."""


class TurnOrder(StrEnum):
    """How players go through the stations."""

    CYCLIC = "cyclic"
    WILLIAMS = "williams"
    PAIRS = "pairs"

    @property
    def meaning(self) -> str:
        """What the order does, in the coach's words."""
        return _ORDERS[self]


_ORDERS = {
    TurnOrder.CYCLIC: "everyone walks through the stations in the same order",
    TurnOrder.WILLIAMS: "after each station, every other one comes equally often",
    TurnOrder.PAIRS: "the others hit in pairs, each with each other one in turn",
}


class Presence(StrEnum):
    """Whether a player is there."""

    HERE = "here"
    LATE = "late"
    LEFT = "left"


@dataclass(frozen=True, slots=True)
class FedTurn:
    """One go at the feed, rounds running on counted together; times in milliseconds UTC."""

    player: int
    balls: int
    started_at: int | None = None
    ended_at: int | None = None
    paused_ms: int = 0


class Swap(NamedTuple):
    """Two players (ids) who changed places in the queue for this rotation."""

    first: int
    second: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Court:
    """All that a rotation follows from; ids are players'."""

    roster: tuple[Player, ...]
    """Players in the order of the plan."""
    stations: tuple[str, ...] = ()
    """Where those who are not fed work."""
    order: TurnOrder = TurnOrder.CYCLIC
    """How the queue is ordered."""
    turns: tuple[FedTurn, ...] = ()
    """Goes at the feed so far; the last one is on now."""
    away: Mapping[int, Presence] = field(default_factory=dict)
    """Who is not there, and why."""
    arrived: Mapping[int, int] = field(default_factory=dict)
    """The moment a player came, milliseconds UTC."""
    head_start: Mapping[int, float] = field(default_factory=dict)
    """Balls that a late comer is taken to have had."""
    off: Mapping[int, str] = field(default_factory=dict)
    """Why a player is kept off the feed."""
    swaps: tuple[Swap, ...] = ()
    """Places changed for this rotation."""

    @property
    def present(self) -> tuple[Player, ...]:
        """Everyone who is there."""
        return tuple(player for player in self.roster if player.id not in self.away)

    @property
    def at_feed(self) -> int | None:
        """Who is at the feed; None before the first rotation, and once that player has gone."""
        last = self.turns[-1].player if self.turns else None
        is_here = any(player.id == last for player in self.roster) and last not in self.away
        return last if is_here else None

    @property
    def number(self) -> int:
        """The rotation's number from 1; 0 before the first."""
        return len(self.turns)

    @property
    def waiting(self) -> tuple[Player, ...]:
        """The queue without the player at the feed."""
        return tuple(player for player in self.queue if player.id != self.at_feed)

    @property
    def queue(self) -> tuple[Player, ...]:
        """The queue: who hits next, and after that. The player at the feed comes last."""
        able = {str(p.id): p for p in self.present if p.id not in self.off}
        keys = schedule.queue(self.counted, able, self.head_starts, self._feeding_order())
        waiting = [able[key] for key in keys]
        places = {player.id: place for place, player in enumerate(waiting)}
        for first, second in self.swaps:
            if {first, second} <= places.keys() and self.at_feed not in (first, second):
                a, b = places[first], places[second]
                waiting[a], waiting[b] = waiting[b], waiting[a]
                places[first], places[second] = b, a
        return tuple(waiting)

    @property
    def next_first(self) -> tuple[Player, ...]:
        """Everyone: the queue, the player at the feed, who is kept off it, who is not there."""
        places = {player.id: place for place, player in enumerate(self.waiting)}

        def rank(player: Player) -> tuple[bool, int, bool]:
            place = places.get(player.id, len(places))
            return player.id in self.away, place, player.id in self.off

        return tuple(sorted(self.roster, key=rank))

    def late_start(self) -> float:
        """The head start of someone who comes now: the median balls of those present."""
        present = [str(player.id) for player in self.present]
        return schedule.late_start(self.counted, present, self.head_starts)

    def stand(self) -> dict[int, str]:
        """The station of everyone who is there, by player id."""
        feeder = self.at_feed
        where = {player.id: REST for player in self.present}
        if self.order is TurnOrder.WILLIAMS:
            where |= self._by_square()
        elif self.order is TurnOrder.PAIRS:
            where |= self._by_pairs()
        else:
            where |= self._in_line()
        if feeder in where:
            where[feeder] = FEED
        return where

    def ahead(self, turns: int) -> list[Court]:
        """The rotations that would come next, if nothing changes."""
        courts: list[Court] = []
        court = self
        balls = max((turn.balls for turn in self.turns), default=0) or USUAL_TURN
        for _ in range(turns):
            if not court.queue:
                break
            if court.turns:
                last = replace(court.turns[-1], balls=max(court.turns[-1].balls, balls))
                court = replace(court, turns=(*court.turns[:-1], last))
            after = FedTurn(court.queue[0].id, 0)
            court = replace(court, turns=(*court.turns, after), swaps=())
            courts.append(court)
        return courts

    def _in_line(self) -> dict[int, str]:
        """The stations by the queue: who hits next is at the last station before the feed.

        With more stations than players the line moves on a station a lap, so that none is left out.
        """
        waiting = self.waiting
        count = len(self.stations)
        shift = self.number // (len(waiting) + 1) if count > len(waiting) else 0
        return {
            player.id: self.stations[(count - 1 - place - shift) % count]
            for place, player in enumerate(waiting[:count])
        }

    def _by_square(self) -> dict[int, str]:
        """This rotation's column of the square; who feeds out of order has changed places."""
        names = (FEED, *self.stations)
        rows = self._square()
        where = {}
        for row, player in enumerate(self.roster):
            station = rows[row][max(0, self.number - 1) % len(rows[row])]
            where[player.id] = names[station - 1] if station <= len(names) else REST
        meant = next((player for player, station in where.items() if station == FEED), None)
        if self.at_feed in where and meant is not None:
            where[meant] = where[self.at_feed]
        return self._swapped(
            {p.id: where[p.id] if p.id not in self.off else REST for p in self.present}
        )

    def _by_pairs(self) -> dict[int, str]:
        """This rotation's partners; a player without one rests."""
        if len(self.roster) < 2:
            return {}
        rounds = schedule.pairs(len(self.roster))
        there = {player.id for player in self.present} - self.off.keys()
        where = {player.id: REST for player in self.present}
        for first, second in rounds[max(0, self.number - 1) % len(rounds)]:
            pair = [self.roster[place - 1] for place in (first, second) if place]
            if len(pair) == 2 and all(player.id in there for player in pair):
                for player in pair:
                    where[player.id] = " + ".join(both.list_name for both in pair)
        return where

    def _swapped(self, where: dict[int, str]) -> dict[int, str]:
        for first, second in self.swaps:
            if first in where and second in where:
                where[first], where[second] = where[second], where[first]
        return where

    def _square(self) -> tuple[tuple[int, ...], ...]:
        return schedule.williams(max(2, len(self.roster), len(self.stations) + 1))

    def _feeding_order(self) -> list[str]:
        """Ties go by the plan: as on the roster, or as the balanced square sends them."""
        players = list(self.roster)
        if self.order is TurnOrder.WILLIAMS and players:
            rows = self._square()
            columns = len(rows[0])
            fed_at = {p.id: row.index(1) for p, row in zip(players, rows, strict=False)}
            players.sort(key=lambda p: (fed_at[p.id] - self.number) % columns)
        return [str(player.id) for player in players]

    @property
    def counted(self) -> list[Turn]:
        """The rotations with players as texts, as the schedules count them."""
        return [Turn(str(turn.player), turn.balls) for turn in self.turns]

    @property
    def head_starts(self) -> dict[str, float]:
        """The head starts with players as texts."""
        return {str(player): balls for player, balls in self.head_start.items()}


def fewest_first(balls: Mapping[Player, int], last: Collection[Player] = ()) -> list[Player]:
    """The players by fewest balls so far, of equals the one given first; `last` come last."""
    return sorted(balls, key=lambda player: (player in last, balls[player]))
