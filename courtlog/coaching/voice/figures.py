"""The words of every statement about balls, each with its counts and what it rests on.

Points are hundredths of a share. A statement never says why something is as it is.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from courtlog.coaching.answers.ball_history import Doubt
from courtlog.coaching.answers.comparison import MOSTLY_ALIKE, Comparison
from courtlog.coaching.answers.rung_call import RungCall
from courtlog.coaching.game.speaking import Speak, Wording
from courtlog.measures.common.enough import LOOK_DOUBT, PLAN_NEXT, Question, Verdict, Words
from courtlog.measures.common.hundredths import hundredths
from courtlog.plain_text import many

NOTHING_ALIKE = f"no ball of the same kind both times: {Words.NOTHING_ALIKE}"

CALLS = {
    "up": "ready to move up",
    "not yet": "not yet",
    "keep feeding": "keep feeding",
    "undecided": "undecided: keep this rung",
}


LOOK_LUCK = f"about 1 in {round(1 / LOOK_DOUBT)}"
MAY_BE = "may be a gain", "may be a drop", "may be higher", "may be lower"
LOOKS_BY_LUCK = f"What only may be: luck alone makes {LOOK_LUCK} of these comparisons look so."
"""Said once on a page that has a comparison of that kind."""

SLIP_BY_LUCK = "by luck alone 1 cue in 10 a week"


def comparison_words(comparison: Comparison) -> str:
    """`14 of 20 today, 6 of 20 on day 1: a real gain, +40 points (10 to 62)`."""
    if comparison.result is None:
        return NOTHING_ALIKE
    counts = f"{comparison.late.words()}, {comparison.early.words()}"
    if not comparison.bears_statement:
        return f"{counts}: {Words.TOO_FEW}{_needed(comparison)}"
    if comparison.verdict.words is Words.NOT_LIKE:
        return f"{counts}: {Words.NOT_LIKE}{doubt_words(comparison.doubt)}"
    verdict = verdict_words(comparison.verdict, comparison.over_time)
    words = f"{verdict}, {_points(comparison)}{_part(comparison)}"
    rest = _cold(comparison) + _alike(comparison) + _plan(comparison)
    return f"{counts}: {words}{rest}{doubt_words(comparison.doubt)}"


def verdict_words(verdict: Verdict, over_time: bool = True) -> str:
    """`a real gain`, `may be a drop`, `cannot tell`; of tough balls `may be lower`."""
    gain, drop, higher, lower = MAY_BE
    match verdict.words:
        case Words.CLEARLY_UP:
            return "a real gain"
        case Words.CLEARLY_DOWN:
            return "a real drop"
        case Words.COULD_BE_EITHER:
            return "cannot tell"
        case Words.WORTH_A_LOOK if over_time:
            return gain if verdict.direction > 0 else drop
        case Words.WORTH_A_LOOK:
            return higher if verdict.direction > 0 else lower
        case others:
            return str(others)


def looks_told(lines: Iterable[str]) -> bool:
    """Whether a page says of some comparison what it only may be."""
    text = " ".join(" ".join(lines).split())
    return any(words in text for words in MAY_BE)


def doubt_words(doubt: Doubt | None) -> str:
    """The remark after every verdict on a cue that is not seen the same way twice, or nothing."""
    if doubt is None:
        return ""
    return (
        f" (but on {many(doubt.balls, 'ball')} rated twice this cue was not seen alike,"
        f" {doubt.value:.2f}: no verdict stands on it)"
    )


def on_the_same_mix(comparison: Comparison) -> str:
    """`On the same mix of balls: 32% made on day 1, 65% on day 5.`, or nothing."""
    mix = comparison.early_mix
    if mix is None or not comparison.bears_statement:
        return ""
    return (
        f"On the same mix of balls: {_percent(mix.early)} made {comparison.early.label},"
        f" {_percent(mix.late)} {comparison.late.label}."
    )


def rung_sentence(call: RungCall | None, names: Mapping[str, str]) -> str:
    """`Rung: not yet (turn 0 of the 3 balls that decided it).`"""
    return f"Rung: {rung_call_words(call, names)}."


def rung_call_words(call: RungCall | None, names: Mapping[str, str]) -> str:
    """The rung call with the two numbers it needs, said of the cue that decides."""
    if call is None:
        return "no practice ball with a cue seen on it yet"
    if call.slipping:
        slipping = ", ".join(names[cue.cue] for cue in call.slipping)
        return (
            f"look again before moving up: {slipping} was ready, and is missed more now"
            f" ({SLIP_BY_LUCK}){doubt_words(call.slipping[0].doubt)}"
        )
    cue = call.weakest
    head = f"{CALLS[call.decision]} ({names[cue.cue]}"
    rest = doubt_words(cue.doubt) + _but_uncoached(call, names)
    if cue.makes_to_up is None or cue.misses_to_not_yet is None:
        return f"{head} {cue.made} of the {cue.seen} balls that decided it){rest}"
    parts = [
        *(["passed once, twice is needed"] if cue.ups else []),
        *([f"{cue.made} of {cue.seen} made"] if cue.seen else []),
        f"the next {cue.makes_to_up} made: {'ready to move up' if cue.ups else 'passed once'}",
        f"{cue.misses_to_not_yet} more missed: not ready",
    ]
    return f"{head} {'; '.join(parts)}){rest}"


def _but_uncoached(call: RungCall, names: Mapping[str, str]) -> str:
    """What uncoached balls on the drill say against the call, or nothing."""
    against = call.contradicted
    if against is None:
        return ""
    counts = against.uncoached
    return f"; but without coaching {names[against.cue]} {counts.made} of {counts.seen}, last time"


def next_wording_plan(speak: int, of: int) -> str:
    """The fading plan's sentence for the next round."""
    if speak >= of:
        return "Next practice round: say it on every ball."
    return f"Next practice round: say it on {speak} of {of} balls, stay quiet on the rest."


def speaking_words(
    wordings: Sequence[Wording], balls: int, speak: Speak, advised: int | None
) -> str:
    """After how many balls the coach spoke, what the rule said, and in which wordings."""
    first = sum(word is Wording.INNER for word in wordings)
    rule = "plan" if speak is Speak.PLAN else "misses and three nears"
    said_so = "" if advised is None else f" ({rule}: {advised})"
    return (
        f"Spoke after {len(wordings)} of {many(balls, 'ball')}{said_so};"
        f" first wording {first}, second {len(wordings) - first}."
    )


def spoke_uncoached_words(times_spoken: int, balls: int) -> str:
    """The remark that the coach spoke in a round that was to be uncoached."""
    return (
        f"You spoke after {times_spoken} of {many(balls, 'ball')}: this round was to be without"
        " help, and it was not purely so."
    )


def few_balls(seen: int, needed: int, cue: str) -> str:
    """The warning that a round to be compared has too few balls seen; empty with enough."""
    if seen >= needed:
        return ""
    return (
        f"{cue} was seen on {many(seen, 'ball')}: a fair comparison needs {needed - seen} more,"
        f" {needed} in all."
    )


def _needed(comparison: Comparison) -> str:
    if comparison.result is not None and comparison.result.share_used < MOSTLY_ALIKE:
        share = _percent(comparison.result.share_used)
        return f" (only {share} of the balls are of the same kind both times)"
    if not comparison.needed:
        return _alike(comparison) + _plan(comparison)
    return f" (under {comparison.needed} seen; plan {PLAN_NEXT} next time)"


def _cold(comparison: Comparison) -> str:
    """What else makes a morning look worse than the evening before."""
    if comparison.question is not Question.OVERNIGHT or comparison.verdict.direction >= 0:
        return ""
    return "; a cold start does this too"


def _alike(comparison: Comparison) -> str:
    """How many balls these count as, where each goes as the one before more than by luck."""
    if comparison.tie is None:
        return ""
    balls = comparison.late.seen
    worth = round(comparison.tie.worth(balls))
    return f"; balls in a row go alike, so {balls} count as about {worth}"


def _plan(comparison: Comparison) -> str:
    """Advice for the next clinic where the planned comparison did not settle it.

    Feeding on now until it is clear would find a change by luck.
    """
    settled = comparison.verdict.words not in (Words.COULD_BE_EITHER, Words.TOO_FEW)
    if settled or not comparison.planned:
        return ""
    if min(comparison.late.seen, comparison.early.seen) >= PLAN_NEXT:
        return ""
    return f" (plan {PLAN_NEXT} next time)"


def _points(comparison: Comparison) -> str:
    result = comparison.result
    assert result is not None
    low, high = hundredths(result.low), hundredths(result.high)
    mix = " on the same mix" if result.strata_used > 1 else ""
    unequal = f", not the same in every {comparison.unequal_by}" if comparison.unequal_by else ""
    return f"{points(result.value)}{mix} ({low} to {high}){unequal}"


def points(change: float) -> str:
    """A change of a share in points: `+12 points`, `0 points`."""
    whole = hundredths(change)
    return f"{whole:+d} points" if whole else "0 points"


def _part(comparison: Comparison) -> str:
    result = comparison.result
    assert result is not None
    if result.share_used >= 1:
        return ""
    both = "both times" if comparison.over_time else "in both"
    return f"; {_percent(result.share_used)} of the balls are of a kind seen {both}"


def _percent(share: float) -> str:
    return f"{hundredths(share)}%"
