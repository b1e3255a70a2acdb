"""The rounds of a plan in a few lines: numbers, purpose and balls, and who is on which drill."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from courtlog.coaching.game.rounds import Purpose
from courtlog.plain_text import listed, many, plain
from courtlog.reports.facts.plan_models import PlanFacts, PlanLine
from courtlog.reports.layout.page import cell, labelled

NAME = 16
"""Cells of a name in a list; a longer one is cut."""

Row = tuple[str, str]
"""The numbers of the rounds, and what they are."""

_Block = tuple[PlanLine, ...]


def block_rows(facts: PlanFacts, most_lines: int) -> Iterator[Row]:
    """One row for blocks that are alike and follow each other.

    Who is on which drill is left to the numbered table where it takes more than so many lines.
    """
    order = {line.player for block in facts.blocks for line in block}
    told: dict[tuple[tuple[str, str], ...], str] = {}
    for _, alike in groupby(facts.blocks, key=_played):
        blocks = list(alike)
        numbers = _numbers(blocks[0][0].place, blocks[-1][-1].place)
        drills = tuple((line.player, line.drill) for line in blocks[0])
        heads = [_head(lines, len(blocks)) for lines in _by_purpose(blocks[0])]
        if drills in told and len(heads) == 1:
            yield numbers, f"{heads[0]}: on the same drills as {told[drills]}"
            continue
        parts = [
            f"{head}: {_on_drills(lines, order, _several_strokes(facts))}"
            for head, lines in zip(heads, _by_purpose(blocks[0]), strict=True)
        ]
        words = "; ".join(parts)
        if len(list(labelled(numbers, [words]))) > most_lines:
            count = len({line.drill for line in blocks[0]})
            words = f"{listed(heads)}: on {many(count, 'drill')}; --rounds says who is on which"
        elif len({drill for _, drill in drills}) > 1:
            told[drills] = numbers
        yield numbers, words


def _played(block: _Block) -> tuple[tuple[str, str, str, int], ...]:
    return tuple((line.player, line.drill, line.purpose, line.balls) for line in block)


def _numbers(first: int, last: int) -> str:
    return str(first) if first == last else f"{first}-{last}"


def _by_purpose(block: _Block) -> list[list[PlanLine]]:
    """The rounds of a block that have the same purpose and balls, in order of play."""
    groups: dict[tuple[str, int], list[PlanLine]] = {}
    for line in block:
        groups.setdefault((line.purpose, line.balls), []).append(line)
    return list(groups.values())


def _head(lines: Sequence[PlanLine], turns: int) -> str:
    """`hold, no help, 20 balls`; `practice, 2 rounds of 10 balls`."""
    help_ = ", no help" if Purpose(lines[0].purpose).measured else ""
    balls = many(lines[0].balls, "ball")
    return f"{lines[0].purpose}{help_}, {f'{turns} rounds of {balls}' if turns > 1 else balls}"


def _on_drills(lines: Sequence[PlanLine], order: set[str], strokes: bool) -> str:
    """`all on Drop and hit`; `Ruben, Tove on Drop and hit; the others on Hand feed from 3 m`."""
    players: dict[str, list[str]] = {}
    for line in lines:
        stroke = f"{line.stroke}, " if strokes else ""
        players.setdefault(f"on {plain(stroke + line.name)}", []).append(line.player)
    everyone = {line.player for line in lines} == order
    if len(players) == 1 and everyone and len(order) > 1:
        return f"all {next(iter(players))}"
    largest = max(players, key=lambda drill: len(players[drill]))
    parts = [
        f"{names_in_short(theirs)} {drill}"
        for drill, theirs in players.items()
        if not (everyone and drill == largest and len(theirs) > 2)
    ]
    if len(parts) < len(players):
        parts.append(f"the others {largest}")
    return "; ".join(parts)


def names_in_short(names: Sequence[str]) -> str:
    """`Ruben, Tove`; a long name is cut."""
    return ", ".join(cell(plain(name), NAME).rstrip() for name in names)


def listed_names(names: Sequence[str]) -> str:
    """The same with each name in full."""
    return ", ".join(map(plain, names)) or "nobody"


def _several_strokes(facts: PlanFacts) -> bool:
    return len({line.drill.partition("/")[0] for block in facts.blocks for line in block}) > 1
