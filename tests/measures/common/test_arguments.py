"""Every number handed to a measure has bounds; one beyond them is refused by its name."""

from __future__ import annotations

import inspect
import math
import pkgutil
from collections.abc import Callable, Iterator
from importlib import import_module
from typing import Any, NamedTuple

import pytest

import courtlog.measures
from courtlog.measures.common import chances
from courtlog.measures.court_day import heat_index, load, schedule
from courtlog.measures.learning import curve, mastery, slip
from courtlog.measures.shares import (
    agreement,
    neighbours,
    power,
    proportions,
    strata,
    trend,
)
from tests.measures.steady import ONE_SENTENCE


class Bounds(NamedTuple):
    """What one argument may be, what it may not be, and how a refusal calls it."""

    allowed: tuple[float, ...]
    refused: tuple[float, ...]
    called: str = ""

    def named(self, name: str) -> Bounds:
        """The same bounds under another name in the sentence."""
        return self._replace(called=name)


def whole(least: int, most: int | None = None) -> Bounds:
    """Whole numbers from this one on; `most` is not the argument's own bound, so not refused."""
    return Bounds((least,) if most is None else (least, most), (least - 1, least + 0.5))


def share(low: float = 0, high: float = 1) -> Bounds:
    """Numbers between two ends, which are allowed."""
    return Bounds((low, high), (low - 1e-6, high + 1e-6, math.inf))


INSIDE = Bounds((1e-6, 1 - 1e-6), (0, 1))
FINITE = Bounds((-40, 0, 40), (math.inf, -math.inf))
FEEDS = {"line": 3, "cross": 3}
STRATA = [strata.Stratum(5, 10, 3, 10)]
CURVE = curve.skill_curve([2])
TEMPERATURE = FINITE.named("temperature")

# Each measure with arguments that are right, then the bounds of each number among them.
SHEET: list[tuple[Callable[..., object], dict[str, Any], dict[str, Bounds]]] = [
    (chances.normal_quantile, {"confidence": 0.9}, {"confidence": INSIDE}),
    (heat_index.fahrenheit, {"celsius": 20}, {"celsius": TEMPERATURE}),
    (heat_index.celsius, {"fahrenheit": 70}, {"fahrenheit": TEMPERATURE}),
    (
        heat_index.heat_index_f,
        {"temp_f": 90, "humidity": 50},
        {"temp_f": FINITE, "humidity": share(0, 100)},
    ),
    (heat_index.heat_band, {"index_f": 90}, {"index_f": FINITE}),
    (
        load.session_load,
        {"effort": 5, "minutes": 60},
        {"effort": share(0, 10), "minutes": Bounds((0, 1e6), (-1e-6, math.inf))},
    ),
    (
        power.clear_chance,
        {"early": 0.4, "late": 0.7, "seen_early": 20, "seen_late": 40, "confidence": 0.95},
        {
            "early": share(),
            "late": share(),
            "seen_early": whole(0),
            "seen_late": whole(0),
            "confidence": INSIDE,
        },
    ),
    (schedule.usual_max_run, {"feeds": 2}, {"feeds": whole(0)}),
    (schedule.orders_count, {"counts": FEEDS, "max_run": 2}, {"max_run": whole(1)}),
    (schedule.shuffled_feeds, {"counts": FEEDS, "max_run": 2, "seed": 1}, {"max_run": whole(1)}),
    (
        schedule.tough_plans_count,
        {"balls": 10, "tough": 2},
        {"balls": whole(1), "tough": whole(0)},
    ),
    (
        schedule.tough_plan,
        {"balls": 10, "tough": 2, "seed": 1},
        {"balls": whole(1), "tough": whole(0)},
    ),
    (schedule.williams, {"n": 4}, {"n": whole(2)}),
    (schedule.pairs, {"n": 4}, {"n": whole(2)}),
    (
        schedule.speak_now,
        {"ball": 1, "balls": 10, "start": 1.0, "end": 0.25, "blocks": 4},
        {
            "ball": whole(1, 10),
            "balls": whole(1),
            "start": share(),
            "end": share(),
            "blocks": whole(1),
        },
    ),
    (CURVE.certainty_above, {"reference": 0.5}, {"reference": INSIDE}),
    (
        CURVE.learning_ball,
        {"reference": 0.5, "certainty": 0.9},
        {"reference": INSIDE, "certainty": INSIDE},
    ),
    (
        mastery.MasteryTest,
        {"low": 0.5, "high": 0.8, "alpha": 0.1, "beta": 0.1, "cap": 30},
        {
            "low": Bounds((1e-6,), (0, 1)),
            "high": Bounds((1 - 1e-6,), (0, 1)),
            "alpha": Bounds((1e-6, 0.89), (0, 1)),
            "beta": Bounds((1e-6, 0.89), (0, 1)),
            "cap": whole(1),
        },
    ),
    (
        mastery.MasteryTest().decide,
        {"made": 1, "seen": 2},
        {"made": whole(0, 2), "seen": Bounds((1,), (-1, 2.5))},
    ),
    (mastery.MasteryTest().operating, {"p": 0.5}, {"p": share()}),
    (
        slip.SlipWatch,
        {"limit": 8, "total": 0, "balls": 0},
        {"limit": whole(1), "total": whole(0), "balls": whole(0)},
    ),
    (
        slip.average_run,
        {"p_miss": 0.2, "limit": 8, "per_miss": 2, "per_made": 1},
        {
            "p_miss": Bounds((0.01, 1 - 1e-6), (0, 1)),
            "limit": whole(1),
            "per_miss": whole(1),
            "per_made": whole(0),
        },
    ),
    (
        slip.alarm_chance,
        {"p_miss": 0.2, "balls": 10, "limit": 8},
        {"p_miss": INSIDE, "balls": whole(0), "limit": whole(1)},
    ),
    (
        agreement.kappa,
        {"a": [1], "b": [1], "weights": None, "categories": 3, "confidence": 0.9},
        {"categories": whole(2), "confidence": INSIDE},
    ),
    (
        agreement.gwet_ac,
        {"a": [1], "b": [1], "weights": None, "categories": 3, "confidence": 0.9},
        {"categories": whole(2), "confidence": INSIDE},
    ),
    (agreement.agreement_word, {"value": 0.5}, {"value": FINITE.named("kappa")}),
    (
        agreement.bears_verdicts,
        {"weighted_kappa": 0.5, "ac2": 0.5},
        {"weighted_kappa": FINITE, "ac2": FINITE},
    ),
    (
        neighbours.neighbours,
        {"rounds": [[0, 2, 2, 0]] * 30, "sure": 2.0},
        {"sure": FINITE.named("sure")},
    ),
    (
        trend.mantel,
        {"kinds": [[(1, 2, 1), (2, 3, 2)]], "inflation": 1.5},
        {"inflation": share(1, 100)},
    ),
    (
        neighbours.widened,
        {"confidence": 0.9, "tie": neighbours.Neighbours(0.2)},
        {"confidence": INSIDE},
    ),
    (
        neighbours.worth_about,
        {"balls": 10, "correlation": 0.2},
        {"balls": whole(0), "correlation": share(-1, 1)},
    ),
    (
        proportions.wilson,
        {"made": 1, "seen": 2, "confidence": 0.9},
        {"made": whole(0, 2), "seen": Bounds((1,), (-1, 2.5)), "confidence": INSIDE},
    ),
    (
        proportions.unseen_bounds,
        {"made": 1, "not_made": 1, "unseen": 1},
        {"made": whole(0), "not_made": whole(0), "unseen": whole(0)},
    ),
    (
        proportions.newcombe,
        {"made_late": 1, "seen_late": 2, "made_early": 1, "seen_early": 2, "confidence": 0.9},
        {
            "made_late": whole(0, 2).named("made"),
            "seen_late": Bounds((1,), (-1, 2.5), "seen"),
            "made_early": whole(0, 2).named("made"),
            "seen_early": Bounds((1,), (-1, 2.5), "seen"),
            "confidence": INSIDE,
        },
    ),
    (
        strata.Stratum,
        {"made_late": 1, "seen_late": 2, "made_early": 1, "seen_early": 2},
        {
            "made_late": whole(0, 2).named("made"),
            "seen_late": Bounds((1,), (-1, 2.5), "seen"),
            "made_early": whole(0, 2).named("made"),
            "seen_early": Bounds((1,), (-1, 2.5), "seen"),
        },
    ),
    (strata.like_for_like, {"strata": STRATA, "confidence": 0.9}, {"confidence": INSIDE}),
    (
        strata.mover,
        {"strata": STRATA, "weights": [1.0], "confidence": 0.9},
        {"confidence": INSIDE},
    ),
]
BY_ITS_CALLERS = {
    *("normal_two_sided", "chi_square_tail", "verdict_by_p", "wilson_limits"),
    *("grades_of", "level", "made_of_seen", "within", "inside", "whole", "finite", "tie_of_sums"),
}
"""Called with numbers that a measure has worked out, or the checks themselves."""

NUMBERS = {"int", "float", "int | None"}
SEEDS = {"seed"}
"""Any number draws an order."""


def measures() -> Iterator[tuple[str, set[str]]]:
    """Every public function of the measures, with the arguments that are single numbers."""
    for module in pkgutil.walk_packages(courtlog.measures.__path__, "courtlog.measures."):
        for name, function in vars(import_module(module.name)).items():
            if not inspect.isfunction(function) or function.__module__ != module.name:
                continue
            arguments = inspect.signature(function).parameters.values()
            numbers = {a.name for a in arguments if a.annotation in NUMBERS} - SEEDS
            if numbers and not name.startswith("_"):
                yield name, numbers


def test_the_sheet_has_every_number_of_every_measure() -> None:
    held = {function.__name__: set(bounds) for function, _, bounds in SHEET}
    missing = {
        name: sorted(numbers - held.get(name, set()))
        for name, numbers in measures()
        if name not in BY_ITS_CALLERS and not numbers <= held.get(name, set())
    }
    assert missing == {}


@pytest.mark.parametrize(
    ("function", "right", "name", "bounds"),
    [
        pytest.param(function, right, name, bounds, id=f"{function.__qualname__}-{name}")
        for function, right, every in SHEET
        for name, bounds in every.items()
    ],
)
def test_a_number_is_taken_up_to_its_bounds_and_refused_by_name_beyond(
    function: Callable[..., object], right: dict[str, Any], name: str, bounds: Bounds
) -> None:
    for value in bounds.allowed:
        function(**{**right, name: value})
    for wrong in (*bounds.refused, math.nan, "many"):
        with pytest.raises(ValueError, match=ONE_SENTENCE) as refusal:
            function(**{**right, name: wrong})
        assert str(refusal.value).startswith(f"{bounds.called or name} "), wrong
