"""The sentences of a player's answer; statements.py has the words of comparisons.

Nothing here says why something is as it is, and a score never tells which cue leads another.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from courtlog.coaching.answers.comparison import Comparison
from courtlog.coaching.voice.figures import (
    comparison_words,
    doubt_words,
    on_the_same_mix,
    points,
    verdict_words,
)
from courtlog.measures.common.enough import Words
from courtlog.measures.common.hundredths import hundredths
from courtlog.plain_text import many

if TYPE_CHECKING:
    # They load numpy, and the court speaks without it.
    from courtlog.coaching.answers.cue_curve import Curve
    from courtlog.coaching.answers.player_answer import CueAnswer, DaysTrend
    from courtlog.measures.shares.association import Keystone

LEARNING = "learning (yardstick)"
HOLD = "learning (morning round)"
PRACTICE = "performance (practice, with coaching, warmed up)"
OVERNIGHT = "overnight"
TOUGH = "tough balls"

NO_YARDSTICK = "no yardstick to compare with yet"
SAME_DAY = "the yardstick was played once so far: play the same one again to compare"


def learning_words(answer: CueAnswer) -> str:
    """The headline: the latest uncoached yardstick, or morning round, against the first one."""
    comparison = answer.headline
    if comparison is not None:
        label = LEARNING if comparison is answer.learning else HOLD
        mix = on_the_same_mix(comparison)
        return f"{label}: {comparison_words(comparison)}." + (f" {mix}" if mix else "")
    return f"{LEARNING}: {SAME_DAY if answer.start.seen else NO_YARDSTICK}."


def other_comparisons(answer: CueAnswer) -> Iterator[str]:
    """Practice, the night and tough balls: each with its counts, labelled."""
    practice = practice_words(answer)
    if practice:
        yield practice
    parts: tuple[tuple[str, Comparison | None], ...] = (
        (OVERNIGHT, answer.overnight),
        (TOUGH, answer.tough if answer.tough.late.seen else None),
    )
    for label, comparison in parts:
        if comparison is not None and comparison.result is not None:
            yield f"{label}: {comparison_words(comparison)}."


def practice_words(answer: CueAnswer) -> str:
    """The latest day's practice against the first day's; nothing where none is to compare."""
    if answer.practice is None or answer.practice.result is None:
        return ""
    return f"{PRACTICE}: {comparison_words(answer.practice)}."


def trend_words(trend: DaysTrend) -> str:
    """The trend of uncoached rounds over days, within drills, in points a day."""
    days = len(trend.days)
    balls = sum(counts.seen for _, counts in trend.days)
    if not days:
        return "rounds without help: none yet."
    head = f"rounds without help on {days} day{'' if days == 1 else 's'}, {balls} balls seen"
    if trend.alike < balls and days > 1:
        head += f", {trend.alike} of a kind seen on two days or more"
    if trend.trend is None or trend.verdict.words is Words.TOO_FEW:
        return f"{head}: {Words.TOO_FEW}."
    slope = f"{points(trend.trend.slope)} a day on like balls"
    return f"{head}: {verdict_words(trend.verdict)}, {slope}{doubt_words(trend.doubt)}."


def cue_curve_words(answer: CueAnswer) -> str:
    """The words of a cue's curve; empty where none was asked for."""
    return curve_words(answer.curve) if answer.curve_asked else ""


def curve_words(curve: Curve | None) -> str:
    """Where the player stands on the last ball, and what the curve is made of."""
    if curve is None:
        return "skill curve: too few balls to tell (20 seen balls are needed)."
    low, middle, high = (hundredths(line[-1]) for line in (curve.low, curve.median, curve.high))
    return (
        f"skill curve over all drills, coached balls too: at ball {len(curve.median)}"
        f" about {middle}% ({low} to {high}){doubt_words(curve.doubt)}."
    )


def keystone_words(keystone: Keystone | None, names: Mapping[str, str]) -> str:
    """The counts of the cue that two others go with, and what they do not show; else nothing."""
    if keystone is None or not keystone.clear:
        return ""
    cue = names[keystone.cue]
    one, other = (names[key] for key in keystone.others)
    return (
        f"Of {cue}, {one} and {other}, one was unlike the other two on {keystone.one_odd} of"
        f" {many(keystone.balls, 'ball')}. It was {cue} on {keystone.odd}, where an easy ball or a"
        f" kind eye for all three gives about {round(keystone.odd_by_ease)}. So {one} and {other}"
        f" go with {cue} more than they go with each other. A ball that suits {cue} most, or an eye"
        f" that judges the others by {cue}, does this too. It does not show that fixing {cue} fixes"
        " the others: try it for one basket and watch."
    )
