"""What to know before a planned day: who sits out, limits, what cannot be compared."""

from __future__ import annotations

from collections.abc import Iterator

from courtlog.plain_text import listed, many, plain
from courtlog.reports.facts.plan_models import DifferenceFacts, LimitFacts, PlanFacts, PlanLine
from courtlog.reports.pages.plan_blocks_text import listed_names, names_in_short
from courtlog.reports.pages.plan_reach_text import reach_marks


def short_notes(facts: PlanFacts) -> Iterator[str]:
    """Who sits out and why, and which rounds cannot be compared: a line each."""
    if facts.held_back:
        names = [plain(held.player) for held in facts.held_back]
        sit = "sits" if len(names) == 1 else "sit"
        yield f"{listed(names)} {sit} out: a red stands, and a clinician has to speak first."
    yield from _ask_first(facts, FEW)
    limits = list(map(_limit, facts.limits))
    if len(limits) > FEW:
        limits = [f"At the ball limit: {names_in_short([x.player for x in facts.limits])}."]
    yield from limits
    yield from _no_evening(facts)
    if facts.reach is not None:
        yield from reach_marks(facts.reach)
    yield from _about_the_clinic(facts)
    if facts.kept:
        changed = facts.differences or facts.order != facts.proposed_order
        yield "The proposal is another: --why shows it." if changed else "The proposal is the same."


FEW = 3
"""So many players have a line of their own each; more of them share one."""


def _ask_first(facts: PlanFacts, few: int) -> Iterator[str]:
    asked = facts.ask_first
    if len(asked) > few:
        names = names_in_short([each.player for each in asked])
        yield f"Ask about the arm first, nothing is planned before: {names}."
        return
    for each in asked:
        stands = "they are in the plan you kept" if each.planned else "nothing is planned before"
        yield plain(f"Ask {each.player} about the arm first, {stands}: {each.reason}.")


def notes(facts: PlanFacts) -> Iterator[str]:
    """What the coach should know before the day, at length."""
    yield from _ask_first(facts, few=len(facts.ask_first))
    for held in facts.held_back:
        out = " Take their rounds out of the plan." if held.planned else ""
        yield plain(
            f"{held.player} is not on the feed ({held.reason}). Courtlog never clears a red: ask"
            f" a licensed clinician.{out}"
        )
    for limit in facts.limits:
        yield _limit(limit)
    yield from _no_evening(facts)
    if facts.reach is not None and facts.reach.too_few:
        yield (
            f"Under {facts.reach.least} balls of the main cue were seen in the first yardstick of"
            f" {listed_names(facts.reach.too_few)}: this one cannot tell what changed."
        )
    yield from _about_the_clinic(facts)


def _no_evening(facts: PlanFacts) -> Iterator[str]:
    if facts.no_evening:
        fed = {line.player for block in facts.blocks for line in block}
        everyone = set(facts.no_evening) == fed and len(fed) > 1
        who = "anyone" if everyone else listed_names(facts.no_evening)
        yield (
            "The evening before has no balls without help, so what stayed overnight cannot be"
            f" told for {who}."
        )


def _about_the_clinic(facts: PlanFacts) -> Iterator[str]:
    if facts.no_drill:
        yield f"No drill is known yet for {listed_names(facts.no_drill)}."
        yield "Choose a stroke with --stroke."
    if facts.planned_days is None:
        yield "How many days the clinic has is not known: no last yardstick is planned."
    elif facts.after_the_last:
        planned = f"The clinic was planned for {many(facts.planned_days or 0, 'day')}:"
        yield f"{planned} {'this is one more' if facts.kept else 'no further day is proposed'}."
        return
    if not facts.order and not (facts.held_back or facts.no_drill):
        yield "Nobody is on the roster: add a player at the court."


def _limit(limit: LimitFacts) -> str:
    name = plain(limit.player)
    if limit.left_out:
        return (
            f"{name} may hit {many(limit.limit, 'ball')} a day:"
            f" {many(limit.left_out, 'round')} beyond that left out."
        )
    return (
        f"{name} may hit {many(limit.limit, 'ball')} a day, and {limit.balls} are planned: take"
        " some out."
    )


def differs(facts: PlanFacts) -> Iterator[str]:
    """What the proposal would change in the kept plan."""
    if not facts.kept:
        return
    if not facts.differences and facts.order == facts.proposed_order:
        yield "The proposal is the same."
        return
    alike: dict[str, list[str]] = {}
    for difference in facts.differences:
        alike.setdefault(_difference(difference), []).append(difference.player)
    for words, players in alike.items():
        yield f"The proposal for {listed_names(players)}: {words}."
    if facts.order != facts.proposed_order:
        yield f"The proposal's order: {listed_names(facts.proposed_order)}."


def _difference(difference: DifferenceFacts) -> str:
    proposed, kept = (
        " and ".join(map(_short, lines)) for lines in (difference.proposed, difference.kept)
    )
    if proposed and kept:
        return f"{proposed} instead of {kept}"
    if proposed:
        return f"also {proposed}"
    return f"without {kept}" if kept else "the same rounds in another order"


def _short(line: PlanLine) -> str:
    return f"{line.purpose} on {plain(line.name)} ({line.balls})"
