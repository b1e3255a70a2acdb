"""How balls and time at the feed went round over all courts of a clinic: today, and up to today."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from courtlog.coaching.voice.fairness_voice import CourtLoad, crowded_court
from courtlog.coaching.voice.statement import SILENCE, Statement


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedShare:
    """A player's part of the balls and of the time at the feed, over all courts."""

    player: str
    """The name as shown."""
    courts: tuple[str, ...]
    """The courts the player hit on today, in the order of the day."""
    balls: int
    """Balls today."""
    minutes: float | None
    """Minutes at the feed today; None where nobody noted the times."""
    share: float | None
    """Of everybody's minutes today, 0 to 1; None likewise."""
    clinic_balls: int
    """Balls of the clinic up to today."""
    clinic_minutes: float | None
    """Minutes at the feed up to today."""
    clinic_share: float | None
    """Of everybody's minutes up to today."""


@dataclass(frozen=True, slots=True)
class CourtsFairness:
    """Everyone who has a ball of the clinic, fewest balls today first; and each court of today."""

    shares: tuple[FeedShare, ...]
    loads: tuple[CourtLoad, ...]

    @property
    def crowded(self) -> Statement:
        """That the court with most players gave each fewer balls; silence where it did not."""
        if len(self.loads) < 2:
            return SILENCE
        full = max(self.loads, key=lambda load: (load.players, -load.each))
        free = min(self.loads, key=lambda load: (load.players, -load.each))
        if full.players == free.players or full.each >= free.each:
            return SILENCE
        return crowded_court(full, free, self.loads)


@dataclass(frozen=True, slots=True)
class FedRound:
    """Balls and minutes of one round: whose it was, and on which court."""

    player_id: int
    court: str
    balls: int
    minutes: float | None


def courts_fairness(
    names: Sequence[tuple[int, str]], today: Sequence[FedRound], before: Sequence[FedRound]
) -> CourtsFairness:
    """The shares of these players, by id and name; `before` are the rounds of earlier days.

    A date with a round whose times nobody noted has no minutes and no shares of them.
    """
    whole = [*before, *today]
    shares = []
    for player_id, name in names:
        theirs = [fed for fed in today if fed.player_id == player_id]
        ever = [fed for fed in whole if fed.player_id == player_id]
        if ever:
            shares.append(
                FeedShare(
                    player=name,
                    courts=tuple(dict.fromkeys(fed.court for fed in theirs)),
                    balls=_balls(theirs),
                    minutes=_minutes(theirs),
                    share=_share(theirs, today),
                    clinic_balls=_balls(ever),
                    clinic_minutes=_minutes(ever),
                    clinic_share=_share(ever, whole),
                )
            )
    shares.sort(key=lambda share: (share.balls, share.clinic_balls))
    return CourtsFairness(tuple(shares), _loads(names, today))


def _loads(names: Sequence[tuple[int, str]], today: Sequence[FedRound]) -> tuple[CourtLoad, ...]:
    known = {player_id for player_id, _ in names}
    fed = [one for one in today if one.player_id in known]
    return tuple(
        CourtLoad(
            court,
            len({one.player_id for one in fed if one.court == court}),
            _balls([one for one in fed if one.court == court]),
        )
        for court in sorted({one.court for one in fed}, key=lambda court: (len(court), court))
    )


def _balls(fed: Sequence[FedRound]) -> int:
    return sum(one.balls for one in fed)


def _minutes(fed: Sequence[FedRound]) -> float | None:
    noted = [one.minutes for one in fed if one.minutes is not None]
    return sum(noted) if len(noted) == len(fed) else None


def _share(fed: Sequence[FedRound], everybody: Sequence[FedRound]) -> float | None:
    theirs, all_of_them = _minutes(fed), _minutes(everybody)
    return theirs / all_of_them if theirs is not None and all_of_them else None
