"""The printed plan of a day: order, rounds by block, balls against baskets and time, reasons."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from courtlog import times
from courtlog.plain_text import many, plain
from courtlog.reports.facts.plan_models import (
    DifferenceFacts,
    LimitFacts,
    PlanFacts,
    PlanLine,
    PlayerReason,
)
from courtlog.reports.layout.page import WIDTH, block, cell, lines_of
from courtlog.reports.pages.plan_reach_text import reach_lines

PACE = "by the usual pace of each feed (common practice, no source), without changing over"


def plan_text(facts: PlanFacts) -> str:
    """The whole printed plan."""
    return "\n".join(_plan(facts)) + "\n"


def title(facts: PlanFacts) -> str:
    """`Harbour Week · plan of day 2 of 3 · Tue 12 May 2026 · the kept plan`."""
    number = f"day {facts.number}"
    if facts.planned_days is not None and facts.number <= facts.planned_days:
        number += f" of {facts.planned_days}"
    return " · ".join(
        [
            plain(facts.clinic),
            f"plan of {number}",
            f"{times.date_words(facts.date)} {facts.date.year}",
            "the plan you kept" if facts.kept else "a proposal",
        ]
    )


def _plan(facts: PlanFacts) -> Iterator[str]:
    yield from lines_of(title(facts))
    yield "=" * WIDTH
    if facts.order:
        why = "" if facts.kept else " (fewest balls so far first)"
        yield from lines_of(f"Order: {_names(facts.order)}{why}.")
        yield from _blocks(facts)
        yield from block("in all", list(effort_words(facts)))
        yield from block("can tell", list(reach_lines(facts.reach)))
        yield from block("why", list(_reasons(facts.reasons)))
    else:
        yield "No round is planned."
    yield from block("notes", list(notes(facts)))
    yield from block("differs", list(differs(facts)))
    yield ""
    yield "A plan is only a proposal: at the court another key always goes first."


def _blocks(facts: PlanFacts) -> Iterator[str]:
    for number, lines in enumerate(facts.blocks, 1):
        yield ""
        yield f"Block {number}"
        yield "-" * WIDTH
        yield PLAN_HEAD
        for line in lines:
            yield plan_line(line)


PLAN_HEAD = f"{'':4} {'player':<14}{'drill':<35}{'rung':<7}{'purpose':<11}{'balls':>6}"


def plan_line(line: PlanLine) -> str:
    """One round in exactly 78 cells."""
    rung = "" if line.rung is None else f"{line.rung}/{line.top}"
    return (
        f"{line.place:>4} {cell(plain(line.player), 14)}{cell(plain(line.name), 35)}"
        f"{rung:<7}{line.purpose:<11}{line.balls:>6}"
    )


def effort_words(facts: PlanFacts) -> Iterator[str]:
    """Balls, baskets and pick-ups, minutes, and whether the day has them."""
    total = facts.effort
    yield f"{many(total.balls, 'ball')}, {total.from_basket} of them from the basket: " + (
        f"{many(total.baskets, 'basket')} of {total.basket}, {many(total.pick_ups, 'pick-up')}"
        " between."
    )
    quick, slow = total.minutes_quick, total.minutes_slow
    yield f"About {quick}-{slow} minutes, {PACE}."
    if facts.hours is None:
        return
    has = round(60 * facts.hours)
    if has >= slow:
        yield f"The day has {has} minutes: it fits."
    elif has >= quick:
        yield f"The day has {has} minutes: it fits only at a quick pace."
    else:
        yield (
            f"The day has {has} minutes: it does not fit. Fewer practice turns (--turns), or"
            " fewer balls."
        )


def _reasons(reasons: Sequence[PlayerReason]) -> Iterator[str]:
    """The reasons that all players share, once; then each player's own."""
    shared = [
        reason_round
        for reason_round in reasons[0].rounds
        if all(reason_round in other.rounds for other in reasons[1:])
    ]
    if len(reasons) > 1 and shared:
        yield f"all: {'; '.join(shared)}."
    else:
        shared = []
    for reason in reasons:
        if any(reason_round not in shared for reason_round in reason.rounds):
            yield reason_words(reason, shared)


def reason_words(reason: PlayerReason, shared: Sequence[str] = ()) -> str:
    """Why a player's rounds are as they are, without the shared reasons."""
    return plain(f"{reason.player}: {'; '.join(s for s in reason.rounds if s not in shared)}.")


def notes(facts: PlanFacts) -> Iterator[str]:
    """What the coach should know before the day."""
    for held in facts.held_back:
        out = " Take their rounds out of the plan." if held.planned else ""
        yield plain(
            f"{held.player} is not on the feed ({held.reason}). Courtlog never clears a red: ask"
            f" a licensed clinician.{out}"
        )
    for limit in facts.limits:
        yield _limit(limit)
    if facts.reach is not None and facts.reach.too_few:
        yield (
            f"Under {facts.reach.least} balls of the main cue were seen in the first yardstick of"
            f" {_names(facts.reach.too_few)}: this one cannot tell what changed."
        )
    if facts.no_drill:
        yield (
            f"No drill is known yet for {', '.join(map(plain, facts.no_drill))}: choose a"
            " stroke (--stroke)."
        )
    if facts.planned_days is None:
        yield "How many days the clinic has is not known: no last yardstick is planned."
    elif facts.number > facts.planned_days:
        yield f"The clinic was planned for {many(facts.planned_days, 'day')}: this is one more."
    if not facts.order and not (facts.held_back or facts.no_drill):
        yield "Nobody is on the roster: F9 at the court adds a player."


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
        yield f"The proposal for {_names(players)}: {words}."
    if facts.order != facts.proposed_order:
        yield f"The proposal's order: {_names(facts.proposed_order)}."


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


def _names(names: Sequence[str]) -> str:
    return ", ".join(map(plain, names)) or "nobody"
