"""Whether a cue changed, in words: the counts then and now, and what they can bear.

The counts come before the verdict (Gigerenzer G et al. 2007, Psychol Sci Public Interest 8:53-96).
Words stand beside numbers (Budescu DV, Por HH, Broomell SB 2012, Clim Change 113:181-200).
A range told openly costs little trust (van der Bles AM et al. 2020, PNAS 117:7672-7683).
"Cannot tell" is never "no change".
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from courtlog.coaching.answers.comparison import MOSTLY_ALIKE, Comparison
from courtlog.coaching.voice import answer_figures
from courtlog.coaching.voice.day_names import DayNames
from courtlog.coaching.voice.figures import LOOK_LUCK, comparison_words, verdict_words
from courtlog.coaching.voice.plain_numbers import balls_of, between_parts, more_or_fewer
from courtlog.coaching.voice.sentence_length import sentences
from courtlog.coaching.voice.statement import SILENCE, Statement
from courtlog.measures.common.enough import DOUBT, PLAN_NEXT, Question, Words
from courtlog.measures.common.hundredths import hundredths
from courtlog.plain_text import capital

if TYPE_CHECKING:
    # They load numpy, and the court speaks without it.
    from courtlog.coaching.answers.player_answer import CueAnswer, DaysTrend
    from courtlog.measures.shares.association import Keystone

CANNOT_TELL = "Up, down or the same: these balls cannot tell."
CANNOT_TELL_TOUGH = "More often made or less: these balls cannot tell."
REAL = {1: "That is a real gain.", -1: "That is a real drop."}
LOOK = {1: "That may be a gain: keep watching.", -1: "That may be a drop: keep watching."}
LOOK_TOUGH = {1: "It may be better on tough balls.", -1: "It may be harder on tough balls."}
RATED_TWO_WAYS = "Rated twice, it came out two ways, so nothing is claimed."
NOT_TO_COMPARE = "These two cannot be compared."
NOTHING_ALIKE = "no balls of one kind on two days, so nothing can be compared."
NOT_PLAYED = "not tested at the start, so then and now cannot be compared."
NOT_TESTED = Statement("Nothing was tested at the start, so then and now cannot be compared.")
_AT_ONCE = {2: "both at once", 3: "all three at once", 4: "all four at once"}
PLAY_AGAIN = "Play that round again to see a change."


def cue_change(answer: CueAnswer, name: str, days: DayNames, short_name: str = "") -> Statement:
    """The headline of a cue: its latest uncoached balls against the first yardstick."""
    short_name = short_name or name
    figures = answer_figures.learning_words(answer)
    comparison = answer.headline
    if comparison is not None:
        short = _in_short(comparison, short_name, days)
        return _told(comparison, _uncoached(comparison, name, days), figures, short)
    if answer.start_on is None or not answer.start.seen:
        return Statement(f"{capital(name)}: {NOT_PLAYED}", figures=figures)
    if answer.learning is not None or answer.hold is not None:
        return Statement(f"{capital(name)}: {NOTHING_ALIKE}", figures=figures)
    counts = balls_of(answer.start.made, answer.start.seen)
    when = days.on(answer.start_on)
    once = f"{capital(name)}: {counts} {when}, no help."
    short = f"{short_name} {answer.start.made} of {answer.start.seen} {when}, no help"
    return Statement(f"{once} {PLAY_AGAIN}", figures=figures, short=short)


def uncoached_change(
    comparison: Comparison, name: str, days: DayNames, short_name: str = ""
) -> Statement:
    """Uncoached balls against the first yardstick: of one cue, or of all cues at once."""
    if comparison.result is None:
        return SILENCE
    short = _in_short(comparison, short_name, days) if short_name else ""
    return _told(comparison, _uncoached(comparison, name, days), _figures(comparison), short)


def whole_change(comparison: Comparison | None, cues: int, days: DayNames) -> Statement:
    """All cues of the stroke on the same ball: `All three at once: 2 of 18 balls on Monday ...`."""
    if comparison is None:
        return SILENCE
    return uncoached_change(comparison, _AT_ONCE.get(cues, "all cues at once"), days)


def leading_cue(keystone: Keystone | None, names: Mapping[str, str], figures: str) -> Statement:
    """The cue that two others go with, without a cause; nothing where none is clear."""
    if keystone is None or not keystone.clear:
        return SILENCE
    one, other = (names[key] for key in keystone.others)
    cue = names[keystone.cue]
    sentence = f"{capital(one)} and {other} tend to come and go with {cue}."
    reason = (
        f"An easy ball or a kind eye does not explain it. It does not show that {cue} brings the"
        " others."
    )
    return Statement(f"{sentence} Try {cue} alone for one basket and watch.", reason, figures)


def practice_change(comparison: Comparison | None, name: str, days: DayNames) -> Statement:
    """The latest day's practice against the first day's; said to be with help."""
    if comparison is None or comparison.result is None:
        return SILENCE
    counts = _then_and_now(comparison, name, days, "with help")
    return _told(comparison, counts, _figures(comparison))


def overnight_change(
    comparison: Comparison | None, name: str, days: DayNames, short_name: str = ""
) -> Statement:
    """The morning against the evening before; no direction where the evening had help."""
    if comparison is None or comparison.result is None:
        return SILENCE
    late, early = comparison.late, comparison.early
    assert late.on is not None
    assert early.on is not None
    evening = f"{balls_of(early.made, early.seen)} {days.evening(early.on)}"
    morning = f"{late.made} of {late.seen} {days.morning(late.on)}"
    if comparison.verdict.words is Words.NOT_LIKE:
        with_help = f"{capital(name)}: {evening} with help"
        counts = f"{sentences(with_help, f'then {morning} without')}."
        reason = "Help makes balls better while it is given, so the two show no gain and no loss."
        return Statement(f"{counts} {NOT_TO_COMPARE}", reason, _figures(comparison))
    counts = f"{sentences(f'{capital(name)}: {evening}', morning, 'no help')}."
    short = (
        f"{short_name or name} {early.made} of {early.seen} {days.brief_evening(early.on)},"
        f" {late.made} of {late.seen} {days.brief_morning(late.on)}"
    )
    return _told(comparison, counts, _figures(comparison), short)


def tough_change(comparison: Comparison | None, name: str, short_name: str = "") -> Statement:
    """Tough balls against usual ones of the same drills."""
    if comparison is None or comparison.result is None:
        return SILENCE
    late, early = comparison.late, comparison.early
    counts = (
        f"{capital(name)}: {late.made} of {late.seen} tough balls,"
        f" {early.made} of {early.seen} usual ones."
    )
    short = (
        f"{short_name or name} {late.made} of {late.seen} tough balls,"
        f" {early.made} of {early.seen} usual"
    )
    return _told(comparison, counts, _figures(comparison), short)


def trend_change(trend: DaysTrend, name: str) -> Statement:
    """Uncoached rounds day by day; nothing before the second day."""
    if len(trend.days) < 2:
        return SILENCE
    direction = trend.verdict.direction if trend.doubt is None else 0
    words = {1: "it may be rising", -1: "it may be falling", 0: "these balls cannot tell"}
    sentence = f"{capital(name)}, day by day with no help: {words[direction]}."
    reason = ""
    if trend.trend is not None and trend.verdict.words is not Words.TOO_FEW:
        more = more_or_fewer(trend.trend.slope)
        reason = f"About {more} made a day in every 100 balls, like balls held against like."
    return Statement(sentence, reason, answer_figures.trend_words(trend))


def _told(comparison: Comparison, counts: str, figures: str, short: str = "") -> Statement:
    return Statement(
        f"{counts} {_verdict(comparison)}",
        " ".join(_reasons(comparison)),
        figures,
        f"{short}: {_verdict_in_short(comparison)}" if short else "",
    )


def _in_short(comparison: Comparison, name: str, days: DayNames) -> str:
    """`room for the arm 6 of 19 on Monday, 17 of 20 on Friday`."""
    late, early = comparison.late, comparison.early
    assert late.on is not None
    assert early.on is not None
    return (
        f"{name} {early.made} of {early.seen} {days.on(early.on)},"
        f" {late.made} of {late.seen} {days.on(late.on)}"
    )


def _verdict_in_short(comparison: Comparison) -> str:
    """What the counts can bear, in at most four words."""
    if comparison.doubt is not None:
        return "rated two ways"
    verdict = comparison.verdict
    if verdict.direction == 0:
        return "cannot tell"
    words = verdict_words(verdict)
    return f"like for like {words}" if comparison.counts_mislead else words


def _figures(comparison: Comparison) -> str:
    return f"{comparison_words(comparison)}."


def _uncoached(comparison: Comparison, name: str, days: DayNames) -> str:
    """`Spacing: 6 of 19 balls on Monday, 17 of 20 on Friday, same feed, no help.`"""
    return _then_and_now(comparison, name, days, "no help")


def _then_and_now(comparison: Comparison, name: str, days: DayNames, how: str) -> str:
    late, early = comparison.late, comparison.early
    assert late.on is not None
    assert early.on is not None
    then = f"{capital(name)}: {balls_of(early.made, early.seen)} {days.on(early.on)}"
    now = f"{late.made} of {late.seen} {days.on(late.on)}"
    return f"{sentences(then, now, f'{_alike(comparison)}, {how}')}."


def _alike(comparison: Comparison) -> str:
    assert comparison.result is not None
    return "same feed" if comparison.result.strata_used == 1 else "like balls"


def _verdict(comparison: Comparison) -> str:
    """What the counts can bear, in one sentence."""
    if comparison.doubt is not None:
        return RATED_TWO_WAYS
    verdict = comparison.verdict
    if verdict.direction == 0:
        return CANNOT_TELL if comparison.over_time else CANNOT_TELL_TOUGH
    if verdict.words is not Words.WORTH_A_LOOK:
        words = REAL[verdict.direction]
    elif comparison.over_time:
        words = LOOK[verdict.direction]
    else:
        words = LOOK_TOUGH[verdict.direction]
    if comparison.counts_mislead:
        return f"Like for like: {words[0].lower()}{words[1:]}"
    return words


def _reasons(comparison: Comparison) -> Iterator[str]:
    """The range of the change, and what the balls lack or add to it."""
    if comparison.doubt is not None:
        yield f"{comparison.doubt.balls} balls were rated twice, and the two did not agree."
    if comparison.bears_statement:
        yield _range(comparison)
    else:
        yield _too_few(comparison)
    if comparison.verdict.words is Words.WORTH_A_LOOK:
        yield f"Chance alone makes {LOOK_LUCK} look so."
    elif comparison.verdict.direction:
        yield f"Chance alone makes at most 1 in {round(1 / DOUBT)} look so."
    if comparison.question is Question.OVERNIGHT and comparison.verdict.direction < 0:
        yield "A cold start does this too."
    if comparison.tie is not None:
        worth = round(comparison.tie.worth(comparison.late.seen))
        yield f"Balls in a row go alike, so {comparison.late.seen} count as about {worth}."
    if comparison.unequal_by:
        yield f"The change is not the same in every {comparison.unequal_by}."
    if comparison.result is not None and MOSTLY_ALIKE <= comparison.result.share_used < 1:
        used = hundredths(comparison.result.share_used)
        both = "on both days" if comparison.over_time else "both ways"
        yield f"Of every 100 balls {used} are of a kind hit {both}."


def _range(comparison: Comparison) -> str:
    """`Better by between a fifth and three quarters of the balls.`"""
    result = comparison.result
    assert result is not None
    if result.low > 0:
        between = _something(between_parts(result.low, result.high))
        return (
            f"{'Better' if comparison.over_time else 'More of the tough ones made,'} by {between}."
        )
    if result.high < 0:
        between = _something(between_parts(-result.high, -result.low))
        return (
            f"{'Worse' if comparison.over_time else 'Fewer of the tough ones made,'} by {between}."
        )
    low, high = more_or_fewer(result.low), more_or_fewer(result.high)
    return f"In every 100 balls these fit anything from {low} to {high}."


def _something(between: str) -> str:
    return f"something {between}" if between.startswith("between") else between


def _too_few(comparison: Comparison) -> str:
    if comparison.result is not None and comparison.result.share_used < MOSTLY_ALIKE:
        used = hundredths(comparison.result.share_used)
        return f"Only {used} of every 100 balls are of a kind hit on both days."
    if comparison.needed:
        return f"Fewer than {comparison.needed} balls were seen: plan {PLAN_NEXT} next time."
    return "So few balls would fit almost any change."
