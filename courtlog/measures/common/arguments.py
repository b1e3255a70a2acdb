"""The checks of arguments: a bad number ends in one sentence, never in an answer."""

from __future__ import annotations

import math
from collections.abc import Sequence
from operator import index

GRADES = 3
"""Missed 0, near 1, made 2. Not seen is None, the absence of a grade."""


def whole(value: int, name: str, at_least: int = 0) -> int:
    """The value as an int; ValueError when it is not a whole number or below `at_least`."""
    try:
        number = index(value)
    except TypeError:
        number = at_least - 1
    if number < at_least:
        raise ValueError(f"{name} must be a whole number of at least {at_least}, not {value!r}.")
    return number


def made_of_seen(made: int, seen: int) -> tuple[int, int]:
    """Both counts checked: whole, not negative, and no more made than seen."""
    made, seen = whole(made, "made"), whole(seen, "seen")
    if made > seen:
        raise ValueError(f"made ({made}) cannot be more than seen ({seen}).")
    return made, seen


def finite(value: float, name: str) -> float:
    """The value as a float; ValueError when it is NaN, infinite or no number."""
    try:
        number = float(value)
    except (TypeError, ValueError):
        number = math.nan
    if not math.isfinite(number):
        raise ValueError(f"{name} must be a finite number, not {value!r}.")
    return number


def within(value: float, name: str, low: float, high: float) -> float:
    """The value as a float; ValueError outside low..high, both ends allowed."""
    number = finite(value, name)
    if not low <= number <= high:
        raise ValueError(f"{name} must lie in {low:g} to {high:g}, not {value!r}.")
    return number


def inside(value: float, name: str) -> float:
    """The value as a float; ValueError unless strictly between 0 and 1."""
    number = finite(value, name)
    if not 0.0 < number < 1.0:
        raise ValueError(f"{name} must lie between 0 and 1, ends left out, not {value!r}.")
    return number


def grades_of(values: Sequence[int | None], grades: int = GRADES) -> list[int | None]:
    """A record of grades, one a ball, None for not seen; ValueError for an unknown grade."""
    known = range(grades)
    for value in values:
        if value is not None and value not in known:
            raise ValueError(
                f"A grade is a whole number from 0 to {grades - 1}, or None, not {value!r}."
            )
    return [None if value is None else int(value) for value in values]
