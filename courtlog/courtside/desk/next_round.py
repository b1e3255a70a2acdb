"""What the next round is: who, which drill, why and which cues, when the coach chose some of it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from courtlog.coaching.answers.highlights import of_balls
from courtlog.coaching.game.drills import Drill, Ladder, UsedDrill
from courtlog.coaching.game.people import Player
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.on_court.feed_order import FeedChoice
from courtlog.coaching.on_court.live_round import LiveRound
from courtlog.coaching.on_court.next_act import Act, CourtNow, NextAct, RoundNow, next_act
from courtlog.coaching.on_court.round_to_start import NextRound
from courtlog.coaching.plans.proposal import Proposal, propose
from courtlog.courtside.desk.court_state import CourtState
from courtlog.errors import CourtlogError
from courtlog.logbook.file.head_book import assistants_court
from courtlog.logbook.reads import feed_lookups, history_lookups, lookups, people_lookups
from courtlog.logbook.reads.clinic_lookups import left_to_play, planned


@dataclass(frozen=True, slots=True)
class Wish:
    """What the coach chose; None is left to the round before."""

    player: Player | None = None
    drill: tuple[Ladder, Drill] | None = None
    purpose: Purpose | None = None
    cues: tuple[str, ...] | None = None
    feeds: FeedChoice | None = None


def next_round(state: CourtState, wish: Wish) -> NextRound:
    """The next round. Raises CourtlogError when nobody is there or no drill is known."""
    player = wish.player or (
        state.view.live.player if state.view.live else state.view.rotation.next_up
    )
    if player is None:
        key = state.view.key(Act.ADD_PLAYER)
        raise CourtlogError("Nobody is on the roster.", f"{key} adds a player.")
    planned = _planned(state, player, wish)
    if planned is not None:
        return planned
    used, kept = _drill(state, player, wish)
    proposal = _proposal(state, player, used.stroke)
    if proposal.purpose is Purpose.PRACTICE and _drill_is_chosen(state, player, wish):
        proposal = replace(proposal, drill=None)
    if wish.purpose is not None:
        proposal = Proposal(wish.purpose, None, "as you said")
    elif proposal.drill not in (None, used.name):
        if wish.drill is None and proposal.drill in state.library.names():
            used = UsedDrill.of(*state.library.drill(proposal.drill or ""))
        else:
            proposal = Proposal(Purpose.PRACTICE, None, "another drill")
    if wish.purpose is None:
        proposal = proposal.on(used.drill.feed)
    cues = wish.cues or _cues(state, player, used, kept)
    feeds = wish.feeds or feed_lookups.last_choice(state.book, state.view.clinic.id, used)
    balls = _balls_as_before(state, player, used, proposal.purpose)
    return NextRound(player, used, proposal.purpose, cues, feeds, proposal.reason, balls)


def round_of_next_up(state: CourtState) -> NextRound | None:
    """What the key for the next player would start; None where nobody can come or no drill is."""
    player = state.view.rotation.next_up
    try:
        return next_round(state, Wish(player)) if player is not None else None
    except CourtlogError:
        return None


def _planned(state: CourtState, player: Player, wish: Wish) -> NextRound | None:
    """The player's next round of the plan kept for the day, unless the coach wishes otherwise.

    A round on court without a ball stays; a rung call taken since goes before a practice drill.
    """
    chosen = wish.drill or wish.purpose or wish.cues or wish.feeds
    if chosen or _waits_for_its_first_ball(state, player):
        return None
    left = left_to_play(state.book, state.view.clinic.id, state.view.day.date, player.id)
    if not left:
        return None
    name = left[0].drill
    if left[0].purpose is Purpose.PRACTICE:
        name = lookups.next_drill(state.book, state.view.clinic.id, player.id) or name
    if name not in state.library.names():
        return None
    used = UsedDrill.of(*state.library.drill(name))
    cues = _cues(state, player, used)
    feeds = feed_lookups.last_choice(state.book, state.view.clinic.id, used)
    return NextRound(player, used, left[0].purpose, cues, feeds, "as planned", left[0].balls)


def _waits_for_its_first_ball(state: CourtState, player: Player) -> bool:
    live = state.view.live
    return live is not None and live.player.id == player.id and live.empty and live.ended_at is None


def _balls_as_before(
    state: CourtState, player: Player, used: UsedDrill, purpose: Purpose
) -> int | None:
    """What the plan gave the round on court, when only its cues change."""
    live = state.view.live
    if live is None or not _waits_for_its_first_ball(state, player):
        return None
    same = live.purpose is purpose and live.drill.name == used.name
    return live.plan_balls if same else None


def knows_a_drill(state: CourtState, player: Player) -> bool:
    """Whether this player's next round needs no choice of a drill."""
    return (
        state.view.live is not None
        or _last_drill(state, player) is not None
        or bool(left_to_play(state.book, state.view.clinic.id, state.view.day.date, player.id))
    )


def _proposal(state: CourtState, player: Player, stroke: str) -> Proposal:
    """What the player's balls on this stroke so far ask for."""
    live = state.view.live
    waits = _waits_for_its_first_ball(state, player)
    if live is not None and waits and live.drill.stroke == stroke:
        drill = live.drill.name if live.purpose is Purpose.HOLD else None
        return Proposal(live.purpose, drill, "as before")
    planned, number = state.view.clinic.planned_days, state.view.day.number
    proposal = propose(
        history_lookups.history_without_ties(state.book, state.view.clinic.id, player.id, stroke),
        state.view.day.date,
        planned is not None and number >= planned,
    )
    if planned is not None and number > planned and proposal.purpose in _COMPARES_DAYS:
        return Proposal(Purpose.PRACTICE, None, "the planned days are over")
    return proposal


_COMPARES_DAYS = (Purpose.HOLD, Purpose.YARDSTICK)
"""Rounds that a day of the plan is held against others by."""


def _drill(
    state: CourtState, player: Player, wish: Wish
) -> tuple[UsedDrill, tuple[str, ...] | None]:
    """The drill chosen, else that of a rung call, the player's last, or a new player's first."""
    if wish.drill is not None:
        return UsedDrill.of(*wish.drill), None
    live = state.view.live
    if live is not None and _waits_for_its_first_ball(state, player):
        return live.drill, live.cue_keys
    put_down = lookups.next_drill(state.book, state.view.clinic.id, player.id)
    if put_down is not None and put_down in state.library.names():
        return UsedDrill.of(*state.library.drill(put_down)), None
    if live is not None and live.player.id == player.id:
        return live.drill, live.cue_keys
    last = _last_drill(state, player)
    if last is not None:
        return last
    if live is not None:
        return _first_drill(state, live.drill), None
    raise CourtlogError("No drill is chosen.", "Choose one first.")


def _first_drill(state: CourtState, on_court: UsedDrill) -> UsedDrill:
    """Where a new player begins: as the clinic began this stroke, else the first fed drill."""
    ladder = state.library.ladders.get(on_court.stroke)
    if ladder is None:
        return on_court
    first = lookups.first_drill(state.book, state.view.clinic.id, on_court.stroke)
    if first in state.library.names():
        return UsedDrill.of(*state.library.drill(first or ""))
    return UsedDrill.of(ladder, ladder.first_fed)


def _drill_is_chosen(state: CourtState, player: Player, wish: Wish) -> bool:
    """Whether the coach named the next drill, now or by taking a rung call."""
    put_down = lookups.next_drill(state.book, state.view.clinic.id, player.id)
    return wish.drill is not None or put_down in state.library.names()


def _last_drill(state: CourtState, player: Player) -> tuple[UsedDrill, tuple[str, ...]] | None:
    return lookups.last_drill_of(state.book, player.id, state.view.clinic.id)


def _cues(
    state: CourtState,
    player: Player,
    used: UsedDrill,
    kept: tuple[str, ...] | None = None,
) -> tuple[str, ...]:
    """The cues the coach chose for this player on this stroke; else those in view; else the last.

    `kept` are the cues in view of the round before on the same drill; without any the stroke's
    first ones.
    """
    cues = people_lookups.cues_to_rate(
        state.book,
        state.view.clinic.id,
        player.id,
        used.stroke,
        {cue.key for cue in used.cues},
        kept or (),
    )
    return cues or state.library.ladder(used.stroke).first_cues


def court_now(state: CourtState) -> CourtNow:
    """All that decides what comes next; of the book only what a round that is over needs."""
    view = state.view
    live, rotation = view.live, view.rotation
    next_up = rotation.next_up
    if live is not None and next_up is not None and next_up.id == live.player.id:
        next_up = None
    return CourtNow(
        round=None if live is None else _round_now(state, live),
        next_up="" if next_up is None else next_up.list_name,
        anybody=bool(view.roster),
        paused=view.paused,
        basket_empty=view.basket.empty,
        read_only=view.read_only,
        plan_played=view.ended and _plan_is_played(state),
        day_ended=state.ended_day == view.day.id,
        day=view.day.number,
        planned_days=view.clinic.planned_days,
        head_picks_cues=assistants_court(state.book.db) is not None,
    )


def what_next(state: CourtState) -> NextAct | None:
    """What to do now; None while the next ball is to be fed, and where the keys are not known."""
    view = state.view
    if not view.act_keys:
        return None
    return next_act(court_now(state), {act: view.key(act) for act in view.act_keys})


def _round_now(state: CourtState, live: LiveRound) -> RoundNow:
    court, today = state.view.rotation.court, state.view.day.date
    who = live.player.id
    now = RoundNow(
        player=live.player.list_name,
        purpose=live.purpose,
        balls=len(live.feeding.taken),
        planned=live.planned,
        over=live.ended_at is not None,
        can_go_on=who not in court.away and who not in court.off,
    )
    if not now.over or not now.balls:
        return now
    history = history_lookups.history_without_ties(
        state.book, state.view.clinic.id, who, live.drill.stroke
    )
    yardstick = history.of(Purpose.YARDSTICK)
    practice = history.on(today).of(Purpose.PRACTICE, Purpose.TRANSFER)
    main = live.main_cue
    one_thing = of_balls(history.on(today), live.cue_keys).one_thing
    least = live.drill.cue(one_thing.cue) if one_thing else None
    first = main or least
    return replace(
        now,
        first_cue=first.name if first else "",
        main_goes_first=least not in (first, None),
        later_yardstick=any(ball.day < today for ball in yardstick.balls),
        practised=bool(practice.balls),
        again=_purpose_of(state, live.player),
    )


def _purpose_of(state: CourtState, player: Player) -> Purpose | None:
    try:
        return next_round(state, Wish(player)).purpose
    except CourtlogError:
        return None


def _plan_is_played(state: CourtState) -> bool:
    """Whether a plan was kept for the day, and nobody who can hit has a round of it left."""
    book, clinic, on = state.book, state.view.clinic.id, state.view.day.date
    if not planned(book, clinic, on):
        return False
    able = state.view.rotation.court.queue
    return not any(left_to_play(book, clinic, on, player.id) for player in able)
