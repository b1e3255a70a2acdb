"""What the next round is: who, which drill, why and which cues, when only some of it was said."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from courtlog.coaching.drills import Drill, Ladder, UsedDrill
from courtlog.coaching.people import Player
from courtlog.coaching.rounds import Purpose
from courtlog.courtside.view import CourtView
from courtlog.errors import CourtlogError
from courtlog.library.drills import Library
from courtlog.logbook import lookups
from courtlog.logbook.opening import Book


@dataclass(frozen=True, slots=True)
class Wish:
    """What the coach said; None is left to the round before."""

    player: Player | None = None
    drill: tuple[Ladder, Drill] | None = None
    purpose: Purpose | None = None
    cues: tuple[str, ...] | None = None


@dataclass(frozen=True, slots=True)
class Plan:
    """The round to start."""

    player: Player
    used: UsedDrill
    purpose: Purpose
    cues: tuple[str, ...]


def plan(book: Book, library: Callable[[], Library], view: CourtView, wish: Wish) -> Plan:
    """The next round. Raises CourtlogError when nobody is there or no drill is known."""
    player = wish.player or (view.live.player if view.live else view.player_after(0))
    if player is None:
        raise CourtlogError("Nobody is on the roster.", "Add a player first.")
    used, kept = _drill(book, view, player, wish)
    cues = wish.cues or kept or _cues(book, library, view, player, used)
    purpose = wish.purpose or (view.live.purpose if view.live else Purpose.PRACTICE)
    return Plan(player, used, purpose, cues)


def knows_a_drill(book: Book, view: CourtView, player: Player) -> bool:
    """Whether this player's next round needs no choice of a drill."""
    return view.live is not None or _last_drill(book, view, player) is not None


def rung_beside(ladder: Ladder, drill: Drill, by: int) -> Drill | None:
    """The first drill of the next rung up (1) or down (-1); None at the ladder's end."""
    rungs = [other.rung for other in ladder.drills if (other.rung - drill.rung) * by > 0]
    if not rungs:
        return None
    rung = min(rungs) if by > 0 else max(rungs)
    return next(other for other in ladder.drills if other.rung == rung)


def _drill(
    book: Book, view: CourtView, player: Player, wish: Wish
) -> tuple[UsedDrill, tuple[str, ...] | None]:
    """The drill said; else what this player had last; else what is on court. And its cues."""
    if wish.drill is not None:
        return UsedDrill.of(*wish.drill), None
    live = view.live
    if live is not None and live.player.id == player.id:
        return live.drill, live.cue_keys
    last = _last_drill(book, view, player)
    if last is not None:
        return last
    if live is not None:
        return live.drill, None
    raise CourtlogError("No drill is chosen.", "Choose one first.")


def _last_drill(
    book: Book, view: CourtView, player: Player
) -> tuple[UsedDrill, tuple[str, ...]] | None:
    return lookups.last_drill_of(book, player.id, view.clinic.id)


def _cues(
    book: Book,
    library: Callable[[], Library],
    view: CourtView,
    player: Player,
    used: UsedDrill,
) -> tuple[str, ...]:
    """The cues last looked at with this player on this stroke, else the stroke's first ones."""
    known = {cue.key for cue in used.cues}
    last = lookups.last_cues_of(book, player.id, view.clinic.id, used.stroke)
    if last and known.issuperset(last):
        return last
    return library().ladder(used.stroke).first_cues
