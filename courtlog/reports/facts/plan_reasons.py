"""Why each player's rounds are as they are, what to look for, and what cannot be compared."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from courtlog.coaching.answers.highlights import of_last_day
from courtlog.coaching.answers.overnight import has_evening
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.plans.day_plan import StrokeStanding, too_few
from courtlog.coaching.plans.plan_edits import Plan
from courtlog.coaching.plans.planned_round import evening_holds
from courtlog.coaching.voice.figures import rung_call_words
from courtlog.coaching.voice.rung_voice import rung_statement
from courtlog.coaching.voice.statement import SILENCE, Statement
from courtlog.measures.common.enough import Words
from courtlog.reports.facts.plan_lines import PlanLines
from courtlog.reports.facts.plan_models import LookFor, PlayerReason


def plan_reasons(
    rounds: Plan, proposal: Plan, standings: Sequence[StrokeStanding], lines: PlanLines
) -> Sequence[PlayerReason]:
    """The reasons, player by player in the order of play, without repeats."""
    proposed = reversed(list(zip(_tasks(proposal), proposal, strict=True)))
    known = {task: round_.reason for task, round_ in proposed}
    by_id = {standing.player.id: standing for standing in standings}
    by_player: dict[str, list[Statement]] = {}
    for task, round_ in zip(_tasks(rounds), rounds, strict=True):
        why = Statement(known.get(task, "as you said"))
        if round_.purpose is Purpose.PRACTICE and task in known:
            why = _called(by_id[round_.player.id], lines) or why
        figures = f"{round_.purpose}: {why.figures or why.sentence}"
        sentence = (
            why.sentence if why.figures else f"{_PLANNED_AS[round_.purpose]}: {why.sentence}."
        )
        by_player.setdefault(round_.player.shown_name, []).append(
            Statement(sentence, why.reason, figures)
        )
    return [
        PlayerReason(
            player=name,
            rounds=tuple(dict.fromkeys(reason.figures for reason in reasons)),
            said=tuple(dict.fromkeys(reasons)),
        )
        for name, reasons in by_player.items()
    ]


_PLANNED_AS = {purpose: str(purpose).capitalize() for purpose in Purpose}
"""How a sentence about a round of this purpose begins."""


def _tasks(rounds: Plan) -> list[tuple[tuple[int, str, Purpose], bool]]:
    """Each round's task, and whether it is an evening's hold."""
    evenings = set()
    for player in {round_.player.id for round_ in rounds}:
        places = [place for place, round_ in enumerate(rounds) if round_.player.id == player]
        theirs = evening_holds([rounds[place].purpose for place in places])
        evenings |= {places[index] for index in theirs}
    return [(round_.task, place in evenings) for place, round_ in enumerate(rounds)]


def _called(standing: StrokeStanding, lines: PlanLines) -> Statement:
    """The rung call with its counts, where it decides the practice drill."""
    if not standing.history.balls or standing.put_down is not None:
        return SILENCE
    call, drill = standing.call, lines.drill_name(standing.left_on.drill)
    said = rung_statement(call, lines.plain_names(standing), drill)
    if call is None:
        none_seen = f"no practice ball with a cue seen on this rung: {Words.TOO_FEW}"
        return Statement(said.sentence, said.reason, none_seen)
    figures = too_few(call) + rung_call_words(call, lines.cue_names(standing))
    return Statement(said.sentence, said.reason, figures)


def without_evening(rounds: Plan, standings: Sequence[StrokeStanding]) -> Iterator[str]:
    """Players whose morning's hold will not be held against an uncoached evening."""
    by_id = {standing.player.id: standing for standing in standings}
    for (_, evening), round_ in zip(_tasks(rounds), rounds, strict=True):
        standing = by_id.get(round_.player.id)
        if standing is None or evening or round_.purpose is not Purpose.HOLD:
            continue
        if not has_evening(standing.history, round_.drill):
            yield round_.player.shown_name


def things_to_look_for(
    rounds: Plan, standings: Sequence[StrokeStanding], lines: PlanLines
) -> Iterator[LookFor]:
    """The one thing of each player's last day, where practice is planned."""
    by_id = {standing.player.id: standing for standing in standings}
    for player in dict.fromkeys(r.player for r in rounds if r.purpose is Purpose.PRACTICE):
        standing = by_id.get(player.id)
        if standing is None:
            continue
        one = of_last_day(standing.history, standing.cues).one_thing
        if one is not None:
            yield LookFor(player=player.shown_name, cue=lines.plain_names(standing)[one.cue])
