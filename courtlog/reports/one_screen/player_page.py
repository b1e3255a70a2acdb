"""The player's answer, for whoever asks "did it change?": a sentence a cue first, then dots."""

from __future__ import annotations

from collections.abc import Iterator

from courtlog.coaching.voice.statement import SENTENCE_ONLY, Depth
from courtlog.plain_text import many, plain
from courtlog.reports.facts.models import PlayerFacts
from courtlog.reports.layout.fitting import Part
from courtlog.reports.layout.page import BETWEEN, WIDTH
from courtlog.reports.one_screen import stroke_parts
from courtlog.reports.one_screen.day_page import cut
from courtlog.reports.one_screen.player_day_page import closed
from courtlog.reports.one_screen.stroke_parts import AHEAD, ANOTHER_STROKE, CARE, OPENING, PICTURE
from courtlog.reports.pages.change_text import curve_lines

ONLY_AT_HOME = "No balls at the court yet."


def player_page(facts: PlayerFacts, depth: Depth = SENTENCE_ONLY, charts: bool = False) -> str:
    """The page: at most 23 lines at 80 columns, unless reasons, figures or charts are wanted."""
    who = [facts.player, facts.clinic, many(len(facts.dates), "day")]
    parts = [Part(0, (cut(BETWEEN.join(map(plain, who))), "=" * WIDTH))]
    parts += _page(facts, depth)
    page = closed(parts, depth)
    if charts:
        curves = [cue for change in facts.changes for cue in change.cues]
        page += "".join(f"{line}\n" for cue in curves for line in curve_lines(cue))
    return page


def _page(facts: PlayerFacts, depth: Depth) -> Iterator[Part]:
    if not facts.changes:
        yield Part(OPENING, ("No balls yet.",))
    for number, change in enumerate(facts.changes):
        more = ANOTHER_STROKE * number
        yield stroke_parts.heading(facts.changes, number)
        if not change.cues and change.home:
            yield Part(OPENING + more, (ONLY_AT_HOME,))
            yield from stroke_parts.at_home(change, depth, more)
            continue
        if not any(cue.seen for cue in change.cues):
            yield Part(OPENING + more, ("Balls were hit, and on none was a cue seen.",))
            continue
        yield stroke_parts.part(OPENING + more, change.good, depth)
        yield from stroke_parts.changes(change, depth, more=more, waits=facts.waits)
        yield from stroke_parts.blind(change, depth, more)
        yield from stroke_parts.at_home(change, depth, more)
        picture = stroke_parts.dots(change, facts.dates, more)
        yield Part(PICTURE + more, ("", *picture.lines, "") if picture.lines else ())
        yield from stroke_parts.nights(change, depth, more=more)
        yield from stroke_parts.tough_balls(change, depth, more)
        yield from stroke_parts.trends(change, depth, more)
        if change.stroke == facts.rung_stroke and not facts.waits:
            yield stroke_parts.part(AHEAD, facts.rung_said, depth)
    yield stroke_parts.part(CARE, facts.arm_said, depth)
