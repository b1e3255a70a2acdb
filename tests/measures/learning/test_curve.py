"""The skill curve against a second route written from the paper, and against full enumeration."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from courtlog.measures.learning.curve import SkillCurve, skill_curve
from courtlog.measures.learning.grid import POINTS, USUAL, SkillDrift, chain_of, logistic
from tests.measures.learning.normal_route import (
    Smoothed,
    em_as_in_the_paper,
    em_fixed_start,
    smooth,
    three_grades,
    yes_no,
)
from tests.measures.steady import ONE_SENTENCE, fewer, steady

FORTY = json.loads((Path(__file__).parent / "forty_balls.json").read_text())
MADE: list[int | None] = FORTY["made"]
RECORD: list[int | None] = [made and 2 for made in MADE]
GRADED: list[int | None] = [int(grade) for grade in "0010102011120121121212212211222212222122"]
ONE = SkillDrift(variances=(0.05,))


def of(*shares: float, to: float) -> object:
    return pytest.approx(shares, abs=to)


def at(curve: SkillCurve, ball: int) -> tuple[float, float, float]:
    return curve.low[ball - 1], curve.median[ball - 1], curve.high[ball - 1]


def without(record: Sequence[int | None], *balls: int) -> list[int | None]:
    return [None if ball in balls else grade for ball, grade in enumerate(record, 1)]


# Values below: computed by two independent routes, an exact grid and a normal filter-smoother.


def test_forty_balls_point_by_point() -> None:
    curve = skill_curve(RECORD, drift=ONE)
    assert curve.log_likelihood == pytest.approx(FORTY["log_likelihood"], abs=1e-5)
    certainty = curve.certainty_above(0.4)
    assert list(certainty) == pytest.approx(FORTY["certainty_above_reference"], abs=1e-4)
    assert curve.learning_ball(0.4) == FORTY["learning_ball"]
    chain = chain_of(RECORD, (), False, ONE)
    assert chain is not None
    chances = chain.both_ways()[0][:, 0]
    mean = chances @ POINTS
    sd = np.sqrt(chances @ POINTS**2 - mean**2)
    assert list(mean) == pytest.approx(FORTY["grid_mean"], abs=1e-4)
    assert list(sd) == pytest.approx(FORTY["grid_sd"], abs=1e-4)


@pytest.mark.parametrize(
    ("ball", "low", "median", "high"),
    [
        (1, 0.1822, 0.3808, 0.6247),
        (10, 0.2647, 0.4529, 0.6539),
        (20, 0.4101, 0.6095, 0.7811),
        (30, 0.5676, 0.7595, 0.8896),
        (40, 0.5962, 0.8257, 0.9433),
    ],
)
def test_forty_balls_as_shares(ball: int, low: float, median: float, high: float) -> None:
    assert at(skill_curve(RECORD, drift=ONE), ball) == of(low, median, high, to=0.002)


def test_the_usual_mixture_of_drifts() -> None:
    curve = skill_curve(RECORD)
    assert at(curve, 1) == of(0.1444, 0.3763, 0.6357, to=0.002)
    assert at(curve, 20) == of(0.3849, 0.6083, 0.7993, to=0.002)
    assert at(curve, 40) == of(0.5870, 0.8419, 0.9743, to=0.002)
    certainty = curve.certainty_above(0.4)
    assert (certainty[19], certainty[39]) == of(0.9382, 0.9970, to=0.001)
    assert curve.learning_ball(0.4) == 22
    alone = [skill_curve(RECORD, drift=SkillDrift(variances=(v,))) for v in USUAL.variances]
    assert [curve.learning_ball(0.4) for curve in alone] == [14, 17, 20, 22, 23]
    likely = np.exp([curve.log_likelihood for curve in alone])
    assert tuple(likely / likely.sum()) == of(0.0727, 0.1287, 0.2504, 0.3031, 0.2452, to=1e-4)


def test_sixteen_of_twenty_is_not_yet_learned_against_the_target() -> None:
    curve = skill_curve(RECORD)
    assert sum(grade == 2 for grade in RECORD[20:]) == 16
    assert curve.learning_ball(0.70) is None
    assert curve.certainty_above(0.70)[-1] == pytest.approx(0.8291, abs=0.001)


@pytest.mark.parametrize(
    ("variance", "log_likelihood"),
    [
        (0.01, -27.3734),
        (0.02, -26.8020),
        (0.04, -26.2672),
        (0.08, -25.9662),
        (0.10, -25.9453),
        (0.16, -26.0420),
        (0.32, -26.5462),
    ],
)
def test_forty_balls_cannot_tell_the_drift(variance: float, log_likelihood: float) -> None:
    curve = skill_curve(RECORD, drift=SkillDrift(variances=(variance,)))
    assert curve.log_likelihood == pytest.approx(log_likelihood, abs=1e-3)


def test_near_counts_when_graded() -> None:
    curve = skill_curve(GRADED, graded=True, drift=ONE)
    assert curve.log_likelihood == pytest.approx(-40.282073, abs=1e-4)
    assert curve.learning_ball(0.4) == 22
    best = skill_curve(GRADED, graded=True, drift=SkillDrift(variances=(0.05,), near_cut=-2.192))
    assert best.log_likelihood == pytest.approx(-37.583, abs=1e-3)
    assert skill_curve(GRADED, drift=ONE).log_likelihood == pytest.approx(
        skill_curve([2 if g == 2 else 0 for g in GRADED], drift=ONE).log_likelihood
    )


def test_nothing_seen_is_the_prior_widening() -> None:
    curve = skill_curve([None] * 5, drift=ONE)
    assert at(curve, 1) == of(0.0782, 0.5, 0.9218, to=0.001)
    assert curve.log_likelihood == pytest.approx(0.0, abs=1e-12)
    assert np.all(np.diff(curve.high) > 0)


def test_an_empty_record() -> None:
    curve = skill_curve([])
    assert len(curve.median) == len(curve.certainty_above(0.5)) == 0
    assert curve.learning_ball(0.4) is None


# The second route. The normal approximation is known to stay within 0.03 in probability of the
# grid, within 0.05 where everything is made or missed.


def second_route(
    record: list[int | None], variance: float, night: int | None = None, graded: bool = False
) -> Smoothed:
    steps = [0.5 if ball == night else variance for ball in range(1, len(record) + 1)]
    seen = record if graded else [None if g is None else int(g == 2) for g in record]
    return smooth(seen, steps, 0.0, 2.25, model=three_grades if graded else yes_no)


def drifting(variance: float) -> SkillDrift:
    return SkillDrift(variances=(variance,), overnight=0.5 - variance)


def test_the_second_route_is_the_one_known() -> None:
    other = second_route(RECORD, 0.05)
    assert other.mean == pytest.approx(FORTY["normal_mean"], abs=1e-5)
    assert [v**0.5 for v in other.var] == pytest.approx(FORTY["normal_sd"], abs=1e-5)
    variance, steps = em_fixed_start(MADE)
    assert (variance, steps) == of(0.0745, 267, to=5e-5)


@pytest.mark.parametrize(
    ("record", "variance", "night", "graded", "ball", "to"),
    [
        (RECORD, 0.05, None, False, 20, 0.03),
        (RECORD, 0.0745, None, False, 21, 0.03),
        (RECORD, 0.05, 21, False, 21, 0.03),
        (without(RECORD, 4, 12, 13, 26, 34), 0.05, None, False, 21, 0.03),
        (GRADED, 0.05, None, True, 22, 0.03),
        ([2] * 10, 0.05, None, False, 1, 0.05),
        ([0] * 10, 0.05, None, False, None, 0.05),
        ([2], 0.05, None, False, None, 0.03),
        ([None] * 5, 0.05, None, False, None, 0.001),
    ],
)
def test_two_routes_to_one_curve(
    record: list[int | None],
    variance: float,
    night: int | None,
    graded: bool,
    ball: int | None,
    to: float,
) -> None:
    here = skill_curve(record, () if night is None else (night,), graded, drifting(variance))
    other = second_route(record, variance, night, graded)
    for share, values in ((0.05, here.low), (0.5, here.median), (0.95, here.high)):
        theirs = [other.share(k, share) for k in range(len(record))]
        assert list(values) == pytest.approx(theirs, abs=to)
    assert list(here.certainty_above(0.4)) == pytest.approx(other.certainty(0.4), abs=0.03)
    assert here.learning_ball(0.4) == other.learning_ball(0.4) == ball


def grades(longest: int = 40) -> st.SearchStrategy[list[int | None]]:
    return st.lists(st.sampled_from([0, 1, 2, None]), min_size=1, max_size=longest)


@steady
@given(grades(), st.sampled_from([0.01, 0.05, 0.2]), st.booleans(), st.data())
def test_two_routes_to_any_curve(
    record: list[int | None], variance: float, graded: bool, data: st.DataObject
) -> None:
    night = data.draw(st.none() | st.integers(2, len(record))) if len(record) > 1 else None
    here = skill_curve(record, () if night is None else (night,), graded, drifting(variance))
    other = second_route(record, variance, night, graded)
    for share, values in ((0.05, here.low), (0.5, here.median), (0.95, here.high)):
        theirs = [other.share(k, share) for k in range(len(record))]
        assert list(values) == pytest.approx(theirs, abs=0.1)


def plain_chain(
    record: list[int | None], breaks: set[int], near_cut: float
) -> tuple[list[float], float]:
    """The textbook forward-backward recursion, every matrix dense and every ball normalised."""
    missed, made = logistic(near_cut - POINTS), logistic(POINTS)
    seen = {0: missed, 1: 1 - made - missed, 2: made, None: np.ones_like(POINTS)}
    apart = (POINTS[:, None] - POINTS[None, :]) ** 2
    smoothed, logs = [], []
    for variance in USUAL.variances:
        steps = [np.exp(-apart / (2 * v)) for v in (variance, variance + USUAL.overnight)]
        day, night = (step / step.sum(axis=1, keepdims=True) for step in steps)
        into = [night if ball in breaks else day for ball in range(1, len(record) + 1)]
        state = np.exp(-(POINTS**2) / (2 * USUAL.variance))
        state, log, forward = state / state.sum(), 0.0, []
        for ball, grade in enumerate(record):
            state = (state @ into[ball] if ball else state) * seen[grade]
            log += np.log(state.sum())
            state = state / state.sum()
            forward.append(state)
        back = [np.ones_like(POINTS)]
        for ball in range(len(record) - 1, 0, -1):
            later = into[ball] @ (seen[record[ball]] * back[0])
            back.insert(0, later / later.sum())
        both = np.array(forward) * np.array(back)
        smoothed.append(both / both.sum(axis=1, keepdims=True))
        logs.append(log)
    weights = np.exp(np.array(logs) - max(logs))
    mixed = np.tensordot(weights / weights.sum(), np.array(smoothed), axes=1)
    above = mixed[:, POINTS > 0].sum(axis=1) + mixed[:, POINTS == 0].sum(axis=1) / 2
    return list(above), float(np.log(np.mean(np.exp(logs))))


@steady
@given(grades(), st.data())
def test_the_textbook_recursion_gives_the_same_curve(
    record: list[int | None], data: st.DataObject
) -> None:
    breaks = data.draw(st.sets(st.integers(1, len(record)), max_size=3))
    curve = skill_curve(record, breaks, graded=True)
    above, log_likelihood = plain_chain(record, breaks, USUAL.near_cut)
    assert list(curve.certainty_above(0.5)) == pytest.approx(above, abs=1e-7)
    assert curve.log_likelihood == pytest.approx(log_likelihood, abs=1e-6)


# The authors' demonstration sequence, computed here from the published update equations and not run
# against their program: it holds the second route itself in place.
DEMO: list[int | None] = [*map(int, "000010111111110101101"), *([1] * 20)]


@pytest.mark.parametrize(
    ("start", "variance", "steps", "first", "last", "ball"),
    [
        (0, 0.2512, 251, 0.2742, 0.9711, 6),
        (1, 0.2401, 267, 0.2882, 0.9701, 6),
        (2, 0.4208, 409, 0.2559, 0.9802, 7),
    ],
)
def test_the_paper_s_own_sequence(
    start: int, variance: float, steps: int, first: float, last: float, ball: int
) -> None:
    found, taken, other = em_as_in_the_paper(DEMO, 0.25, start)
    assert found == pytest.approx(variance, abs=1e-4)
    assert taken == steps
    assert (other.share(0), other.share(40)) == of(first, last, to=1e-4)
    assert other.learning_ball(0.25) == ball


def test_full_enumeration_of_three_balls_with_a_night() -> None:
    """Every path of three skills on the grid, summed without any recursion."""
    record, prior = [2, None, 1], np.exp(-(POINTS**2) / (2 * USUAL.variance))
    near = logistic(-POINTS) - logistic(USUAL.near_cut - POINTS)
    seen = [logistic(POINTS), np.ones_like(POINTS), near]
    chain = chain_of(record, (3,), True, USUAL)
    assert chain is not None
    here, logs = chain.both_ways()
    apart = (POINTS[:, None] - POINTS[None, :]) ** 2
    for place, variance in enumerate(USUAL.variances):
        step, night = (
            weights / weights.sum(axis=1, keepdims=True)
            for weights in (np.exp(-apart / (2 * v)) for v in (variance, variance + 0.5))
        )
        paths = np.einsum(
            "i,i,ij,j,jk,k->ijk", prior / prior.sum(), seen[0], step, seen[1], night, seen[2]
        )
        assert logs[place] == pytest.approx(np.log(paths.sum()), abs=1e-7)
        for ball, axes in enumerate([(1, 2), (0, 2), (0, 1)]):
            alone = paths.sum(axis=axes) / paths.sum()
            assert np.abs(here[ball, place] - alone).max() < 1e-7


# Computed by two independent routes; a night of variance 0.5 in all before ball 21.


@fewer
@given(grades())
def test_making_every_made_a_miss_reflects_the_curve(record: list[int | None]) -> None:
    turned = [None if g is None else 0 if g == 2 else 2 for g in record]
    here, there = skill_curve(record), skill_curve(turned)
    assert list(there.low) == pytest.approx(list(1 - here.high), abs=1e-9)
    assert list(there.median) == pytest.approx(list(1 - here.median), abs=1e-9)
    assert list(there.certainty_above(0.3)) == pytest.approx(
        list(1 - here.certainty_above(0.7)), abs=1e-9
    )


@fewer
@given(grades(), st.integers(1, 10), st.booleans())
def test_unseen_balls_at_the_end_change_no_earlier_point(
    record: list[int | None], more: int, graded: bool
) -> None:
    here = skill_curve(record, (), graded)
    there = skill_curve([*record, *([None] * more)], (len(record) + 1,), graded)
    balls = len(record)
    assert list(there.median[:balls]) == pytest.approx(list(here.median), abs=1e-9)
    assert list(there.low[:balls]) == pytest.approx(list(here.low), abs=1e-9)
    assert there.log_likelihood == pytest.approx(here.log_likelihood, abs=1e-9)


@fewer
@given(grades(), st.floats(0.05, 0.95))
def test_certainty_and_the_band_tell_the_same(record: list[int | None], reference: float) -> None:
    curve = skill_curve(record)
    certainty = curve.certainty_above(reference)
    assert np.all((certainty >= 0) & (certainty <= 1))
    assert np.all((curve.low <= curve.median) & (curve.median <= curve.high))
    clear = np.abs(certainty - 0.95) > 1e-3
    assert list((certainty >= 0.95)[clear]) == list((curve.low >= reference)[clear])
    ball = curve.learning_ball(reference)
    sure = certainty >= 0.95
    assert (ball is None) == (not sure[-1])
    if ball is not None:
        assert sure[ball - 1 :].all()
        assert ball == 1 or not sure[ball - 2]


def test_a_curve_cannot_be_changed_in_place() -> None:
    with pytest.raises(ValueError, match="read-only"):
        skill_curve(RECORD).median[0] = 1.0


def test_a_drift_may_lie_anywhere_on_the_grid() -> None:
    SkillDrift(mean=7.9, overnight=0, near_cut=-7.9, variance=0.01, variances=(0.01,))
    SkillDrift(mean=-7.9, near_cut=-0.01)


@pytest.mark.parametrize("name", ["overnight", "near_cut", "mean", "variance"])
def test_a_drift_that_is_no_number_is_named(name: str) -> None:
    for wrong in (float("nan"), "wide"):
        with pytest.raises(ValueError, match=f"^{name} must be a finite number"):
            SkillDrift(**{name: wrong})  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "call",
    [
        lambda: skill_curve([3]),
        lambda: skill_curve([-1]),
        lambda: skill_curve([float("nan")]),  # type: ignore[list-item]
        lambda: skill_curve([2], (2,)),
        lambda: skill_curve([2], (0,)),
        lambda: skill_curve([2]).certainty_above(1.0),
        lambda: skill_curve([2]).learning_ball(0.4, 1.0),
        lambda: SkillDrift(variances=()),
        lambda: SkillDrift(variances=(0.001,)),
        lambda: SkillDrift(variances=(float("nan"),)),
        lambda: SkillDrift(overnight=-1),
        lambda: SkillDrift(mean=8),
        lambda: SkillDrift(mean=-8),
        lambda: SkillDrift(near_cut=-8),
        lambda: SkillDrift(variance=0.009),
        lambda: SkillDrift(near_cut=0),
    ],
)
def test_bad_arguments_end_in_one_sentence(call: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=ONE_SENTENCE):
        call()
