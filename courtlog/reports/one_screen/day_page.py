"""The evening's page of a group: two or three lines a player, for five minutes after the day."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from courtlog.coaching.voice.statement import SENTENCE_ONLY, SILENCE, Depth, Statement
from courtlog.measures.common.enough import Words
from courtlog.plain_text import many, plain
from courtlog.reports.facts.change_models import ChangeFacts, CueChange
from courtlog.reports.facts.models import DayFacts, PlayerDay
from courtlog.reports.layout.fitting import Part, fitted
from courtlog.reports.layout.page import BETWEEN, WIDTH, cell, lines_of
from courtlog.reports.layout.person_lines import MARK
from courtlog.reports.pages.day_text import day_title

ONE_SCREEN = 24
HEAD, A_PLAYER, TAIL = 2, 3, 2
"""Lines of the head, of a player at most, and below the players at least."""

NAME = 10
"""Cells of a player's name at the beginning of the first line."""

MINORS = "Minors are on this page: keep it as your local rules on their data ask."
MORE = "More: --player NAME, one page each; --why and --figures; --full, everything."


def day_page(facts: DayFacts, depth: Depth = SENTENCE_ONLY) -> str:
    """The group's page: at most 24 lines for six players at 80 columns, 40 for twelve."""
    told = [list(_player(player, depth)) for player in facts.players]
    most = max(ONE_SCREEN, HEAD + A_PLAYER * len(told) + TAIL)
    tail = list(_tail(facts))
    apart = HEAD + sum(map(len, told)) + len(told) + len(tail) <= most
    parts = [Part("head", 0, tuple(_head(facts)))]
    parts += [Part("players", 1, (*lines, *[""] * apart)) for lines in told]
    if not told:
        parts.append(Part("players", 1, ("No balls yet on this day.",)))
    lines, _ = fitted([*parts, *tail], most if depth == SENTENCE_ONLY else None)
    return "\n".join(lines) + "\n"


def cut(text: str) -> str:
    """The text on one line, with … where it was cut."""
    return cell(text, WIDTH).rstrip()


def _head(facts: DayFacts) -> Iterator[str]:
    yield cut(day_title(facts))
    yield "=" * WIDTH


def _player(player: PlayerDay, depth: Depth) -> Iterator[str]:
    """Good thing and one thing; what changed; arm, rung and tomorrow."""
    age = f" {MARK}" if player.minor else ""
    name = cell(f"{plain(player.player)}{age}", max(NAME, len(plain(player.player + age)) + 2))
    stroke = player.changes[0] if player.changes else None
    good, one = (stroke.good, stroke.one_thing) if stroke else (SILENCE, SILENCE)
    first = [f"good: {good.short}"] if good else []
    first += [f"one thing: {one.short}"] if one else []
    if not player.balls:
        first = ["no balls today"]
    elif not first:
        first = [f"{many(player.balls, 'ball')}, none with a cue seen"]
    yield cut(f"{name}{plain(BETWEEN.join(first))}")
    change = most_telling(stroke.cues) if stroke else SILENCE
    if change.short:
        yield cut(f"  {plain(change.short)}")
    last = [said.short for said in (player.arm.said, player.rung_said, player.next_said)]
    if any(last):
        yield cut(f"  {plain(BETWEEN.join(filter(None, last)))}")
    for said in (good, one, change, player.arm.said, player.rung_said, player.next_said):
        for line in depth.below(said):
            yield from lines_of(plain(line), "    ")


def most_telling(cues: Sequence[CueChange]) -> Statement:
    """What changed or held: the surest of all cues, a change from day one before the night's."""
    told = [
        *((cue.learning or cue.hold, cue.said.change) for cue in cues),
        *((cue.overnight, cue.said.overnight) for cue in cues),
    ]
    said = [(part, statement) for part, statement in told if statement.short]
    return min(said, key=lambda pair: _certainty(pair[0]), default=(None, SILENCE))[1]


def _certainty(part: ChangeFacts | None) -> int:
    """0 for what is clear, 1 for what is worth a look, 2 for the rest."""
    if part is None or not part.direction:
        return 2
    return 0 if part.verdict in (Words.CLEARLY_UP, Words.CLEARLY_DOWN) else 1


def _tail(facts: DayFacts) -> Iterator[Part]:
    if facts.heat is not None and facts.heat.words:
        heat = f"Heat at {facts.heat.time}: {plain(facts.heat.words[0])}"
        yield Part("heat", 2, tuple(lines_of(heat)))
    if any(player.minor for player in facts.players):
        yield Part("minors", 3, (MINORS,))
    yield Part("more", 4, (MORE,))
