"""What changed, in blocks of a printed page: learning, the night, tough balls, a curve."""

from __future__ import annotations

from collections.abc import Iterator

from courtlog.plain_text import plain
from courtlog.reports.facts.change_models import (
    CueChange,
    HomeReadingFacts,
    StrokeChange,
)
from courtlog.reports.layout.cell_charts import BAND, MIDDLE, curve_chart
from courtlog.reports.layout.page import WIDTH, block
from courtlog.times import day_month_words

CURVE_ROWS = 11


def day_blocks(change: StrokeChange, number: int, several: bool) -> Iterator[str]:
    """The blocks of a day's page on a stroke: what changed, the last night, tough balls, one curve.

    With several strokes on the page each block begins with its stroke.
    """
    if several:
        yield ""
        yield f"  {plain(change.title)}"
    yield from block("change", _together([(cue.name, cue.learned) for cue in change.cues]))
    night = [
        (cue.name, f"{cue.overnight.sentence}.")
        for cue in change.cues
        if cue.overnight is not None and cue.overnight.late.endswith(f" day {number}")
    ]
    yield from block("overnight", _together(night))
    tough = [
        (cue.name, f"{cue.tough.sentence}.")
        for cue in change.cues
        if cue.tough is not None and cue.tough.late_seen
    ]
    yield from block("tough", _together(tough))
    for cue in change.cues:
        yield from curve_lines(cue)
    if change.together:
        yield from block("together", [plain(change.together)])
    yield from home_block(change)


def home_block(change: StrokeChange) -> Iterator[str]:
    """A line a yardstick at home with whose eye it was, and what the latest is held against."""
    entries = [_home_counts(reading) for reading in change.home]
    for cue in change.home[-1].cues if change.home else ():
        for figures in (cue.said.figures, cue.since.figures):
            entries += [plain(f"{cue.cue}: {figures}")] if figures else []
    yield from block("at home", entries)


def _home_counts(reading: HomeReadingFacts) -> str:
    """`21 Jun, seen by Jorun, another eye than the coach's: finish 16 of 20.`"""
    counts = ", ".join(f"{cue.cue} {cue.made} of {cue.seen}" for cue in reading.cues)
    eye = f"seen by {reading.watcher or 'somebody else'}, another eye than the coach's"
    return plain(f"{day_month_words(reading.on)}, {eye}: {counts}.")


def curve_lines(cue: CueChange) -> Iterator[str]:
    """The skill curve of a cue with its band and its words; nothing without a curve."""
    if cue.curve is None:
        return
    chart = curve_chart(cue.curve, WIDTH - 2, CURVE_ROWS)
    yield ""
    for line in chart:
        yield f"  {line}"
    if chart:
        yield f"  {plain(cue.name)}, chance made by ball: {MIDDLE} middle, {BAND} 5 to 95% band"
    yield from block("curve", [f"{plain(cue.name)}: {cue.curve_words}"])


def _together(sentences: list[tuple[str, str]]) -> list[str]:
    """Sentences with their cue before them; cues with the same words share one sentence."""
    by_sentence: dict[str, list[str]] = {}
    for name, sentence in sentences:
        by_sentence.setdefault(sentence, []).append(plain(name))
    return [f"{', '.join(names)}: {sentence}" for sentence, names in by_sentence.items()]
