"""Moving up and slipping, against closed forms, brute force and simulation."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from itertools import product
from math import log

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from scipy.optimize import brentq

from courtlog.measures.learning.mastery import (
    MasteryTest,
)
from courtlog.measures.learning.slip import SlipWatch, alarm_chance, average_run
from tests.measures.steady import ONE_SENTENCE, fewer, steady

ENDLESS = 2000

# Closed forms: Wald's own example and the one of the NIST handbook, 6.2.6 (both from memory).
LINES = [
    ((0.10, 0.30, 0.02, 0.03),
     (3.881564, -3.486355, 1.098612, -0.251314, 2.875389, 2.582626, 0.186169)),
    ((0.01, 0.10, 0.05, 0.10),
     (2.890372, -2.251292, 2.302585, -0.095310, 1.205379, 0.938862, 0.039747)),
    ((0.50, 0.80, 0.10, 0.10),
     (2.197225, -2.197225, 0.470004, -0.916291, 1.584963, 1.584963, 0.660964)),
    ((0.60, 0.85, 0.10, 0.10),
     (2.197225, -2.197225, 0.348307, -0.980829, 1.653123, 1.653123, 0.737945)),
    ((0.50, 0.80, 0.05, 0.10),
     (2.890372, -2.251292, 0.470004, -0.916291, 2.084963, 1.623964, 0.660964)),
]  # fmt: skip


@pytest.mark.parametrize(("plan", "expected"), LINES)
def test_lines(plan: tuple[float, float, float, float], expected: tuple[float, ...]) -> None:
    lines = MasteryTest(*plan).lines
    found = (
        lines.upper,
        lines.lower,
        lines.per_made,
        lines.per_miss,
        lines.above,
        lines.below,
        lines.slope,
    )
    assert found == pytest.approx(expected, abs=1e-6)


# A table for medical training (from memory): 0.05 against 0.10.
def test_lines_of_a_rare_failure() -> None:
    lines = MasteryTest(0.05, 0.10).lines
    assert (lines.above, lines.below, lines.slope) == pytest.approx(
        (2.9406, 2.9406, 0.0724), abs=5e-5
    )


# The card, from the lines by hand: balls, makes to move up, makes that mean not yet.
CARD = """3 -/0  4 -/1  5 5/1  6 6/2  7 7/3  8 7/3  9 8/4  10 9/5  12 10/6  15 12/8
          20 15/11  25 19/14  30 22/18"""


def test_the_card() -> None:
    rows = {row.balls: row for row in MasteryTest().card()}
    assert len(rows) == 30
    pairs = CARD.split()
    for balls, makes in zip(pairs[::2], pairs[1::2], strict=True):
        up, not_yet = (None if n == "-" else int(n) for n in makes.split("/"))
        assert (rows[int(balls)].up, rows[int(balls)].not_yet) == (up, not_yet), balls
    assert (rows[1].not_yet, rows[2].not_yet) == (None, None)


def on_the_line(test: tuple[Fraction, ...], balls: int) -> tuple[int | None, int | None]:
    """The card's row from Wald's ratio of chances in exact fractions, without a logarithm."""
    low, high, alpha, beta = test
    ratio = [
        (high / low) ** made * ((1 - high) / (1 - low)) ** (balls - made)
        for made in range(balls + 1)
    ]
    up = [made for made in range(balls + 1) if ratio[made] >= (1 - beta) / alpha]
    not_yet = [made for made in range(balls + 1) if ratio[made] <= beta / (1 - alpha)]
    return min(up, default=None), max(not_yet, default=None)


# By hand: 3 * 3 = 0.9 / 0.1, so two made of two move up; 1/2 * 1/2 = 0.2 / 0.8: two missed do not.
@steady
@given(
    st.lists(st.integers(1, 19), min_size=2, max_size=2, unique=True).map(sorted),
    st.tuples(st.integers(1, 9), st.integers(1, 9)),
)
@example([2, 6], (2, 2))
@example([8, 14], (4, 4))
def test_counts_just_on_a_line_are_decided(shares: list[int], risks: tuple[int, int]) -> None:
    test = tuple(Fraction(share, 20) for share in (*shares, *risks))
    low, high, alpha, beta = map(float, test)
    for row in MasteryTest(low, high, alpha, beta, 12).card():
        assert (row.up, row.not_yet) == on_the_line(test, row.balls)


# Computed by exact recursion, without a cap: true share, moved up, balls on average.
@pytest.mark.parametrize(
    ("plan", "p", "up", "balls"),
    [
        ((0.5, 0.8, 0.1, 0.1), 0.50, 0.08443, 9.365),
        ((0.5, 0.8, 0.1, 0.1), 0.65, 0.4664, 14.04),
        ((0.5, 0.8, 0.1, 0.1), 0.80, 0.92262, 10.474),
        ((0.5, 0.8, 0.1, 0.1), 0.90, 0.9936, 7.05),
        ((0.1, 0.3, 0.02, 0.03), 0.1, 0.01369, 29.90),
        ((0.1, 0.3, 0.02, 0.03), 0.3, 0.97258, 26.60),
    ],
)
def test_operating_without_a_cap(
    plan: tuple[float, float, float, float], p: float, up: float, balls: float
) -> None:
    found = MasteryTest(*plan, cap=ENDLESS).operating(p)
    assert found.up == pytest.approx(up, abs=1e-4)
    assert found.mean_balls == pytest.approx(balls, abs=6e-3)
    assert found.undecided == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize(("p", "undecided"), [(0.50, 0.020), (0.65, 0.091), (0.80, 0.024)])
def test_operating_with_a_cap_of_thirty(p: float, undecided: float) -> None:
    assert MasteryTest().operating(p).undecided == pytest.approx(undecided, abs=5e-4)
    assert MasteryTest().operating(0.5).up == pytest.approx(0.083, abs=5e-4)


# Two in a row of a test that is up at 5 of 5 at the earliest: never before the tenth ball.
def test_up_twice_in_a_row_by_hand() -> None:
    ready = MasteryTest().ready_by(0.8, 11)
    assert ready[:9] == (0.0,) * 9
    assert ready[9] == pytest.approx(0.8**10)
    assert MasteryTest().ready_by(0.8, 5, in_a_row=1)[-1] == pytest.approx(0.8**5)


@pytest.mark.parametrize(("p", "once", "twice"), [(0.5, 0.413, 0.033), (0.8, 0.999, 0.972)])
def test_begun_again_and_again_the_test_errs_less_when_it_must_say_up_twice(
    p: float, once: float, twice: float
) -> None:
    """By 60 balls; the exact chances against a walk through drawn balls, three standard errors."""
    test, players = MasteryTest(), 600
    for in_a_row, exact in ((1, once), (2, twice)):
        assert test.ready_by(p, 60, in_a_row)[-1] == pytest.approx(exact, abs=5e-4)
        draws = np.random.default_rng(in_a_row).random((players, 60)) < p
        share = sum(walked(test, row.tolist(), in_a_row) for row in draws) / players
        assert abs(share - exact) <= 3 * (exact * (1 - exact) / players) ** 0.5 + 0.005


def walked(test: MasteryTest, balls: list[bool], in_a_row: int) -> bool:
    """Whether the test, begun again after each decision, says "up" so often in a row."""
    ups = 0
    while balls:
        decision, length = test.follow(balls)
        if decision == "keep feeding":
            return False
        ups = ups + 1 if decision == "up" else 0
        if ups == in_a_row:
            return True
        balls = balls[length:]
    return False


def by_hand(plan: MasteryTest, balls: tuple[int, ...]) -> tuple[str, int]:
    """Wald's rule as he states it: add up log-likelihoods until one of two bounds is met."""
    total = 0.0
    for seen, made in enumerate(balls, 1):
        total += log(plan.high / plan.low) if made else log((1 - plan.high) / (1 - plan.low))
        if total >= log((1 - plan.beta) / plan.alpha):
            return "up", seen
        if total <= log(plan.beta / (1 - plan.alpha)):
            return "not yet", seen
    return ("undecided" if len(balls) >= plan.cap else "keep feeding"), len(balls)


PLANS = st.tuples(
    st.floats(0.1, 0.6), st.floats(0.05, 0.35), st.floats(0.02, 0.3), st.floats(0.02, 0.3)
).map(lambda v: MasteryTest(v[0], v[0] + v[1], v[2], v[3], cap=10))


@steady
@given(PLANS, st.lists(st.sampled_from([0, 1]), max_size=10))
def test_following_balls_is_walds_rule(plan: MasteryTest, balls: list[int]) -> None:
    assert plan.follow(map(bool, balls)) == by_hand(plan, tuple(balls))


@fewer
@given(PLANS, st.floats(0, 1))
def test_operating_equals_every_sequence_of_ten(plan: MasteryTest, p: float) -> None:
    sums = {"up": 0.0, "not yet": 0.0, "undecided": 0.0}
    mean = 0.0
    for balls in product((0, 1), repeat=10):
        decision, seen = by_hand(plan, balls)
        chance = p ** sum(balls) * (1 - p) ** (10 - sum(balls))
        sums[decision] += chance
        mean += seen * chance
    found = plan.operating(p)
    assert (found.up, found.not_yet, found.undecided) == pytest.approx(tuple(sums.values()))
    assert found.mean_balls == pytest.approx(mean)


@pytest.mark.parametrize(
    ("made", "seen", "words"),
    [
        (0, 0, "keep feeding"),
        (4, 4, "keep feeding"),
        (5, 5, "up"),
        (0, 2, "keep feeding"),
        (0, 3, "not yet"),
        (14, 20, "keep feeding"),
        (15, 20, "up"),
        (20, 30, "undecided"),
        (22, 30, "up"),
        (18, 30, "not yet"),
    ],
)
def test_decisions(made: int, seen: int, words: str) -> None:
    assert MasteryTest().decide(made, seen) == words


# Computed by a linear solve; 417.27 also by a simulation of 20 000 runs (418.2).
RUNS = {
    4: (102.57, 27.24, 13.09, 8.02, 5.60),
    6: (763.06, 90.80, 29.81, 15.08, 9.54),
    8: (5211.76, 253.73, 54.59, 23.04, 13.53),
    9: (14459.63, 417.27, 70.91, 27.36, 15.60),
    10: (34539.48, 658.24, 89.29, 31.61, 17.53),
    12: (225943.27, 1651.54, 136.23, 40.63, 21.53),
}
WITHIN_FORTY = {
    4: (0.781, 0.998),
    6: (0.344, 0.959),
    8: (0.128, 0.867),
    9: (0.076, 0.808),
    10: (0.046, 0.746),
    12: (0.016, 0.620),
}


@pytest.mark.parametrize("limit", RUNS)
def test_run_lengths(limit: int) -> None:
    found = [average_run(p, limit) for p in (0.1, 0.2, 0.3, 0.4, 0.5)]
    assert found == pytest.approx(RUNS[limit], abs=0.01)
    soon = (alarm_chance(0.2, 40, limit), alarm_chance(0.4, 40, limit))
    assert soon == pytest.approx(WITHIN_FORTY[limit], abs=5e-4)


def test_run_length_by_hand() -> None:
    assert average_run(0.3, 2, 1, 1) == pytest.approx(1.3 / 0.09, abs=1e-9)  # (1 + p) / p^2


# Computed by a linear solve, within 1.2 % of the approximation of Reynolds and Stoumbos 1999 (from
# memory): steps of m - 1 up and 1 down, at the share held to be right and at the one to be found.
@pytest.mark.parametrize(
    ("right", "m", "limit", "false", "found"),
    [
        (0.01, 50, 3, 5131.90, 173.39),
        (0.01, 50, 4, 19156.20, 239.09),
        (0.10, 5, 2, 183.60, 12.50),
        (0.10, 5, 3, 907.86, 19.76),
        (0.10, 5, 4, 4279.94, 27.22),
    ],
)
def test_run_lengths_on_a_lattice(
    right: float, m: int, limit: int, false: float, found: float
) -> None:
    def off(wrong: float) -> float:
        down = log((1 - right) / (1 - wrong))
        return down / log(wrong * (1 - right) / (right * (1 - wrong))) - 1 / m

    wrong = float(brentq(off, right * 1.01, 0.99))
    assert average_run(right, limit * m, m - 1, 1) == pytest.approx(false, abs=0.01)
    assert average_run(wrong, limit * m, m - 1, 1) == pytest.approx(found, abs=0.01)


def test_run_length_by_simulation() -> None:
    draw = np.random.default_rng(20)
    lengths = []
    for _ in range(2000):
        watch = SlipWatch()
        for made in draw.random(2000) >= 0.4:
            watch = watch.after(bool(made))
            if watch.alarm:
                break
        lengths.append(watch.balls)
    error = np.std(lengths) / len(lengths) ** 0.5
    assert np.mean(lengths) == pytest.approx(average_run(0.4), abs=4 * error)


@fewer
@given(st.floats(0, 1, exclude_min=True, exclude_max=True), st.integers(0, 10), st.integers(1, 9))
def test_alarm_chance_equals_every_sequence(p_miss: float, balls: int, limit: int) -> None:
    chance = 0.0
    for record in product((True, False), repeat=balls):
        watch = SlipWatch(limit)
        for made in record:
            watch = watch.after(made)
        if watch.alarm:
            misses = balls - sum(record)
            chance += p_miss**misses * (1 - p_miss) ** (balls - misses)
    assert alarm_chance(p_miss, balls, limit) == pytest.approx(chance, abs=1e-9)


def test_an_alarm_stands_until_it_is_acknowledged() -> None:
    watch = SlipWatch(8)
    for made in (False, True, False, False, True, False, False):
        watch = watch.after(made)
    assert (watch.total, watch.alarm) == (8, True)
    for _ in range(5):
        watch = watch.after(True)
    assert watch.alarm
    assert (watch.acknowledged().total, watch.acknowledged().balls) == (0, 12)
    assert SlipWatch().after(True).total == 0


NAN = float("nan")


@pytest.mark.parametrize(
    "call",
    [
        lambda: MasteryTest(0.8, 0.5),
        lambda: MasteryTest(0.0, 0.5),
        lambda: MasteryTest(0.5, 1.0),
        lambda: MasteryTest(NAN, 0.8),
        lambda: MasteryTest(alpha=0.6, beta=0.5),
        lambda: MasteryTest(cap=0),
        lambda: MasteryTest().decide(3, 2),
        lambda: MasteryTest().decide(-1, 2),
        lambda: MasteryTest().operating(1.2),
        lambda: MasteryTest().operating(NAN),
        lambda: SlipWatch(0),
        lambda: SlipWatch(8, -1),
        lambda: average_run(0.0),
        lambda: average_run(0.2, 0),
        lambda: alarm_chance(0.2, -1),
    ],
)
def test_bad_arguments_end_in_one_sentence(call: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=ONE_SENTENCE):
        call()
