"""What the next round is: who, which drill, why and which cues, when only some of it was said."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from courtlog.coaching.game.drills import Drill, Ladder, UsedDrill
from courtlog.coaching.game.people import Player
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.on_court.feed_order import FeedChoice
from courtlog.coaching.plans.proposal import Proposal, propose
from courtlog.courtside.desk.view import CourtView
from courtlog.errors import CourtlogError
from courtlog.library.drill_files import Library
from courtlog.logbook.file.opening import Book
from courtlog.logbook.reads import feed_lookups, history_lookups, lookups, people_lookups
from courtlog.logbook.reads.plan_lookups import left_to_play


@dataclass(frozen=True, slots=True)
class Wish:
    """What the coach said; None is left to the round before."""

    player: Player | None = None
    drill: tuple[Ladder, Drill] | None = None
    purpose: Purpose | None = None
    cues: tuple[str, ...] | None = None
    feeds: FeedChoice | None = None


@dataclass(frozen=True, slots=True)
class Plan:
    """The round to start, why it has this purpose, and its balls where the day's plan says so."""

    player: Player
    used: UsedDrill
    purpose: Purpose
    cues: tuple[str, ...]
    feeds: FeedChoice
    reason: str
    balls: int | None = None


def plan(book: Book, library: Callable[[], Library], view: CourtView, wish: Wish) -> Plan:
    """The next round. Raises CourtlogError when nobody is there or no drill is known."""
    player = wish.player or (view.live.player if view.live else view.rotation.next_up)
    if player is None:
        raise CourtlogError("Nobody is on the roster.", "F9 adds a player.")
    planned = _planned(book, library, view, player, wish)
    if planned is not None:
        return planned
    used, kept = _drill(book, library, view, player, wish)
    proposal = _proposal(book, view, player, used.stroke)
    if wish.purpose is not None:
        proposal = Proposal(wish.purpose, None, "as you said")
    elif proposal.drill not in (None, used.name):
        if wish.drill is None and proposal.drill in library().names():
            used = UsedDrill.of(*library().drill(proposal.drill or ""))
        else:
            proposal = Proposal(Purpose.PRACTICE, None, "another drill")
    if wish.purpose is None:
        proposal = proposal.on(used.drill.feed)
    cues = wish.cues or _cues(book, library, view, player, used, kept)
    feeds = wish.feeds or feed_lookups.last_choice(book, view.clinic.id, used)
    balls = _balls_as_before(view, player, used, proposal.purpose)
    return Plan(player, used, proposal.purpose, cues, feeds, proposal.reason, balls)


def _planned(
    book: Book, library: Callable[[], Library], view: CourtView, player: Player, wish: Wish
) -> Plan | None:
    """The player's next round of the plan kept for the day, unless the coach wishes otherwise.

    A round on court without a ball stays; a rung call taken since goes before a practice drill.
    """
    said = wish.drill or wish.purpose or wish.cues or wish.feeds
    if said or _waits_for_its_first_ball(view, player):
        return None
    left = left_to_play(book, view.clinic.id, view.day.date, player.id)
    if not left:
        return None
    name = left[0].drill
    if left[0].purpose is Purpose.PRACTICE:
        name = lookups.next_drill(book, view.clinic.id, player.id) or name
    if name not in library().names():
        return None
    used = UsedDrill.of(*library().drill(name))
    cues = _cues(book, library, view, player, used)
    feeds = feed_lookups.last_choice(book, view.clinic.id, used)
    return Plan(player, used, left[0].purpose, cues, feeds, "as planned", left[0].balls)


def _waits_for_its_first_ball(view: CourtView, player: Player) -> bool:
    live = view.live
    return live is not None and live.player.id == player.id and live.empty and live.ended_at is None


def _balls_as_before(
    view: CourtView, player: Player, used: UsedDrill, purpose: Purpose
) -> int | None:
    """What the plan gave the round on court, when only its cues change."""
    live = view.live
    if live is None or not _waits_for_its_first_ball(view, player):
        return None
    same = live.purpose is purpose and live.drill.name == used.name
    return live.plan_balls if same else None


def knows_a_drill(book: Book, view: CourtView, player: Player) -> bool:
    """Whether this player's next round needs no choice of a drill."""
    return (
        view.live is not None
        or _last_drill(book, view, player) is not None
        or bool(left_to_play(book, view.clinic.id, view.day.date, player.id))
    )


def _proposal(book: Book, view: CourtView, player: Player, stroke: str) -> Proposal:
    """What the player's balls on this stroke so far ask for."""
    live = view.live
    waits = _waits_for_its_first_ball(view, player)
    if live is not None and waits and live.drill.stroke == stroke:
        drill = live.drill.name if live.purpose is Purpose.HOLD else None
        return Proposal(live.purpose, drill, "as before")
    planned = view.clinic.planned_days
    return propose(
        history_lookups.history(book, view.clinic.id, player.id, stroke),
        view.day.date,
        planned is not None and view.day.number >= planned,
    )


def _drill(
    book: Book, library: Callable[[], Library], view: CourtView, player: Player, wish: Wish
) -> tuple[UsedDrill, tuple[str, ...] | None]:
    """The drill said; what a rung call put down; what this player had last; what is on court."""
    if wish.drill is not None:
        return UsedDrill.of(*wish.drill), None
    live = view.live
    if live is not None and _waits_for_its_first_ball(view, player):
        return live.drill, live.cue_keys
    put_down = lookups.next_drill(book, view.clinic.id, player.id)
    if put_down is not None and put_down in library().names():
        return UsedDrill.of(*library().drill(put_down)), None
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
    kept: tuple[str, ...] | None = None,
) -> tuple[str, ...]:
    """The cues the coach chose for this player on this stroke; else those in view; else the last.

    `kept` are the cues in view of the round before on the same drill; without any the stroke's
    first ones.
    """
    known = {cue.key for cue in used.cues}
    chosen = people_lookups.focus(book, view.clinic.id, player.id, used.stroke).cues
    if chosen and known.issuperset(chosen):
        return chosen
    if kept:
        return kept
    last = lookups.last_cues_of(book, player.id, view.clinic.id, used.stroke)
    if last and known.issuperset(last):
        return last
    return library().ladder(used.stroke).first_cues
