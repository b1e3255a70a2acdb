"""A player's answers as facts: every number beside the sentence that tells it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from courtlog.coaching.answers.ball_history import History
from courtlog.coaching.answers.comparison import Comparison
from courtlog.coaching.answers.highlights import highlights
from courtlog.coaching.answers.not_seen import not_seen_words
from courtlog.coaching.answers.player_answer import CueAnswer, StrokeAnswer
from courtlog.coaching.game.grades import LOOKS
from courtlog.coaching.game.rounds import cue_counts
from courtlog.coaching.paper.home_yardstick import (
    earlier_to_compare,
    home_against_earlier,
    home_against_first,
)
from courtlog.coaching.voice import answer_figures, change_voice, highlight_voice
from courtlog.coaching.voice.day_names import DayNames
from courtlog.coaching.voice.figures import comparison_words
from courtlog.coaching.voice.home_voice import (
    home_again,
    home_change,
    home_reading,
    home_since,
    not_again,
)
from courtlog.coaching.voice.statement import SILENCE
from courtlog.logbook.reads.day_lookups import CueWords
from courtlog.logbook.reads.paper.home_yardsticks import HomeYardstick
from courtlog.reports.facts.change_models import (
    ChangeFacts,
    CueChange,
    CueSaid,
    CurveFacts,
    HomeCueFacts,
    HomeReadingFacts,
    StrokeChange,
    YardstickBalls,
)
from courtlog.times import day_month_words


def stroke_change(
    answer: StrokeAnswer,
    names: Mapping[tuple[str, str], str],
    titles: Mapping[str, str],
    words: Mapping[tuple[str, str], CueWords],
) -> StrokeChange:
    """The facts of one stroke; `names` are cue names by stroke and key, `words` what to say."""
    named = {cue.cue: names.get((answer.stroke, cue.cue), cue.cue) for cue in answer.cues}
    said = {cue.cue: words.get((answer.stroke, cue.cue)) for cue in answer.cues}
    plain = {cue: told.plain_name if told else named[cue] for cue, told in said.items()}
    days = DayNames.of(answer.dates)
    together = answer_figures.keystone_words(answer.keystone, named)
    best = highlights(answer.last_counts, tuple(named))
    phrase = said.get(best.one_thing.cue) if best.one_thing else None
    return StrokeChange(
        stroke=answer.stroke,
        title=titles.get(answer.stroke, answer.stroke),
        cues=tuple(_cue(cue, named[cue.cue], plain[cue.cue], days) for cue in answer.cues),
        together=together,
        good=highlight_voice.good_thing(best, plain, named),
        one_thing=highlight_voice.one_thing(best, plain, named),
        say=phrase.say_inner if phrase else "",
        whole=change_voice.whole_change(answer.whole, len(answer.cues), days),
        leads=change_voice.leading_cue(answer.keystone, plain, together),
        main=answer.main,
    )


def _cue(cue: CueAnswer, name: str, plain: str, days: DayNames) -> CueChange:
    curve = None
    if cue.curve is not None:
        curve = CurveFacts(
            low=cue.curve.low,
            median=cue.curve.median,
            high=cue.curve.high,
            mornings=cue.curve.mornings,
        )
    return CueChange(
        cue=cue.cue,
        name=name,
        made=cue.all.made,
        seen=cue.all.seen,
        unseen=cue.all.unseen,
        share=cue.all.words(),
        not_seen=not_seen_words(cue.all),
        rounds=cue.rounds,
        start_on=cue.start_on,
        learning=change_facts(cue.learning),
        hold=change_facts(cue.hold),
        practice=change_facts(cue.practice),
        overnight=change_facts(cue.overnight),
        tough=change_facts(cue.tough),
        learned=answer_figures.learning_words(cue),
        more=tuple(answer_figures.other_comparisons(cue)),
        trend=answer_figures.trend_words(cue.trend),
        trend_direction=0 if cue.trend.doubt else cue.trend.verdict.direction,
        curve=curve,
        curve_words=answer_figures.cue_curve_words(cue),
        plain_name=plain,
        said=_said(cue, plain, name, days),
        yardsticks=tuple(_yardsticks(cue)),
    )


def _said(cue: CueAnswer, name: str, short_name: str, days: DayNames) -> CueSaid:
    tough = cue.tough if cue.tough.late.seen else None
    return CueSaid(
        change=change_voice.cue_change(cue, name, days, short_name),
        practice=change_voice.practice_change(cue.practice, name, days),
        overnight=change_voice.overnight_change(cue.overnight, name, days, short_name),
        tough=change_voice.tough_change(tough, name, short_name),
        trend=change_voice.trend_change(cue.trend, name),
    )


def _yardsticks(cue: CueAnswer) -> Iterator[YardstickBalls]:
    """The balls behind the headline, the first yardstick's before the later's."""
    if cue.headline is None:
        return
    for side, grades in ((cue.headline.early, cue.then), (cue.headline.late, cue.now)):
        assert side.on is not None
        yield YardstickBalls(date=side.on, balls="".join(LOOKS[grade].digit for grade in grades))


def change_facts(comparison: Comparison | None) -> ChangeFacts | None:
    """A comparison in figures; None without one."""
    if comparison is None:
        return None
    result = comparison.result
    return ChangeFacts(
        late=comparison.late.label,
        late_on=comparison.late.on,
        late_made=comparison.late.made,
        late_seen=comparison.late.seen,
        early=comparison.early.label,
        early_made=comparison.early.made,
        early_seen=comparison.early.seen,
        change=result.value if result else None,
        low=result.low if result else None,
        high=result.high if result else None,
        method=result.method if result else None,
        share_used=result.share_used if result else None,
        unequal_by=comparison.unequal_by,
        verdict=str(comparison.verdict),
        direction=0 if comparison.doubt else comparison.verdict.direction,
        sentence=comparison_words(comparison),
    )


def home_readings(
    yardsticks: Sequence[HomeYardstick],
    history: History,
    dates: Sequence[date],
    words: Mapping[tuple[str, str], CueWords],
) -> tuple[HomeReadingFacts, ...]:
    """Those of this stroke, oldest first, each held against the court and against earlier ones."""
    theirs = [one for one in yardsticks if one.stroke == history.stroke and one.record.balls]
    return tuple(_reading(theirs, one, history, dates, words) for one in theirs)


def home_readings_on(
    on: date,
    yardsticks: Sequence[HomeYardstick],
    history: History,
    dates: Sequence[date],
    words: Mapping[tuple[str, str], CueWords],
) -> tuple[HomeReadingFacts, ...]:
    """Those of one date."""
    if all(one.record.on != on for one in yardsticks):
        return ()
    readings = home_readings(yardsticks, history, dates, words)
    return tuple(reading for reading in readings if reading.on == on)


def only_at_home(
    yardsticks: Sequence[HomeYardstick],
    played: Sequence[str],
    dates: Sequence[date],
    titles: Mapping[str, str],
    words: Mapping[tuple[str, str], CueWords],
) -> tuple[StrokeChange, ...]:
    """Strokes without a ball at the court, of which there are sheets from home."""
    strokes = dict.fromkeys(one.stroke for one in yardsticks if one.record.balls)
    return tuple(
        StrokeChange(
            stroke=stroke,
            title=titles.get(stroke, stroke),
            cues=(),
            together="",
            good=SILENCE,
            one_thing=SILENCE,
            say="",
            whole=SILENCE,
            leads=SILENCE,
            home=home_readings(yardsticks, History(stroke, ()), dates, words),
        )
        for stroke in strokes
        if stroke not in played
    )


def _reading(
    theirs: Sequence[HomeYardstick],
    one: HomeYardstick,
    history: History,
    dates: Sequence[date],
    words: Mapping[tuple[str, str], CueWords],
) -> HomeReadingFacts:
    record = one.record
    balls = record.past_balls(one.kind)
    against = home_against_first(history, balls, dates)
    of_drill = [other.record for other in theirs if other.kind == one.kind]
    early = earlier_to_compare(of_drill, record)
    earlier = {}
    days = DayNames.of(dates)
    days_at_home = days
    since = SILENCE
    if early is not None:
        earlier = home_against_earlier(history, balls, early.past_balls(one.kind))
        days_at_home = DayNames.of((*dates, early.on, record.on))
        on = days_at_home.on
        since = home_again(record.watcher, on(early.on), on(record.on))
    elif any(other.record.on < record.on for other in theirs):
        since = not_again(f"on {day_month_words(record.on)}")
    cues = []
    for row, cue in enumerate(record.cues):
        counts = cue_counts(record.balls, row)
        told = words.get((history.stroke, cue))
        name = told.plain_name if told else cue
        held = against.get(cue)
        cues.append(
            HomeCueFacts(
                cue=cue,
                made=counts.made,
                seen=counts.seen,
                said=home_change(held, counts, name, days),
                is_held=held is not None and held.result is not None,
                since=home_since(earlier[cue], name, days_at_home) if cue in earlier else SILENCE,
            )
        )
    return HomeReadingFacts(
        on=record.on,
        watcher=record.watcher,
        said=home_reading(record.watcher, f"on {day_month_words(record.on)}"),
        cues=tuple(cues),
        since=since,
    )
