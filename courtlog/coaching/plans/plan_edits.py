"""What a coach changes in a plan before the day; each edit gives a new plan or a plain refusal.

Places count from 1, as they are printed.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from difflib import get_close_matches

from courtlog.coaching.game.drills import Ladder
from courtlog.coaching.game.people import Player
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.plans.day_plan import find_drill
from courtlog.coaching.plans.planned_round import PlannedRound
from courtlog.coaching.plans.proposal import planned_balls
from courtlog.errors import CourtlogError, UnknownNameError
from courtlog.names import folded_name

Plan = tuple[PlannedRound, ...]

MOST_BALLS = 200
"""Most balls of one round; a drill file allows no more either."""


@dataclass(frozen=True, slots=True)
class RoundChange:
    """A change to a planned round; a field that is None stays as it is."""

    drill: str | None = None
    purpose: Purpose | None = None
    balls: int | None = None


def changed(plan: Plan, place: int, change: RoundChange, ladders: Mapping[str, Ladder]) -> Plan:
    """The plan with this change to the round of that place. Raises CourtlogError."""
    index = _at(plan, place)
    round_ = plan[index]
    after = replace(
        round_,
        drill=round_.drill if change.drill is None else known_drill(change.drill, ladders),
        purpose=change.purpose or round_.purpose,
        balls=round_.balls if change.balls is None else _balls(change.balls),
        reason="",
    )
    return (*plan[:index], after, *plan[index + 1 :])


def moved(plan: Plan, place: int, to: int) -> Plan:
    """The plan with the round of that place moved to another one. Raises CourtlogError."""
    index, target = _at(plan, place), _at(plan, to)
    rest = [*plan[:index], *plan[index + 1 :]]
    return (*rest[:target], plan[index], *rest[target:])


def dropped(plan: Plan, place: int) -> Plan:
    """The plan without the round of that place. Raises CourtlogError, also for the only one."""
    index = _at(plan, place)
    if len(plan) == 1:
        raise CourtlogError(
            "It is the plan's only round.", "Forget the plan to go back to the proposal."
        )
    return (*plan[:index], *plan[index + 1 :])


def added(plan: Plan, player: Player, change: RoundChange, ladders: Mapping[str, Ladder]) -> Plan:
    """The plan with one more round at the end, on the player's last planned drill if none is named.

    Raises CourtlogError when there is none to go on with.
    """
    last = next((round_ for round_ in reversed(plan) if round_.player.id == player.id), None)
    if change.drill is None and last is None:
        raise CourtlogError(f"No drill is planned for {player.shown_name} yet.", "Name one.")
    drill = last.drill if change.drill is None and last else known_drill(change.drill, ladders)
    purpose = change.purpose or Purpose.PRACTICE
    ladder_drill = find_drill(ladders, drill)
    usual = ladder_drill[1].balls if ladder_drill else MOST_BALLS
    balls = planned_balls(purpose, usual) if change.balls is None else _balls(change.balls)
    return (*plan, PlannedRound(player, drill, purpose, balls))


def known_drill(name: str | None, ladders: Mapping[str, Ladder]) -> str:
    """The full name of a drill as typed, or its key where only one stroke has it.

    Raises UnknownNameError, which lists the near ones.
    """
    typed = folded_name(name or "")
    names = [
        f"{stroke}/{drill.key}" for stroke, ladder in ladders.items() for drill in ladder.drills
    ]
    if typed in names:
        return typed
    keys = [full for full in names if full.partition("/")[2] == typed]
    if len(keys) == 1:
        return keys[0]
    near = keys or [full for full in names if typed and typed in full] or _alike(typed, names)
    raise UnknownNameError(
        f"There is no drill called {name!r}.",
        f"Near it: {', '.join(near[:8])}." if near else "`courtlog drills list` names them.",
    )


def _alike(typed: str, names: list[str]) -> list[str]:
    """Names spelt nearly so; without a stroke every drill whose key is spelt nearly so."""
    if "/" in typed:
        return get_close_matches(typed, names, n=5)
    keys = get_close_matches(typed, {full.partition("/")[2] for full in names}, n=2)
    return [full for full in names if full.partition("/")[2] in keys]


def purpose_named(name: str) -> Purpose:
    """A purpose as typed. Raises UnknownNameError."""
    try:
        return Purpose(folded_name(name))
    except ValueError:
        raise UnknownNameError(
            f"There is no purpose called {name!r}.", f"Write {', '.join(Purpose)}."
        ) from None


@dataclass(frozen=True, slots=True)
class PlanDifference:
    """Rounds of a player that only the proposal has, and those that only the kept plan has.

    With neither, the same rounds stand in another order.
    """

    player: Player
    proposed: Plan
    kept: Plan


def differences(kept: Plan, proposed: Plan) -> list[PlanDifference]:
    """Players whose rounds differ, in the order of the kept plan, then of the proposal."""
    players = {round_.player.id: round_.player for round_ in (*kept, *proposed)}
    by_player = []
    for player in players.values():
        ours, theirs = _of(kept, player), _of(proposed, player)
        if [round_.identity for round_ in ours] != [round_.identity for round_ in theirs]:
            by_player.append(PlanDifference(player, _less(theirs, ours), _less(ours, theirs)))
    return by_player


def _of(plan: Plan, player: Player) -> Plan:
    return tuple(round_ for round_ in plan if round_.player.id == player.id)


def _less(plan: Plan, other: Plan) -> Plan:
    """The rounds of a plan that the other plan does not have."""
    alike = Counter(round_.identity for round_ in other)
    left = []
    for round_ in plan:
        if alike[round_.identity]:
            alike[round_.identity] -= 1
        else:
            left.append(round_)
    return tuple(left)


def _at(plan: Sequence[PlannedRound], place: int) -> int:
    if not 1 <= place <= len(plan):
        raise CourtlogError(
            f"The plan has no round {place}.",
            f"Its rounds are 1 to {len(plan)}." if plan else "It is empty.",
        )
    return place - 1


def _balls(balls: int) -> int:
    if not 1 <= balls <= MOST_BALLS:
        raise CourtlogError(f"{balls} balls are no round.", f"Write 1 to {MOST_BALLS}.")
    return balls
