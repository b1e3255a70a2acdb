"""A player's answers as facts: every number beside the sentence that tells it."""

from __future__ import annotations

from collections.abc import Mapping

from courtlog.coaching.answers.comparison import Comparison
from courtlog.coaching.answers.not_seen import not_seen_words
from courtlog.coaching.answers.player_answer import CueAnswer, StrokeAnswer
from courtlog.coaching.voice import answer_figures
from courtlog.coaching.voice.figures import comparison_words
from courtlog.reports.facts.change_models import (
    ChangeFacts,
    CueChange,
    CurveFacts,
    StrokeChange,
)


def stroke_change(
    answer: StrokeAnswer, names: Mapping[tuple[str, str], str], titles: Mapping[str, str]
) -> StrokeChange:
    """The facts of one stroke; `names` are cue names by stroke and key."""
    named = {cue.cue: names.get((answer.stroke, cue.cue), cue.cue) for cue in answer.cues}
    return StrokeChange(
        stroke=answer.stroke,
        title=titles.get(answer.stroke, answer.stroke),
        cues=tuple(_cue(cue, named[cue.cue]) for cue in answer.cues),
        together=answer_figures.keystone_words(answer.keystone, named),
    )


def _cue(cue: CueAnswer, name: str) -> CueChange:
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
        learning=_change(cue.learning),
        hold=_change(cue.hold),
        practice=_change(cue.practice),
        overnight=_change(cue.overnight),
        tough=_change(cue.tough),
        learned=answer_figures.learning_words(cue),
        more=tuple(answer_figures.other_comparisons(cue)),
        trend=answer_figures.trend_words(cue.trend),
        curve=curve,
        curve_words=answer_figures.cue_curve_words(cue),
    )


def _change(comparison: Comparison | None) -> ChangeFacts | None:
    if comparison is None:
        return None
    result = comparison.result
    return ChangeFacts(
        late=comparison.late.label,
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
        sentence=comparison_words(comparison),
    )
