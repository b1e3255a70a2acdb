"""Who goes to which court on the next day: groups stay together, and courts stay even."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from courtlog.coaching.game.people import Player
from courtlog.coaching.plans.court_dealing import CourtGroup, DealBy, Level, deal


@dataclass(frozen=True, slots=True)
class CourtMove:
    """A player who leaves a fuller court for an emptier one, with the balls that chose them."""

    player: Player
    before: str
    after: str
    balls: int

    @property
    def words(self) -> str:
        """`Tove goes to court 2: fewest balls so far on the fuller court 1, 40.`"""
        return (
            f"{self.player.shown_name} goes to court {self.after}: fewest balls so far on the"
            f" fuller court {self.before}, {self.balls}."
        )


@dataclass(frozen=True, slots=True)
class NextCourts:
    """The courts of the next day with their players, and who moved."""

    groups: tuple[CourtGroup, ...]
    moves: tuple[CourtMove, ...] = ()
    kept: bool = False
    """Whether the coach kept this dealing; else it is the proposal."""
    go_on: bool = False
    """Whether there were groups before, which stay together."""


def next_courts(
    roster: Sequence[Player],
    courts: Sequence[str],
    last: Sequence[CourtGroup],
    levels: Mapping[int, Level],
    balls: Mapping[int, int],
) -> NextCourts:
    """Every player on the court of the last day; newcomers and those of a closed court by level.

    While one court has two players more than another, whoever had the fewest balls (by player id)
    on the fullest court goes to the emptiest.
    """
    here = {player.id for player in roster}
    stay = {
        group.court: [player for player in group.players if player.id in here]
        for group in last
        if group.court in courts
    }
    groups = deal(roster, courts, DealBy.LEVEL if levels else DealBy.NAME, levels, stay)
    moves: list[CourtMove] = []
    while True:
        fullest = max(groups, key=lambda group: len(group.players))  # of equals the first
        emptiest = min(groups, key=lambda group: len(group.players))
        if len(fullest.players) - len(emptiest.players) < 2:
            return NextCourts(groups, tuple(moves), go_on=any(stay.values()))
        player = min(fullest.players, key=lambda player: balls.get(player.id, 0))
        moves.append(CourtMove(player, fullest.court, emptiest.court, balls.get(player.id, 0)))
        groups = tuple(_with_move(group, moves[-1], roster) for group in groups)


def _with_move(group: CourtGroup, move: CourtMove, roster: Sequence[Player]) -> CourtGroup:
    if group.court == move.before:
        return replace(group, players=tuple(p for p in group.players if p != move.player))
    if group.court == move.after:
        there = {player.id for player in (*group.players, move.player)}
        return replace(group, players=tuple(p for p in roster if p.id in there))
    return group
