"""The player's answer as a printed page: learning first, performance second and labelled."""

from __future__ import annotations

from collections.abc import Iterator

from courtlog.coaching.voice.figures import LOOKS_BY_LUCK, looks_told
from courtlog.plain_text import many, plain
from courtlog.reports.facts.change_models import (
    CueChange,
    StrokeChange,
)
from courtlog.reports.facts.models import (
    PlayerFacts,
)
from courtlog.reports.layout.page import WIDTH, block, lines_of
from courtlog.reports.pages.change_text import curve_lines, home_block


def player_text(facts: PlayerFacts) -> str:
    """The whole page."""
    lines = list(_page(facts))
    if looks_told(lines):
        lines += lines_of(LOOKS_BY_LUCK)
    return "\n".join(lines) + "\n"


def _page(facts: PlayerFacts) -> Iterator[str]:
    title = f"{plain(facts.player)} · {plain(facts.clinic)} · {many(len(facts.dates), 'day')}"
    yield from lines_of(title)
    yield "=" * WIDTH
    if not facts.changes:
        yield "No balls yet."
    for change in facts.changes:
        yield from _stroke(change)
    yield ""
    yield from lines_of(
        "Made is counted out of balls seen; near counts as not made. Rated by the coach who"
        " taught. Learning is what a round without help shows; practice shows performance."
    )


def _stroke(change: StrokeChange) -> Iterator[str]:
    yield ""
    yield plain(change.title)
    yield "-" * WIDTH
    for cue in sorted(change.cues, key=_strength):
        yield from _cue(cue)
    if change.together:
        yield from block("together", [plain(change.together)])
    yield from home_block(change)


def _strength(cue: CueChange) -> float:
    """The cues, those made most over the clinic first."""
    return -cue.made / cue.seen if cue.seen else 1.0


def _cue(cue: CueChange) -> Iterator[str]:
    sentences = [cue.learned, *cue.more, cue.trend]
    if cue.curve is None:
        sentences.append(cue.curve_words)
    label, first, *rest = f"{plain(cue.name)} · made {cue.share}", *sentences
    yield ""
    yield f"  {label}"
    yield from lines_of(cue.not_seen, "    ")
    yield from lines_of(first, "    ")
    for sentence in rest:
        yield from lines_of(sentence, "    ")
    yield from curve_lines(cue)
