"""The evening's page of a group: two or three lines a player, for five minutes after the day."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date

from rich.cells import cell_len, set_cell_size

from courtlog.coaching.voice.statement import SENTENCE_ONLY, SILENCE, Depth, Statement
from courtlog.plain_text import listed, many, plain
from courtlog.reports.facts.change_models import ChangeFacts, StrokeChange
from courtlog.reports.facts.models import DayFacts, PlayerDay
from courtlog.reports.layout.fitting import Part, fitted
from courtlog.reports.layout.page import BETWEEN, WIDTH, cell, lines_of
from courtlog.reports.layout.person_lines import MARK
from courtlog.reports.one_screen.stroke_parts import brought, of_night
from courtlog.reports.pages.day_text import day_title

ONE_SCREEN = 23
"""Lines of a page: the usual 24 rows, with the prompt below them."""

LARGE_GROUP = 40
"""Lines of the page of twelve players; of more, what does not fit is left out."""

HEAD, A_PLAYER, TAIL = 2, 3, 2
"""Lines of the head, of a player at most, and below the players at least."""

NAME, MOST_NAME = 10, 20
"""Cells of a player's name at the beginning of the first line, at least and at most."""

MINORS = "Minors are on this page: keep it as your local rules on their data ask."
LEFT_OUT = "Left out for room: what is next for some, then what changed: --full has it."
MORE = "More: --player NAME, one page each; --why and --figures; --full, everything."


def day_page(facts: DayFacts, depth: Depth = SENTENCE_ONLY, more: str = MORE) -> str:
    """The group's page: at most 23 lines for six players at 80 columns, 40 for any group.

    Of more than 37 players each still has a line. What is left out of a large group is said.
    `more` says at its end where there is more.
    """
    nexts = {player.next_said.short for player in facts.players if player.balls}
    alike = len(nexts) == 1 and len(facts.players) > 1 and any(nexts)
    told = [list(_player(player, facts.date, depth, not alike)) for player in facts.players]
    needed = HEAD + A_PLAYER * len(told) + TAIL
    most = max(ONE_SCREEN, min(needed, LARGE_GROUP), HEAD + len(told) + TAIL)
    tail = list(_tail(facts, depth, more))
    if alike:
        tail.insert(0, Part(1, (cut(f"All of them, {plain(*nexts)}."),)))
    lines_told = sum(len(part.lines) for part in (*tail, *(part for one in told for part in one)))
    apart = HEAD + lines_told + len(told) - 1 <= ONE_SCREEN
    parts = [Part(0, tuple(_head(facts)))]
    for one in told:
        parts += one if needed > LARGE_GROUP else [replace(part, rank=1) for part in one]
        if apart and one is not told[-1]:
            parts.append(Part(8, ("",)))
    if not told:
        parts.append(Part(1, ("No balls yet on this day.",)))
    room = most if depth == SENTENCE_ONLY else None
    lines, whole = fitted([*parts, *tail], room)
    if not whole and needed > LARGE_GROUP:
        lines, _ = fitted([*parts, Part(0, (LEFT_OUT,)), *tail], room)
    return "\n".join(lines) + "\n"


def cut(text: str) -> str:
    """The text on one line, with … where it was cut."""
    return text if cell_len(text) <= WIDTH else cell(text, WIDTH).rstrip()


def _head(facts: DayFacts) -> Iterator[str]:
    yield cut(day_title(facts))
    yield "=" * WIDTH


def _player(player: PlayerDay, on: date, depth: Depth, with_next: bool) -> Iterator[Part]:
    """Good thing and one thing; what changed; arm, rung and what is next.

    Nothing of these is left out for room but in a large group, and what an arm said never.
    """
    stroke = player.changes[0] if player.changes else None
    good, one = (stroke.good, stroke.one_thing) if stroke else (SILENCE, SILENCE)
    first = [f"good: {good.short}"] if good else []
    first += [f"one thing: {one.short}"] if one else []
    if not player.balls:
        first = ["no balls today"]
    elif not first:
        first = [f"{many(player.balls, 'ball')}, none with a cue seen"]
    yield Part(0, (that_fit(first, _name(player)),))
    change = most_telling(stroke, on) if stroke else SILENCE
    last = [player.arm.said.short, *[player.rung_said.short] * (not player.arm.waits)]
    last += [player.next_said.short] * with_next
    for rank, line in ((6, [change.short]), (1 if player.arm.said else 7, last)):
        if any(line):
            yield Part(rank, (that_fit(filter(None, line), "  "),))
    below = (good, one, change, player.arm.said, player.rung_said, player.next_said)
    for text in dict.fromkeys(text for said in below for text in depth.below(said)):
        yield Part(7, tuple(lines_of(plain(text), "    ")))


def _name(player: PlayerDay) -> str:
    """The name, with the mark of a minor; a long name is cut."""
    age = f" {MARK}" if player.minor else ""
    most = MOST_NAME - cell_len(age)
    name = plain(player.player)
    shown = name if cell_len(name) < most else cell(name, most).rstrip()
    return set_cell_size(f"{shown}{age}", max(NAME, cell_len(shown + age) + 2))


def that_fit(texts: Iterable[str], before: str) -> str:
    """The texts on one line as far as they fit; the first is cut rather than left out."""
    line = ""
    for text in map(plain, texts):
        longer = f"{line}{BETWEEN}{text}" if line else f"{before}{text}"
        if line and cell_len(longer) > WIDTH:
            break
        line = longer
    return cut(line)


def most_telling(stroke: StrokeChange, on: date) -> Statement:
    """What this day showed: the surest of all cues, a change from day one before the night's.

    Of several as sure the main cue is told.
    """
    cues = sorted(stroke.cues, key=lambda cue: cue.cue != stroke.main)
    told = [
        *((cue.headline, cue.said.change) for cue in cues if brought(cue, on)),
        *((cue.overnight, cue.said.overnight) for cue in cues if of_night(cue, on)),
    ]
    said = [(part, statement) for part, statement in told if statement.short]
    return min(said, key=lambda pair: _certainty(pair[0]), default=(None, SILENCE))[1]


def _certainty(part: ChangeFacts | None) -> int:
    """0 for what is clear, 1 for what may be, 2 for the rest."""
    if part is None or not part.direction:
        return 2
    return 0 if part.clear else 1


def _tail(facts: DayFacts, depth: Depth, more: str) -> Iterator[Part]:
    for sentence in facts.missing:
        yield Part(1, tuple(lines_of(plain(sentence))))
    if facts.crowded:
        said = [facts.crowded.sentence, *depth.below(facts.crowded)]
        yield Part(2, tuple(line for text in said for line in lines_of(plain(text))))
    if facts.heat is not None and facts.heat.words:
        heat = f"Heat at {facts.heat.time}: {plain(facts.heat.words[0])}"
        yield Part(2, tuple(lines_of(heat)))
    if any(player.minor for player in facts.players):
        yield Part(3, (MINORS,))
    for away, label in ((True, "Not there"), (False, "No ball that day")):
        of_it = [one for one in facts.absent if one.away is away]
        if of_it:
            told = f"{label}: {plain(listed([one.words for one in of_it]))}."
            stands = any(one.standing for one in of_it)
            yield Part(2 if stands else 5, tuple(lines_of(told)))
    if more:
        yield Part(4, (more,))
