"""How much a player has done: a record, and neither advice nor a forecast of injury."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import mean, stdev

from courtlog.measures.common.arguments import finite, within
from courtlog.measures.common.enough import Level, Question, level

DAYS = 7


@dataclass(frozen=True, slots=True)
class LoadWeek:
    """Load of seven days; monotony and strain only from enough logged and unlike days.

    `same_every_day`: the days do not differ, so monotony has no number.
    """

    total: float
    monotony: float | None
    strain: float | None
    logged: int
    same_every_day: bool


def session_load(effort: float, minutes: float) -> float:
    """Effort (0-10, asked about half an hour after) times minutes.

    Source: Foster C et al. 2001, J Strength Cond Res 15:109-115.
    """
    time = finite(minutes, "minutes")
    if time < 0:
        raise ValueError(f"minutes cannot be negative, not {minutes!r}.")
    return within(effort, "effort", 0, 10) * time


def load_week(loads: Sequence[float | None]) -> LoadWeek:
    """Seven daily loads: a rest day is 0, a day nobody logged is None.

    Monotony is mean over standard deviation (of a sample, n - 1; other writers divide by n), strain
    is total times monotony. Source: Foster C 1998, Med Sci Sports Exerc 30:1164-1168.
    """
    if len(loads) != DAYS:
        raise ValueError(f"A week has {DAYS} days, not {len(loads)}.")
    days = [finite(load, "A load") for load in loads if load is not None]
    if any(day < 0 for day in days):
        raise ValueError("A load cannot be negative.")
    total, same = sum(days), len(days) > 1 and len(set(days)) == 1
    if level(Question.MONOTONY, len(days)) is Level.REFUSE or same:
        return LoadWeek(total, None, None, len(days), same)
    monotony = mean(days) / stdev(days)
    return LoadWeek(total, monotony, total * monotony, len(days), same)
