"""The printed plan of a day: order, rounds by block, balls against baskets and time, reasons."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from courtlog import times
from courtlog.coaching.voice.rung_voice import RULE
from courtlog.coaching.voice.statement import SENTENCE_ONLY, Depth
from courtlog.plain_text import many, plain
from courtlog.reports.facts.plan_models import PlanFacts, PlanLine, PlayerReason
from courtlog.reports.layout.page import WIDTH, block, cell, labelled, lines_of
from courtlog.reports.pages.plan_blocks_text import block_rows, listed_names, names_in_short
from courtlog.reports.pages.plan_notes_text import differs, notes, short_notes
from courtlog.reports.pages.plan_reach_text import reach_lines

PACE = "by the usual pace of each feed (common practice, no source), without changing over"

MOST_LINES = 30
"""Lines of the page at its first depth."""

_SHORTER = (8, 5, 3, 1)
"""Most lines for the rounds of a block, and of a list of names; tried until the page fits."""


def plan_text(facts: PlanFacts, depth: Depth = SENTENCE_ONLY, rounds: bool = False) -> str:
    """The printed plan: at most 30 lines, unless more was asked for.

    With `rounds` every round has a line of its own. `depth.why` adds reasons, `depth.figures` what
    the balls can tell.
    """
    page: list[str] = []
    for most in _SHORTER:
        page = list(_plan(facts, depth, rounds, most))
        if rounds or depth != SENTENCE_ONLY or len(page) <= MOST_LINES:
            break
    return "\n".join(page) + "\n"


def title(facts: PlanFacts) -> str:
    """`Harbour Week · plan of day 2 of 3 · Tue 12 May 2026 · the kept plan`."""
    which = "the plan you kept" if facts.kept else "a proposal"
    if facts.after_the_last and not facts.kept:
        which = "none is proposed"
    number = f"day {facts.number}"
    if facts.planned_days is not None and facts.number <= facts.planned_days:
        number += f" of {facts.planned_days}"
    return " · ".join(
        [
            plain(facts.clinic),
            f"plan of {number}",
            f"{times.date_words(facts.date)} {facts.date.year}",
            which,
        ]
    )


def _plan(facts: PlanFacts, depth: Depth, rounds: bool, most: int) -> Iterator[str]:
    yield from lines_of(title(facts))
    yield "=" * WIDTH
    if facts.blocks:
        why = "" if facts.kept else "; fewest balls so far first"
        planned = {line.player for block in facts.blocks for line in block}
        order = [name for name in facts.order if name in planned]
        yield from lines_of(f"Order: {listed_names(order)}{why}.")
        if facts.courts:
            yield ""
            yield from court_lines(facts)
        yield from _by_court(facts) if rounds else _rows(facts, most)
        yield from block("look for", list(_look_for(facts, most)))
        yield from block("in all", list(effort_words(facts) if depth.figures else _effort(facts)))
    else:
        yield "No round is planned."
    if depth == SENTENCE_ONLY:
        yield from block("notes", list(short_notes(facts)))
    else:
        if depth.why:
            yield from block("why", list(_why(facts.reasons)))
        if depth.figures:
            yield from block("can tell", list(reach_lines(facts.reach)))
            yield from block("figures", list(_figures(facts.reasons)))
        yield from block("notes", list(notes(facts)))
        yield from block("differs", list(differs(facts)))
    yield ""
    if facts.blocks and depth == SENTENCE_ONLY:
        yield MORE
    yield "A plan is only a proposal: at the court another key always goes first."


MORE = "More: --rounds for each round, --why for reasons, --figures for the counts."


def court_lines(facts: PlanFacts) -> Iterator[str]:
    """Who is on which court, in the order of play, who moves and why, and what is kept of it.

    None where all are on one court.
    """
    if not facts.courts:
        return
    for court in facts.courts:
        yield from labelled(f"court {plain(court.court)}", [listed_names(court.players)])
    for words in facts.court_moves:
        yield from labelled("", [plain(words)])
    if not facts.courts_kept:
        yield from labelled("", ["`courtlog plan keep` keeps these groups for the morning."])
    elif not facts.kept:
        again = f"`courtlog courts {len(facts.courts)} --deal level` deals afresh."
        yield from labelled("", [f"These groups are kept; {again}"])


def _by_court(facts: PlanFacts) -> Iterator[str]:
    """Every round in a table: one of all, or one for each court."""
    if not facts.courts:
        yield from _blocks(facts.blocks)
        return
    dealt = {name for court in facts.courts for name in court.players}
    everybody = {line.player for block in facts.blocks for line in block}
    told = [(f"Court {plain(court.court)}", set(court.players)) for court in facts.courts]
    told += [("On no court", everybody - dealt)] if everybody - dealt else []
    for name, players in told:
        yield ""
        yield name
        yield "=" * WIDTH
        theirs = [tuple(line for line in block if line.player in players) for block in facts.blocks]
        yield from _blocks([block for block in theirs if block])


def _rows(facts: PlanFacts, most: int) -> Iterator[str]:
    rows = list(block_rows(facts, most))
    if most == 1 and len(rows) > MOST_ROWS:
        count = many(sum(map(len, facts.blocks)), "round")
        rows = [(f"1-{facts.blocks[-1][-1].place}", f"{count}: --rounds says which")]
    yield ""
    for numbers, words in rows:
        yield from labelled(numbers, [words])


MOST_ROWS = 12
"""Rows of one line for which the page has room, whatever else it says."""


def _look_for(facts: PlanFacts, most: int) -> Iterator[str]:
    """`finish: Anouk, Ruben; turn: Kasimir`; nothing where that takes too many lines."""
    players: dict[str, list[str]] = {}
    for each in facts.look_for:
        players.setdefault(each.cue, []).append(each.player)
    words = "; ".join(f"{plain(cue)}: {names_in_short(p)}" for cue, p in players.items())
    if words and len(list(labelled("", [words]))) <= most:
        yield words


def _blocks(blocks: Sequence[tuple[PlanLine, ...]]) -> Iterator[str]:
    for number, lines in enumerate(blocks, 1):
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


def _effort(facts: PlanFacts) -> Iterator[str]:
    total = facts.effort
    yield (
        f"{many(total.balls, 'ball')}, {many(total.baskets, 'basket')} of {total.basket}, about"
        f" {total.minutes_quick} to {total.minutes_slow} minutes{_on_one(facts)}."
    )
    yield from _fits(facts)


def _on_one(facts: PlanFacts) -> str:
    return " on the court that takes longest" if facts.courts else ""


def effort_words(facts: PlanFacts) -> Iterator[str]:
    """Balls, baskets and pick-ups, minutes, and whether the day has them."""
    total = facts.effort
    yield f"{many(total.balls, 'ball')}, {total.from_basket} of them from the basket: " + (
        f"{many(total.baskets, 'basket')} of {total.basket}, {many(total.pick_ups, 'pick-up')}"
        " between."
    )
    yield (f"About {total.minutes_quick}-{total.minutes_slow} minutes{_on_one(facts)}, {PACE}.")
    yield from _fits(facts)


def _fits(facts: PlanFacts) -> Iterator[str]:
    quick, slow = facts.effort.minutes_quick, facts.effort.minutes_slow
    if facts.hours is None:
        return
    has = round(60 * facts.hours)
    if has >= slow:
        yield f"The day has {has} minutes: it fits."
    elif has >= quick:
        yield f"The day has {has} minutes: it fits only at a quick pace."
    else:
        yield (
            f"The day has {has} minutes: it does not fit. Plan fewer rounds with"
            " --practice-rounds, or fewer balls."
        )


def _why(reasons: Sequence[PlayerReason]) -> Iterator[str]:
    """The sentences that all players share, once; then each player's own; then the rule."""
    shared = _shared([[said.sentence for said in reason.said] for reason in reasons])
    yield from (f"All: {sentence}" for sentence in shared)
    for reason in reasons:
        own = [said.sentence for said in reason.said if said.sentence not in shared]
        if own:
            yield plain(f"{reason.player}: {' '.join(own)}")
    if any(said.reason for reason in reasons for said in reason.said):
        yield RULE


def _figures(reasons: Sequence[PlayerReason]) -> Iterator[str]:
    """The same with its counts."""
    shared = _shared([reason.rounds for reason in reasons])
    if shared:
        yield f"all: {'; '.join(shared)}."
    for reason in reasons:
        if any(reason_round not in shared for reason_round in reason.rounds):
            yield reason_words(reason, shared)


def _shared(each: Sequence[Sequence[str]]) -> list[str]:
    """What is said of every player, where there are several."""
    first, *others = each or [()]
    return [words for words in first if others and all(words in other for other in others)]


def reason_words(reason: PlayerReason, shared: Sequence[str] = ()) -> str:
    """Why a player's rounds are as they are, without the shared reasons."""
    return plain(f"{reason.player}: {'; '.join(s for s in reason.rounds if s not in shared)}.")
