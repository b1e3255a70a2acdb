"""What a player's pages say of a stroke, as parts that a page takes in as far as it has room."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from rich.cells import cell_len

from courtlog.coaching.game.grades import DIGITS, LOOKS
from courtlog.coaching.voice.change_voice import NOT_TESTED
from courtlog.coaching.voice.day_names import DayNames
from courtlog.coaching.voice.statement import SENTENCE_ONLY, Depth, Statement
from courtlog.plain_text import plain
from courtlog.reports.facts.change_models import CueChange, StrokeChange
from courtlog.reports.layout.fitting import Part
from courtlog.reports.layout.page import WIDTH, cell, lines_of
from courtlog.reports.layout.said_lines import said_lines

OPENING, CARE, CHANGE, PICTURE, AHEAD, NIGHT, TOUGH, REST = range(1, 9)
"""Ranks of parts: what goes first when a page has no room for all."""

ANOTHER_STROKE = 10
"""What is added to the ranks of every further stroke."""

DOTS = "  ○ missed  ◐ near  ● made  · not seen"


def heading(changes: Sequence[StrokeChange], number: int) -> Part:
    """The title of that stroke (from 0), where a page has several; a blank before all but one."""
    if len(changes) < 2:
        return Part(0, ())
    title = plain(changes[number].title)
    lines = ("", title) if number else (title,)
    return Part(OPENING + ANOTHER_STROKE * number, lines, heads=True)


def opening(change: StrokeChange, depth: Depth, more: int = 0) -> Iterator[Part]:
    """The good thing, then the one thing with what to say for it."""
    yield part(OPENING + more, change.good, depth)
    one = change.one_thing
    if one and change.say:
        said = f"{one.sentence} Say “{change.say}”."
        one = Statement(said, one.reason, one.figures, one.short)
    yield part(OPENING + more, one, depth)


def changes(
    change: StrokeChange,
    depth: Depth,
    on: date | None = None,
    more: int = 0,
    waits: bool = False,
) -> Iterator[Part]:
    """A sentence a cue and one for all at once; with a date only those that it brought.

    Who waits for a word on the arm is not told to play again.
    """
    cues = [cue for cue in change.cues if on is None or brought(cue, on)]
    for cue in cues:
        if depth.figures or cue.yardsticks or (cue.start_on is not None and not waits):
            yield part(CHANGE + more, cue.said.change, depth)
    if cues and any(cue.start_on is not None for cue in cues):
        yield part(NIGHT + more, change.whole, depth)
    elif cues and on is None and not depth.figures:
        yield part(CHANGE + more, NOT_TESTED, depth)


def nights(
    change: StrokeChange, depth: Depth, on: date | None = None, more: int = 0
) -> Iterator[Part]:
    """What held overnight; a coached evening cannot be compared, and is told on request alone."""
    for cue in change.cues:
        said = cue.said.overnight
        if (said.short or depth.figures) and (on is None or of_night(cue, on)):
            yield part(NIGHT + more, said, depth)


def tough_balls(change: StrokeChange, depth: Depth, more: int = 0) -> Iterator[Part]:
    """What breaks on tough balls; where these cannot tell, on request alone."""
    for cue in change.cues:
        if cue.tough is not None and (cue.tough.direction or depth.figures):
            yield part(TOUGH + more, cue.said.tough, depth)


def trends(change: StrokeChange, depth: Depth, more: int = 0) -> Iterator[Part]:
    """Uncoached rounds day by day, and the cue that two others go with."""
    for cue in change.cues:
        if depth.figures or cue.trend_direction:
            yield part(REST + more, cue.said.trend, depth)
    yield part(REST + more, change.leads, depth)


def blind(change: StrokeChange, depth: Depth, more: int = 0) -> Iterator[Part]:
    """What came out for people who rated clips without knowing their day: a line a cue.

    Whoever asks for more gets the whole sentences, beside those of the coach on the same clips.
    """
    for reading in change.blind:
        lines = list(said_lines(reading.said, depth))
        for cue in reading.cues:
            if depth.why or depth.figures:
                for said in (cue.said, cue.coach_said, cue.alike_said):
                    lines += said_lines(said, depth)
            else:
                lines += lines_of(plain(cue.said.short), "  ")
        lines += said_lines(reading.alike_said, depth)
        yield Part(CHANGE + more, tuple(lines))


def at_home(change: StrokeChange, depth: Depth, more: int = 0) -> Iterator[Part]:
    """The latest yardstick at home, marked as another eye; all of them on request.

    It is held against the court, and below that against the first one of the same watcher.
    """
    shown = change.home if depth.why or depth.figures else change.home[-1:]
    for reading in shown:
        lines = list(said_lines(reading.said, depth))
        for cue in reading.cues:
            if cue.is_held or not cue.since:
                lines += said_lines(cue.said, depth, "  ")
        yield Part(CHANGE + more, tuple(lines))
        is_held = any(cue.is_held for cue in reading.cues)
        since = [cue.since for cue in reading.cues if cue.since]
        over_time = list(said_lines(reading.since, depth))
        for said in since:
            if is_held and depth == SENTENCE_ONLY:
                over_time += lines_of(plain(said.short), "  ")
            else:
                over_time += said_lines(said, depth, "  ")
        if since or depth != SENTENCE_ONLY:
            # Without the court's yardstick it is all there is to say of a change.
            yield Part((REST if is_held else CHANGE) + more, tuple(over_time))


def dots(change: StrokeChange, dates: Sequence[date], more: int = 0) -> Part:
    """The yardstick then and now, ball by ball, a row a cue where both fit side by side."""
    names = DayNames.of(dates)
    rows = [(plain(cue.plain_name), cue.yardsticks) for cue in change.cues if cue.yardsticks]
    if not rows:
        return Part(PICTURE + more, ())
    wide = max(cell_len(name) for name, _ in rows) + 2
    lines = [DOTS]
    for name, yardsticks in rows:
        sides = [f"{names.brief(side.date)} {_dots(side.balls)}" for side in yardsticks]
        row = f"  {cell(name, wide)}{'   '.join(sides)}"
        if cell_len(row) <= WIDTH:
            lines.append(row)
        else:
            lines += [f"  {cell(name, wide)}{sides[0]}", *(f"  {'':{wide}}{s}" for s in sides[1:])]
    return Part(PICTURE + more, tuple(lines))


def part(rank: int, statement: Statement, depth: Depth) -> Part:
    """A statement as a part; without lines where there is nothing to say."""
    return Part(rank, tuple(said_lines(statement, depth)))


def text_part(rank: int, text: str) -> Part:
    """Any text as a part."""
    return Part(rank, tuple(lines_of(plain(text))) if text else ())


def _dots(balls: str) -> str:
    return "".join(LOOKS[DIGITS[ball]].mark for ball in balls)


def brought(cue: CueChange, on: date) -> bool:
    """Whether the headline's later balls, or the first yardstick, are of that date."""
    if cue.yardsticks:
        return cue.yardsticks[-1].date == on
    return cue.start_on == on


def of_night(cue: CueChange, on: date) -> bool:
    """Whether the morning that is held against an evening is that date's."""
    return cue.overnight is not None and cue.overnight.late_on == on
