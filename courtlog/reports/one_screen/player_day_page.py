"""One player's page of a day: the good thing, the one thing, the days as strips, what changed."""

from __future__ import annotations

from collections.abc import Iterator

from courtlog.coaching.voice.statement import SENTENCE_ONLY, Depth
from courtlog.plain_text import many, plain
from courtlog.reports.facts.models import DayFacts, PlayerDay
from courtlog.reports.layout import person_lines
from courtlog.reports.layout.fitting import Part, fitted
from courtlog.reports.layout.page import BETWEEN, WIDTH
from courtlog.reports.one_screen import stroke_parts
from courtlog.reports.one_screen.cue_strips import strips
from courtlog.reports.one_screen.day_page import ONE_SCREEN, cut
from courtlog.reports.one_screen.stroke_parts import (
    AHEAD,
    ANOTHER_STROKE,
    CARE,
    OPENING,
    PICTURE,
    REST,
)
from courtlog.reports.pages.day_text import day_title


def player_day_page(facts: DayFacts, depth: Depth = SENTENCE_ONLY) -> str:
    """The page of the first player of these facts: at most 23 lines at 80 columns."""
    (player,) = facts.players
    parts = [Part(0, (cut(f"{plain(player.player)}{BETWEEN}{day_title(facts)}"), "=" * WIDTH))]
    parts += _page(facts, player, depth)
    return closed(parts, depth)


def closed(parts: list[Part], depth: Depth) -> str:
    """The page of these parts, as far as they fit, and a last line on what there is more."""
    most = ONE_SCREEN - 1 if depth == SENTENCE_ONLY else None
    lines, all_fit = fitted(parts, most)
    lines = [line for line, before in zip(lines, ["", *lines], strict=False) if line or before]
    short_of_all = " --full has what found no room here." if not all_fit else ""
    more = f"More: --why, --figures, --full.{short_of_all}" if most else "All there is: --full."
    return "\n".join([*lines, cut(more)]) + "\n"


def _page(facts: DayFacts, player: PlayerDay, depth: Depth) -> Iterator[Part]:
    if not player.balls:
        yield Part(OPENING, ("No balls today.",))
    for number, change in enumerate(player.changes):
        more = ANOTHER_STROKE * number
        yield stroke_parts.heading(player.changes, number)
        cues = [cue for cue in player.cues if cue.stroke == change.stroke]
        if player.balls and not any(cue.today.seen for cue in cues):
            unseen = f"{plain(change.title)}: {many(player.balls, 'ball')}, and no cue was seen."
            yield stroke_parts.text_part(OPENING, unseen)
        if not change.good:
            yield from _strengths(player, change.stroke)
        yield from stroke_parts.opening(change, depth, more)
        rounds = {cue.cue: cue.rounds for cue in change.cues}
        yield Part(PICTURE + more, ("", *strips(change.title, cues, rounds, facts.dates), ""))
        yield from stroke_parts.changes(change, depth, facts.date, more, player.arm.waits)
        yield from stroke_parts.at_home(change, depth, more)
        yield from stroke_parts.nights(change, depth, facts.date, more)
        yield from stroke_parts.tough_balls(change, depth, more)
        if change.stroke == player.rung_stroke and not player.arm.waits:
            yield stroke_parts.part(AHEAD, player.rung_said, depth)
    yield stroke_parts.part(CARE, player.arm.said, depth)
    yield stroke_parts.part(AHEAD, player.next_said, depth)
    if player.minor:
        yield stroke_parts.text_part(REST, person_lines.ON_A_DAY)


def _strengths(player: PlayerDay, stroke: str) -> Iterator[Part]:
    """What the coach wrote as good, where no ball says something good."""
    for look in player.looks:
        if look.stroke == stroke and look.strengths:
            words = f"Good, as the coach wrote: “{look.strengths}”."
            yield stroke_parts.text_part(OPENING, words)
