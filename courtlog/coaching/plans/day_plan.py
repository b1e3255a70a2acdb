"""The plan for a day: what each player's balls ask for, in blocks in which everyone comes once.

Each player's rounds are those the court would propose, one after the other. Uncoached ones come
first, at the same place for all. The day ends with a few more for the next morning to be held
against. The order is the same in every block, so that everyone waits alike.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from itertools import zip_longest

from courtlog.coaching.answers.ball_history import BallKind, History, PastBall
from courtlog.coaching.answers.rung_call import RungCall, rung_call
from courtlog.coaching.game.drills import Drill, Feed, Ladder
from courtlog.coaching.game.people import Player
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.plans.planned_round import PlannedRound
from courtlog.coaching.plans.proposal import EVENING_BALLS, planned_balls, propose
from courtlog.coaching.plans.rotation import fewest_first
from courtlog.coaching.voice.figures import CALLS
from courtlog.measures.common.enough import Words

PRACTICE_TURNS = 2
"""Practice rounds a player, when the coach says nothing else."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StrokeStanding:
    """Where a player stands before the day, on one stroke."""

    player: Player
    """Who it is about."""
    balls: int
    """All balls so far in the clinic."""
    history: History
    """The balls on the stroke."""
    cues: tuple[str, ...]
    """Keys of the cues, in stroke order."""
    left_on: BallKind
    """The drill practice was left on, or the one to begin with."""
    put_down: str | None = None
    """The drill of a rung call that was taken."""
    limit: int | None = None
    """The most balls of a day."""
    held_back: str = ""
    """Why a red keeps the player off the feed."""
    ask_first: str = ""
    """Why the arm is to be asked about first: an amber that stands."""

    @property
    def call(self) -> RungCall | None:
        """The rung call that practice starts from; None where no cue was practised on the rung."""
        return rung_call(self.history, self.left_on.drill, self.cues)


@dataclass(frozen=True, slots=True)
class PlannedTurn:
    """One round asked for: why, on which drill (`up`: one rung above it), and the reason.

    `balls` is None where drill and purpose say how many.
    """

    purpose: Purpose
    drill: str
    reason: str
    up: bool = False
    balls: int | None = None


@dataclass(frozen=True, slots=True)
class DayTurns:
    """What a player's day asks for: uncoached rounds, the first practice round, the evening's."""

    uncoached: tuple[PlannedTurn, ...]
    practice: PlannedTurn
    evening: PlannedTurn | None


def where_left(history: History) -> BallKind | None:
    """The kind of the last practice ball, else of the last ball; None without balls."""
    balls = history.of(Purpose.PRACTICE).balls or history.balls
    return balls[-1].kind if balls else None


def turns_of(standing: StrokeStanding, on: date, last_day: bool) -> DayTurns:
    """The player's rounds of the day."""
    history, turns = standing.history, list[PlannedTurn]()
    while True:
        feed = Feed(history.balls[-1].kind.feed if history.balls else standing.left_on.feed)
        proposal = propose(history, on, last_day)
        if proposal.drill is None:
            proposal = proposal.on(feed)  # a drill it names was measured by before
        if proposal.purpose is Purpose.PRACTICE:
            practice = _practice(standing)
            evening = None if last_day else _evening(standing, history, on, practice)
            return DayTurns(tuple(turns), practice, evening)
        drill = proposal.drill or standing.left_on.drill
        turns.append(PlannedTurn(proposal.purpose, drill, proposal.reason))
        history = _as_if_played(history, on, turns[-1], standing.left_on)


def _as_if_played(history: History, on: date, turn: PlannedTurn, kind: BallKind) -> History:
    """The history with one ball of that turn, so that the next proposal can follow it."""
    kinds = (ball.kind for ball in reversed(history.balls) if ball.kind.drill == turn.drill)
    played = next(kinds, kind)._replace(drill=turn.drill)
    return replace(history, balls=(*history.balls, PastBall(on, -1, turn.purpose, played, {})))


def _evening(
    standing: StrokeStanding, history: History, on: date, practice: PlannedTurn
) -> PlannedTurn | None:
    """The uncoached end of the day, on the drill that the next morning is held on."""
    played = _as_if_played(history, on, practice, standing.left_on)
    morning = propose(played, on + timedelta(days=1), last_day=False)
    if morning.purpose is not Purpose.HOLD or morning.drill is None:
        return None
    follows_practice = not played.of(Purpose.YARDSTICK).balls
    return PlannedTurn(
        Purpose.HOLD,
        morning.drill,
        "to compare with the next morning",
        up=practice.up and follows_practice,
        balls=EVENING_BALLS,
    )


def _practice(standing: StrokeStanding) -> PlannedTurn:
    drill, call = standing.left_on.drill, standing.call
    if not standing.history.balls:
        return PlannedTurn(Purpose.PRACTICE, drill, "the chosen cues are taught")
    if standing.put_down is not None:
        return PlannedTurn(Purpose.PRACTICE, standing.put_down, "the rung call was taken")
    if call is None:
        return PlannedTurn(
            Purpose.PRACTICE,
            drill,
            f"no practice ball with a cue seen on this rung: {Words.TOO_FEW}",
        )
    if call.ready:
        return PlannedTurn(Purpose.PRACTICE, drill, CALLS["up"], up=True)
    if call.slipping:
        return PlannedTurn(Purpose.PRACTICE, drill, "was ready, and is missed more: look again")
    return PlannedTurn(Purpose.PRACTICE, drill, too_few(call) + CALLS[call.decision])


def too_few(call: RungCall) -> str:
    """The words before a call that the balls cannot bear yet; nothing before one they can."""
    return f"{Words.TOO_FEW}: " if call.decision == "keep feeding" and not call.slipping else ""


@dataclass(frozen=True, slots=True)
class OverLimit:
    """A player whose rounds went beyond the limit; `left_out` rounds were dropped."""

    player: Player
    limit: int
    left_out: int


@dataclass(frozen=True, slots=True)
class DayPlan:
    """The rounds in the order of play, the players in theirs, and whose were cut to a limit.

    Players to ask about their arm first come last in the order, and have no rounds.
    """

    rounds: tuple[PlannedRound, ...]
    order: tuple[Player, ...]
    over: tuple[OverLimit, ...]


def plan_day(
    standings: Sequence[StrokeStanding],
    on: date,
    last_day: bool,
    ladders: Mapping[str, Ladder],
    practice_turns: int = PRACTICE_TURNS,
) -> DayPlan:
    """The plan of a date: fewest balls so far first, then as given; the same order in each block.

    Everyone gets the same number of rounds: fewer uncoached ones mean more practice. The evening's
    come last, so that a ball limit takes them first. An amber that stands comes before all that:
    nothing is planned until the player was asked.
    """
    on_feed = {standing.player: standing for standing in standings if not standing.held_back}
    order = fewest_first(
        {player: before.balls for player, before in on_feed.items()},
        {player for player, before in on_feed.items() if before.ask_first},
    )
    fed = [on_feed[player] for player in order if not on_feed[player].ask_first]
    turns_each = [turns_of(standing, on, last_day) for standing in fed]
    blocks = max((len(turns.uncoached) for turns in turns_each), default=0) + practice_turns
    columns, over = [], []
    for standing, turns in zip(fed, turns_each, strict=True):
        practices = blocks - len(turns.uncoached)
        more = (replace(turns.practice, reason="practice goes on"),) * (practices - 1)
        evening = (turns.evening,) if turns.evening else ()
        asked = (*turns.uncoached, turns.practice, *more, *evening)
        rounds = [_round(standing.player, turn, ladders) for turn in asked]
        within = list(_within(rounds, standing.limit, ladders))
        if standing.limit is not None and len(within) < len(rounds):
            over.append(OverLimit(standing.player, standing.limit, len(rounds) - len(within)))
        columns.append(within)
    return DayPlan(
        tuple(round_ for block in zip_longest(*columns) for round_ in block if round_ is not None),
        tuple(order),
        tuple(over),
    )


def find_drill(ladders: Mapping[str, Ladder], name: str) -> tuple[Ladder, Drill] | None:
    """A drill by its full name, if the ladders still have it."""
    stroke, _, key = name.partition("/")
    ladder = ladders.get(stroke)
    drill = ladder.drill(key) if ladder else None
    return (ladder, drill) if ladder and drill else None


USUAL_BALLS = 10
"""Balls of a drill that the ladders no longer have (common practice, no source: 6 to 10)."""


def _round(player: Player, turn: PlannedTurn, ladders: Mapping[str, Ladder]) -> PlannedRound:
    name, reason = turn.drill, turn.reason
    ladder_drill = find_drill(ladders, name)
    if ladder_drill is not None and turn.up:
        above = ladder_drill[0].beside(ladder_drill[1], 1)
        if above is None and turn.purpose is Purpose.PRACTICE:
            reason = f"{reason}, and this is the highest rung"
        if above is not None:
            ladder_drill = ladder_drill[0], above
            name = f"{ladder_drill[0].stroke}/{above.key}"
    usual = ladder_drill[1].balls if ladder_drill else USUAL_BALLS
    balls = planned_balls(turn.purpose, usual) if turn.balls is None else turn.balls
    return PlannedRound(player, name, turn.purpose, balls, reason)


def _within(
    rounds: Sequence[PlannedRound], limit: int | None, ladders: Mapping[str, Ladder]
) -> Iterator[PlannedRound]:
    """The rounds up to the first that would go beyond the limit; swings without a ball are free."""
    balls = 0
    for round_ in rounds:
        balls += hits(round_, ladders)
        if limit is not None and balls > limit:
            return
        yield round_


def hits(round_: PlannedRound, ladders: Mapping[str, Ladder]) -> int:
    """Balls the player hits in this round; a shadow swing and the fence have none."""
    ladder_drill = find_drill(ladders, round_.drill)
    return 0 if ladder_drill and not ladder_drill[1].feed.has_ball else round_.balls
