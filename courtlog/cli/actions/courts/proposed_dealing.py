"""Who goes to which court, before a book is written: as it was, as dealt, and as it is said."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from courtlog.coaching.game.people import Clinic, Player
from courtlog.coaching.plans.court_dealing import CourtGroup, DealBy, Level, deal
from courtlog.coaching.plans.next_courts import NextCourts
from courtlog.errors import CourtlogError
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from courtlog.logbook.reads.courts.next_day_courts import next_day_courts
from courtlog.logbook.reads.courts.player_levels import player_levels

_KEPT = "as it was dealt before"
_GO_ON = "the groups of the last day"


@dataclass(frozen=True, slots=True, kw_only=True)
class ProposedDealing:
    """The players, the courts, and what decides who goes where."""

    roster: Sequence[Player]
    courts: Sequence[str]
    by: DealBy
    levels: Mapping[int, Level]
    named: Mapping[str, Sequence[Player]]
    """The players of whom it is said where they go, by court."""
    before: NextCourts | None
    """The groups that stay together, where players are not dealt afresh."""

    @property
    def groups(self) -> tuple[CourtGroup, ...]:
        """Everybody on a court. Raises CourtlogError for a court that is not there."""
        return deal(self.roster, self.courts, self.by, self.levels, self.named)

    @property
    def how(self) -> str:
        """What players are dealt by, in the coach's words."""
        if self.before is None:
            return self.by.meaning
        return _KEPT if self.before.kept else _GO_ON

    @property
    def is_kept(self) -> bool:
        """Whether it was dealt so before."""
        return self.before is not None and self.before.kept

    @property
    def shown_levels(self) -> Mapping[int, Level] | None:
        """What is known of each player, where it decided."""
        return self.levels if self.by is DealBy.LEVEL and self.before is None else None

    def with_named(self, typed: Sequence[str]) -> ProposedDealing:
        """The same with words like `2=Maren,Tove`, before what was said so far.

        Raises CourtlogError, also for a court that is not there.
        """
        changed = replace(self, named=_with(self.named, _named(self.roster, typed)))
        _ = changed.groups
        return changed


def first_dealing(
    book: Book, clinic: Clinic, on: date, count: int, by: str | None, named: Sequence[str]
) -> ProposedDealing:
    """The dealing of that date to so many courts, as typed. Raises CourtlogError."""
    roster = lookups.players(book, clinic.id)
    if not roster:
        raise CourtlogError(
            f"Nobody is on the roster of {clinic.name}.", "`courtlog roster add NAME`"
        )
    levels = player_levels(book, clinic.id, on - timedelta(days=1))
    before = next_day_courts(book, clinic.id, on, count) if by is None else None
    if before is not None and not (before.kept or before.go_on):
        before = None
    groups = before.groups if before else ()
    dealing = ProposedDealing(
        roster=roster,
        courts=[group.court for group in groups] or [str(one) for one in range(1, count + 1)],
        by=_deal_by(by, levels),
        levels=levels,
        named={group.court: group.players for group in groups},
        before=before,
    )
    return dealing.with_named(named)


def _deal_by(typed: str | None, levels: Mapping[int, Level]) -> DealBy:
    if typed is None:
        return DealBy.LEVEL if levels else DealBy.NAME
    if typed not in set(DealBy):
        raise CourtlogError(
            f"Players cannot be dealt by {typed!r}.", f"Write one of {', '.join(DealBy)}."
        )
    return DealBy(typed)


def _named(roster: Sequence[Player], typed: Sequence[str]) -> dict[str, list[Player]]:
    """`2=Maren,Tove` as court and players. Raises CourtlogError."""
    named: dict[str, list[Player]] = {}
    for words in typed:
        court, sign, names = words.partition("=")
        if not sign or not names.strip():
            raise CourtlogError(f"{words!r} names no players.", "Write it like 2=Maren,Tove.")
        named.setdefault(court.strip(), []).extend(
            _player(roster, name.strip()) for name in names.split(",") if name.strip()
        )
    return named


def _player(roster: Sequence[Player], name: str) -> Player:
    found = lookups.players_fitting(roster, name)
    if len(found) != 1:
        names = ", ".join(player.shown_name for player in found or roster)
        how = "More than one player fits" if found else "There is no player called"
        raise CourtlogError(f"{how} {name!r}: {names}.", "Write more of the name.")
    return found[0]


def _with(
    before: Mapping[str, Sequence[Player]], change: Mapping[str, Sequence[Player]]
) -> dict[str, list[Player]]:
    """The players named so far with a change, which goes before what was said of them."""
    moved = {player.id for players in change.values() for player in players}
    after = {court: [p for p in players if p.id not in moved] for court, players in before.items()}
    for court, players in change.items():
        after.setdefault(court, []).extend(players)
    return after
