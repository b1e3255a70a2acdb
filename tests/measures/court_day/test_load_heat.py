"""Load and heat: records, against hand computation and a weather service's printed chart."""

from __future__ import annotations

from collections.abc import Callable

import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from courtlog.measures.court_day.heat_index import (
    celsius,
    fahrenheit,
    heat_band,
    heat_index_f,
)
from courtlog.measures.court_day.load import load_week, session_load
from tests.measures.steady import ONE_SENTENCE, steady

# Invented weeks, by Python's statistics module: total, monotony, strain.
WEEKS = [
    ([360, 0, 450, 240, 0, 600, 0], 1650, 0.9613, 1586.10),
    ([420, 360, 480, 0, 0, 0, 0], 1260, 0.7924, 998.43),
    ([180, 0, 240, 0, 300, 480, 0], 1200, 0.9281, 1113.77),
]


@pytest.mark.parametrize(("loads", "total", "monotony", "strain"), WEEKS)
def test_weeks(loads: list[float], total: float, monotony: float, strain: float) -> None:
    found = load_week(loads)
    assert found.total == total
    assert found.monotony == pytest.approx(monotony, abs=5e-5)
    assert found.strain == pytest.approx(strain, abs=0.01)


def test_monotony_is_the_mean_over_the_deviation_of_a_sample() -> None:
    """Against pandas, whose standard deviation divides by n - 1; by n it is another number."""
    for loads, _, _, _ in WEEKS:
        days = pd.Series(loads)
        monotony = load_week(loads).monotony
        assert monotony == pytest.approx(days.mean() / days.std())
        assert monotony != pytest.approx(days.mean() / days.std(ddof=0), rel=1e-3)


def test_a_week_that_cannot_be_told() -> None:
    same = load_week([300] * 7)
    assert (same.total, same.monotony, same.strain, same.same_every_day) == (2100, None, None, True)
    few = load_week([300, 200, 100, 50, None, None, None])
    assert (few.total, few.monotony, few.logged, few.same_every_day) == (650, None, 4, False)
    assert load_week([300, 200, 100, 50, 20, None, None]).monotony is not None
    assert load_week([None] * 7).total == 0
    assert not load_week([300] + [None] * 6).same_every_day, "one day is no habit"
    assert load_week([300, 300] + [None] * 5).same_every_day
    told = load_week(WEEKS[0][0])
    assert (told.logged, told.same_every_day) == (7, False)


def test_session_load() -> None:
    assert session_load(6, 90) == 540
    assert session_load(0, 0) == 0


# The two scales meet at 40 below; water freezes and boils, and a hot day.
@pytest.mark.parametrize(("c", "f"), [(-40, -40), (0, 32), (35, 95), (100, 212)])
def test_degrees(c: float, f: float) -> None:
    assert (fahrenheit(c), celsius(f)) == (f, c)


# By the service's procedure, by hand; 96 F and 65 % is its own example, 121.
INDEX = [
    (90, 70, 105.922),
    (100, 55, 123.638),
    (96, 65, 121.032),
    (90, 40, 90.680),
    (86, 60, 91.098),
    (110, 40, 135.657),
    (95, 10, 89.450),
    (85, 90, 101.781),
    (82, 95, 93.972),
    (75, 68.5, 75.210),
    (80, 40, 79.790),
]


@pytest.mark.parametrize(("temp", "humidity", "index"), INDEX)
def test_heat_index(temp: float, humidity: float, index: float) -> None:
    assert heat_index_f(temp, humidity) == pytest.approx(index, abs=6e-4)


# Cells of the service's printed chart (srh.noaa.gov): the regression without its adjustments.
CHART = """80/40 80  84/60 88  86/60 91  88/70 100  90/60 100  90/70 106  92/65 108  94/55 106
           96/65 121  98/50 113  100/40 109  104/50 131  110/40 136"""


def test_the_printed_chart_is_the_bare_regression() -> None:
    cells = CHART.split()
    for cell, printed in zip(cells[::2], cells[1::2], strict=True):
        temp, humidity = (float(n) for n in cell.split("/"))
        index = heat_index_f(temp, humidity, adjusted=False)
        assert index is not None
        assert round(index) == int(printed), cell


def test_the_adjustments_are_the_services_own_and_can_be_left_out() -> None:
    """Its words: subtract in dry air of 80 to 112 F, add in wet air of 80 to 87 F."""
    for temp, humidity in ((90, 70), (100, 55), (110, 40), (95, 13), (95, 85), (88, 90)):
        bare = heat_index_f(temp, humidity, adjusted=False)
        assert heat_index_f(temp, humidity) == bare, (temp, humidity)
    dry, wet = heat_index_f(95, 10, adjusted=False), heat_index_f(85, 90, adjusted=False)
    assert dry == pytest.approx(89.450 + 3 / 4, abs=6e-4)  # (13 - 10) / 4 * sqrt(17 / 17)
    assert wet == pytest.approx(101.781 - 0.5 * 0.4, abs=6e-4)  # (90 - 85) / 10 * (87 - 85) / 5
    assert heat_index_f(112.1, 40, adjusted=False) is None


# By hand from its words: (13 - r) / 4 * sqrt((17 - |t - 95|) / 17), (r - 85) / 10 * (87 - t) / 5.
@pytest.mark.parametrize(
    ("temp", "humidity", "added"),
    [
        (95, 5, -2.0),
        (105, 9, -0.641689),
        (85, 9, -0.641689),
        (112, 5, 0.0),
        (95, 13.5, 0.0),
        (80, 90, 0.7),
        (87, 95, 0.0),
        (86.5, 95, 0.1),
        (82, 85.5, 0.05),
        (79.9, 95, 0.0),
        (87.1, 95, 0.0),
    ],
)
def test_each_adjustment_begins_and_ends_where_the_service_says(
    temp: float, humidity: float, added: float
) -> None:
    index, bare = (heat_index_f(temp, humidity, adjusted=how) for how in (True, False))
    assert index is not None
    assert bare is not None
    assert index - bare == pytest.approx(added, abs=1e-6)


# The simple form, averaged with the temperature: 79.959 and 80.060 by hand.
def test_the_regression_takes_over_where_the_simple_form_reaches_eighty() -> None:
    assert heat_index_f(80, 47.2) == pytest.approx(79.959, abs=6e-4)
    assert heat_index_f(80, 51.5) == heat_index_f(80, 51.5, adjusted=False)


def test_hotter_than_the_formula_is_no_number() -> None:
    assert heat_index_f(112, 20) is not None
    assert heat_index_f(112.1, 20) is None


# Bands as the service words them.
@pytest.mark.parametrize(
    ("index", "word"),
    [
        (79.9, None),
        (80, "caution"),
        (90, "extreme caution"),
        (103, "danger"),
        (124.9, "danger"),
        (125, "extreme danger"),
    ],
)
def test_bands(index: float, word: str | None) -> None:
    assert heat_band(index) == word


@steady
@given(st.floats(80, 111), st.floats(20, 85), st.floats(0.1, 1))
def test_hotter_air_never_feels_cooler(temp: float, humidity: float, more: float) -> None:
    here, hotter = heat_index_f(temp, humidity), heat_index_f(temp + more, humidity)
    assert here is not None
    assert hotter is not None
    assert hotter > here - 1.5  # the simple form meets the full one with a small step


NAN = float("nan")


@pytest.mark.parametrize(
    "call",
    [
        lambda: session_load(11, 60),
        lambda: session_load(-1, 60),
        lambda: session_load(5, -1),
        lambda: session_load(NAN, 60),
        lambda: load_week([1, 2, 3]),
        lambda: load_week([-1, 0, 0, 0, 0, 0, 0]),
        lambda: load_week([NAN, 0, 0, 0, 0, 0, 0]),
        lambda: heat_index_f(90, 101),
        lambda: heat_index_f(90, -1),
        lambda: heat_index_f(NAN, 50),
        lambda: heat_band(NAN),
    ],
)
def test_bad_arguments_end_in_one_sentence(call: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=ONE_SENTENCE):
        call()


def test_a_load_that_is_no_number_is_called_one() -> None:
    with pytest.raises(ValueError, match=r"^A load must be a finite number, not nan\.$"):
        load_week([NAN, 0, 0, 0, 0, 0, 0])
