"""Which drills go with a change: of those who practised one, and of those who did not, who went up.

A player's stroke counts once, whatever its cues. Nobody was dealt a drill at random, so a drill
that goes with a change is not its cause.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from courtlog.academy.season.changes import ChangesOfStroke, StrokeOf
from courtlog.academy.season.models import DrillChange
from courtlog.measures.common.enough import LOOK_CONFIDENCE, Question, Words, level, verdict
from courtlog.measures.shares.proportions import newcombe
from courtlog.measures.shares.strata import like_for_like

NO_CAUSE = "Coaches choose who practises what, so this names no cause."
TOGETHER = {
    1: "It may go with a gain: keep watching.",
    -1: "It may go with a drop: keep watching.",
    0: "These players cannot tell.",
}
_TOO_FEW = "Too few players to tell."


def drill_changes(
    strokes: Mapping[StrokeOf, ChangesOfStroke], practised: Sequence[tuple[int, int, str, str, int]]
) -> tuple[DrillChange, ...]:
    """Every drill that somebody with two yardsticks of its stroke has practised."""
    up = {stroke: _went_up(of_stroke) for stroke, of_stroke in strokes.items()}
    known = {stroke: went for stroke, went in up.items() if went is not None}
    who: dict[tuple[str, str], set[StrokeOf]] = {}
    for clinic, player, stroke, drill, _ in practised:
        if (of := StrokeOf(clinic, player, stroke)) in known:
            who.setdefault((stroke, drill), set()).add(of)
    return tuple(_fact(*drill, known, who[drill]) for drill in sorted(who))


def _went_up(of_stroke: ChangesOfStroke) -> bool | None:
    """Whether more was made of all cues together, like for like; None where nothing is alike."""
    strata = [one for cue in of_stroke.comparisons.values() for one in cue.strata]
    result = like_for_like(strata)
    return None if result is None else result.value > 0


def _fact(
    stroke: str, drill: str, known: Mapping[StrokeOf, bool], practised: set[StrokeOf]
) -> DrillChange:
    with_it = [went for of, went in known.items() if of in practised]
    without = [went for of, went in known.items() if of.stroke == stroke and of not in practised]
    counts = sum(with_it), len(with_it), sum(without), len(without)
    difference = newcombe(*counts, LOOK_CONFIDENCE)
    said = verdict(difference, level(Question.PRACTISED, len(with_it), len(without)), planned=False)
    few = said.words in (Words.TOO_FEW, Words.NOTHING_ALIKE)
    return DrillChange(
        stroke=stroke,
        drill=drill,
        up_with=counts[0],
        players_with=counts[1],
        up_without=counts[2],
        players_without=counts[3],
        value=difference.value if difference else None,
        low=difference.low if difference else None,
        high=difference.high if difference else None,
        verdict=str(said),
        direction=said.direction,
        said=_TOO_FEW if few else TOGETHER[said.direction],
    )
