"""Which player goes to which court: by name, by hand, or so that every court is as strong.

The courts are as even in number as the named players allow. Who is named for a court goes there.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from courtlog.coaching.game.people import Player
from courtlog.errors import CourtlogError
from courtlog.names import folded_name


class DealBy(StrEnum):
    """What players are dealt by."""

    NAME = "name"
    HAND = "hand"
    LEVEL = "level"

    @property
    def meaning(self) -> str:
        """What it does, in the coach's words."""
        return _MEANINGS[self]


_MEANINGS = {
    DealBy.NAME: "by name: each court has a stretch of the alphabet",
    DealBy.HAND: "by hand: left-handers together, each hand by name",
    DealBy.LEVEL: "by level: every court as strong as the others",
}


@dataclass(frozen=True, slots=True)
class Level:
    """How far a player is: the rung of the ladder, and the grades made of those seen on it."""

    rung: int
    made: int = 0
    seen: int = 0

    @property
    def share(self) -> float:
        """The share made; 0 where nothing was seen."""
        return self.made / self.seen if self.seen else 0.0


@dataclass(frozen=True, slots=True)
class CourtGroup:
    """A court and the players who are dealt to it, in the order of the roster."""

    court: str
    players: tuple[Player, ...]


def deal(
    roster: Sequence[Player],
    courts: Sequence[str],
    by: DealBy,
    levels: Mapping[int, Level],
    named: Mapping[str, Sequence[Player]],
) -> tuple[CourtGroup, ...]:
    """Every player of the roster on one of the courts, in the order of the courts.

    `levels` are by player id, and `named` are those whose court the coach said. Raises
    CourtlogError for a court that is not there and for a player named twice.
    """
    where = _named(courts, named)
    seats = _seats(len(roster), courts, where)
    waiting = sorted(
        (player for player in roster if player.id not in where), key=_order(by, levels)
    )
    if by is DealBy.LEVEL:
        where |= _balanced(waiting, sorted(roster, key=_order(by, levels)), seats, where)
    else:
        where |= _in_line(waiting, seats, where)
    return tuple(
        CourtGroup(court, tuple(player for player in roster if where[player.id] == court))
        for court in courts
    )


def _named(courts: Sequence[str], named: Mapping[str, Sequence[Player]]) -> dict[int, str]:
    where: dict[int, str] = {}
    for court, players in named.items():
        if court not in courts:
            raise CourtlogError(f"There is no court {court}.", f"Courts: {', '.join(courts)}.")
        for player in players:
            if where.get(player.id, court) != court:
                raise CourtlogError(
                    f"{player.shown_name} is named for court {where[player.id]}"
                    f" and for court {court}.",
                    "Name one of them.",
                )
            where[player.id] = court
    return where


def _seats(players: int, courts: Sequence[str], where: Mapping[int, str]) -> dict[str, int]:
    """How many players each court gets: as even as those named for it allow."""
    seats = {court: list(where.values()).count(court) for court in courts}
    for _ in range(players - len(where)):
        fewest = min(courts, key=seats.__getitem__)  # of equals the first
        seats[fewest] += 1
    return seats


def _order(by: DealBy, levels: Mapping[int, Level]) -> Callable[[Player], tuple[object, ...]]:
    hands = ("left", "right")

    def key(player: Player) -> tuple[object, ...]:
        name = folded_name(player.shown_name), player.id
        if by is DealBy.HAND:
            return hands.index(player.hand) if player.hand in hands else len(hands), *name
        if by is DealBy.LEVEL:
            level = levels.get(player.id)
            return (1, *name) if level is None else (0, -level.rung, -level.share, *name)
        return name

    return key


def _in_line(
    waiting: Sequence[Player], seats: Mapping[str, int], where: Mapping[int, str]
) -> dict[int, str]:
    """The line of players cut into pieces, one a court."""
    free = [
        court
        for court, count in seats.items()
        for _ in range(count - list(where.values()).count(court))
    ]
    return {player.id: court for player, court in zip(waiting, free, strict=True)}


def _balanced(
    waiting: Sequence[Player],
    ranked: Sequence[Player],
    seats: Mapping[str, int],
    where: Mapping[int, str],
) -> dict[int, str]:
    """The strongest first, each to the court that is weakest so far; of equals to the first."""
    strength = {player.id: len(ranked) - place for place, player in enumerate(ranked)}
    there = dict(where)
    for player in waiting:
        counts = {court: list(there.values()).count(court) for court in seats}
        open_courts = [court for court, count in seats.items() if counts[court] < count]
        sums = {
            court: sum(strength[who] for who, at in there.items() if at == court)
            for court in open_courts
        }
        there[player.id] = min(open_courts, key=lambda court: (sums[court], counts[court]))
    return {player.id: there[player.id] for player in waiting}
