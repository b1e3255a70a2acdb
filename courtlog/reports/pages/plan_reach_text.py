"""What the planned yardsticks will be able to tell, as a small table in a coach's words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from courtlog.plain_text import plain
from courtlog.reports.facts.plan_models import ReachFacts, ReachLine

NEARLY_ALL, HARDLY_ANY = 0.95, 0.05
"""From this chance on nearly all rises are found; below the other hardly any."""

MOST, HALF = 0.6, 0.45
"""From these chances on most, or half, of the smaller rises are found; below only some."""

_LABEL, _COLUMN = 41, 12


def reach_lines(reach: ReachFacts | None) -> Iterator[str]:
    """Five lines at most, of 66 cells: how often a large and a smaller rise would be found.

    More balls are advised only where they find more.
    """
    if reach is None or not reach.lines:
        return
    rises = reach.lines[0].rises
    yield _row(
        f"A rise of the main cue, in {rises[0].out_of}, is found:",
        [f"{rise.before} to {rise.after}" for rise in rises],
    )
    planned = [line for line in reach.lines if not line.advised]
    advised = [line for line in reach.lines if line.advised and _cells(line) != _cells(planned[-1])]
    for line in (*planned, *advised):
        yield _row(_balls(line, reach.again), _cells(line))
    yield _in_words(planned[-1], advised, reach.least)


def reach_marks(reach: ReachFacts) -> Iterator[str]:
    """A line for each reason why these yardsticks may not show a change; none where they will."""
    if reach.too_few:
        names = ", ".join(map(plain, reach.too_few))
        yield f"Under {reach.least} balls were seen in the first yardstick: {names}."
    planned = [line for line in reach.lines if not line.advised]
    if not planned:
        return
    rise = planned[-1].rises[0]
    if rise.chance == 0:
        yield f"Under {reach.least} balls in a yardstick tell nothing."
    elif rise.chance < WEAK:
        more = " Plan more balls to see more." if len(planned) < len(reach.lines) else ""
        rises = f"{rise.before} to {rise.after} in {rise.out_of}"
        times = "hardly ever" if rise.chance < HARDLY_ANY else f"{_often(rise.chance)} times"
        yield f"A rise from {rises} would show {times}.{more}"


WEAK = 0.7
"""A chance to see a large rise below which the plan says so."""


def _row(label: str, cells: Sequence[str]) -> str:
    return f"{label:<{_LABEL}}{''.join(f'{cell:>{_COLUMN}}' for cell in cells)}"


def _balls(line: ReachLine, again: bool) -> str:
    """`20 now, 40 on the last day with the hold`; `19 the first time, 20 now`."""
    hold = " with the hold" if line.of_hold else ""
    if again and line.advised:
        return f"plan {line.last - line.of_hold}: {line.last} now{hold}"
    if again:
        return f"{line.first} the first time, {line.last} now{hold}"
    if line.advised:
        return f"plan {line.first}: {line.first} now, {line.last} then{hold}"
    return f"{line.first} now, {line.last} on the last day{hold}"


def _cells(line: ReachLine) -> list[str]:
    return [_often(rise.chance) for rise in line.rises]


def _often(chance: float) -> str:
    if chance == 0:
        return "none"
    if chance >= NEARLY_ALL:
        return "nearly all"
    return f"{min(9, max(1, round(10 * chance)))} of 10" if chance >= HARDLY_ANY else "hardly any"


def _in_words(planned: ReachLine, advised: Sequence[ReachLine], least: int) -> str:
    large, smaller = (rise.chance for rise in planned.rises)
    if large == 0:
        return f"Under {least} balls, either time, tell nothing."
    if smaller >= HALF:
        return f"These find large rises, and {_part(smaller)} of the smaller ones."
    only = "These find only a large rise"
    if not advised:
        return f"{only}; most smaller ones stay unseen."
    balls = advised[0].last - advised[0].of_hold
    return f"{only}; {balls} find {_part(advised[0].rises[1].chance)} of the smaller too."


def _part(chance: float) -> str:
    if chance >= MOST:
        return "most"
    return "half" if chance >= HALF else "some"
