"""Who changed: each cue's latest yardstick against its first, judged as on a player's page."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from typing import NamedTuple

from courtlog.academy.season.models import Change
from courtlog.coaching.answers.ball_history import BallKind
from courtlog.coaching.answers.comparison import Comparison, Kinds, compare, judged
from courtlog.coaching.answers.yardstick import HOLD_INCLUDED
from courtlog.coaching.game.rounds import Purpose
from courtlog.coaching.voice.change_voice import uncoached_change
from courtlog.coaching.voice.day_names import DayNames
from courtlog.measures.common.enough import CONFIDENCE, Question, Words
from courtlog.measures.shares.neighbours import Neighbours, tie_of_sums
from courtlog.plain_text import capital

RATED_TWICE = "some of its balls were rated twice, so ask the clinic's own book."


class StrokeOf(NamedTuple):
    """One stroke of one player in one clinic."""

    clinic_id: int
    player_id: int
    stroke: str


@dataclass(slots=True)
class StrokeBalls:
    """The uncoached balls of a stroke, by cue, date and purpose."""

    player: str
    cues: dict[str, dict[date, dict[str, dict[BallKind, tuple[int, int]]]]] = field(
        default_factory=dict
    )

    def first(self, cue: str) -> date | None:
        """The date of the cue's first yardstick."""
        days = self.cues[cue]
        return min((on for on in days if Purpose.YARDSTICK in days[on]), default=None)

    def latest(self, cue: str) -> date | None:
        """The date of its latest one; None where there is no second one."""
        days = self.cues[cue]
        on = max((on for on in days if Purpose.YARDSTICK in days[on]), default=None)
        return None if on == self.first(cue) else on


@dataclass(frozen=True, slots=True)
class ChangeRows:
    """What the engine says: rows of `yardsticks`, `neighbours`, `main_cues`, `rated_twice`."""

    yardsticks: Sequence[tuple]  # type: ignore[type-arg]
    neighbours: Sequence[tuple]  # type: ignore[type-arg]
    main_cues: Sequence[tuple]  # type: ignore[type-arg]
    rated_twice: Sequence[tuple]  # type: ignore[type-arg]


@dataclass(frozen=True, slots=True)
class ChangesOfStroke:
    """The comparisons of a stroke, by cue, and how many cues were tested once."""

    player: str
    comparisons: Mapping[str, Comparison]
    tested_once: int


def changes_of_strokes(
    rows: ChangeRows, dates: Mapping[int, Sequence[date]], planned: Mapping[int, int | None]
) -> dict[StrokeOf, ChangesOfStroke]:
    """Every stroke with a yardstick; `dates` and `planned` days are those of each clinic."""
    ties: dict[StrokeOf, dict[str, Neighbours]] = {}
    for clinic, player, stroke, cue, *sums in rows.neighbours:
        if tie := tie_of_sums(*sums):
            ties.setdefault(StrokeOf(clinic, player, stroke), {})[cue] = tie
    mains = {StrokeOf(*row[:3]): row[3] for row in rows.main_cues}
    return {
        stroke: _compared(
            balls,
            dates[stroke.clinic_id],
            planned[stroke.clinic_id],
            ties.get(stroke, {}),
            mains.get(stroke),
        )
        for stroke, balls in _by_stroke(rows.yardsticks).items()
    }


def change_fact(
    stroke: StrokeOf,
    player: str,
    cue: str,
    comparison: Comparison,
    dates: Sequence[date],
    twice: bool,
) -> Change:
    """The comparison as a value, with its sentence; of one `rated twice` nothing is claimed."""
    result, late, early = comparison.result, comparison.late, comparison.early
    assert late.on is not None
    assert early.on is not None
    statement = uncoached_change(comparison, cue, DayNames.of(dates))
    said = statement.sentence or f"{capital(cue)}: {Words.NOTHING_ALIKE}."
    direction = comparison.verdict.direction
    clear = comparison.verdict.words in (Words.CLEARLY_UP, Words.CLEARLY_DOWN)
    return Change(
        clinic_id=stroke.clinic_id,
        player_id=stroke.player_id,
        player=player,
        stroke=stroke.stroke,
        cue=cue,
        first_on=early.on,
        latest_on=late.on,
        made_first=early.made,
        seen_first=early.seen,
        made_latest=late.made,
        seen_latest=late.seen,
        value=result.value if result else None,
        low=result.low if result else None,
        high=result.high if result else None,
        verdict="rated twice" if twice else str(comparison.verdict),
        direction=0 if twice else direction,
        is_clear=clear and not twice,
        said=f"{capital(cue)}: {RATED_TWICE}" if twice else said,
        reason="" if twice else statement.reason,
    )


def _by_stroke(rows: Sequence[tuple]) -> dict[StrokeOf, StrokeBalls]:  # type: ignore[type-arg]
    strokes: dict[StrokeOf, StrokeBalls] = {}
    for clinic, _, player_id, player, stroke, cue, on, purpose, drill, rung, feed, *counts in rows:
        balls = strokes.setdefault(StrokeOf(clinic, player_id, stroke), StrokeBalls(player))
        kinds = balls.cues.setdefault(cue, {}).setdefault(on, {}).setdefault(purpose, {})
        made, seen = counts
        kinds[BallKind(drill, rung, feed, False)] = made, seen
    return strokes


def _compared(
    balls: StrokeBalls,
    dates: Sequence[date],
    planned_days: int | None,
    ties: Mapping[str, Neighbours],
    main: str | None,
) -> ChangesOfStroke:
    """As `coaching/answers/yardstick.py` does it of single balls, on the counts of their kinds."""
    found: dict[str, Comparison] = {}
    by_day: dict[date, dict[str, Comparison]] = {}
    once = 0
    for cue in balls.cues:
        on = balls.latest(cue)
        if on is None:
            once += balls.first(cue) is not None
            continue
        if on not in by_day:
            against = _against_first(balls, on, dates, ties)
            last = planned_days is None or list(dates).index(on) + 1 >= planned_days
            by_day[on] = judged(against, main) if last else against
        found[cue] = by_day[on][cue]
    return ChangesOfStroke(balls.player, found, once)


def _against_first(
    balls: StrokeBalls, on: date, dates: Sequence[date], ties: Mapping[str, Neighbours]
) -> dict[str, Comparison]:
    """All cues watched in the uncoached balls of that date, each against its first yardstick."""
    against = {}
    for cue, days in balls.cues.items():
        start = balls.first(cue)
        if on not in days or start is None or start >= on:
            continue
        label = f"on day {list(dates).index(on) + 1}"
        if any(Purpose.HOLD in of_cue.get(on, {}) for of_cue in balls.cues.values()):
            label += f", {HOLD_INCLUDED}"
        early: Kinds = {k: v for k, v in days[start][Purpose.YARDSTICK].items() if v[1]}
        one = compare(
            _together(days[on]),
            early,
            (label, f"on day {list(dates).index(start) + 1}"),
            Question.YARDSTICK,
            ties.get(cue),
            CONFIDENCE,
        )
        against[cue] = replace(
            one, late=replace(one.late, on=on), early=replace(one.early, on=start)
        )
    return against


def _together(purposes: Mapping[str, Mapping[BallKind, tuple[int, int]]]) -> Kinds:
    """Counts by kind over the yardstick and the hold; kinds with none seen are left out."""
    kinds: dict[BallKind, tuple[int, int]] = {}
    for of_purpose in purposes.values():
        for kind, (made, seen) in of_purpose.items():
            before = kinds.get(kind, (0, 0))
            if seen:
                kinds[kind] = before[0] + made, before[1] + seen
    return kinds
