"""Like-for-like over kinds of ball, against published tables, statsmodels and a second route."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import brentq
from scipy.stats import chi2, norm
from statsmodels.stats.contingency_tables import StratifiedTable

from courtlog.measures.common.chances import chi_square_tail
from courtlog.measures.common.enough import Level, Question, level, verdict
from courtlog.measures.shares.proportions import newcombe
from courtlog.measures.shares.strata import (
    Stratum,
    like_for_like,
    mover,
    on_the_early_mix,
    shared,
)
from courtlog.measures.shares.strata_tests import (
    odds_ratio,
    same_in_all,
)
from courtlog.measures.shares.trend import Trend, mantel
from tests.measures.steady import ONE_SENTENCE, steady


def kinds(text: str) -> list[Stratum]:
    """'18/20 v 10/20; ...': made of seen, later v earlier."""
    rows = []
    for row in text.split(";"):
        late, early = row.split(" v ")
        rows.append(Stratum(*(int(n) for side in (late, early) for n in side.split("/"))))
    return rows


def over_two_days(rows: list[Stratum]) -> Trend | None:
    """The common test of Cochran, Mantel and Haenszel, as Mantel's trend over two days."""
    return mantel(
        [(s.made_early, s.seen_early, 1), (s.made_late, s.seen_late, 2)] for s in shared(rows)
    )


@dataclass(frozen=True)
class Known:
    """One published or computed set of tables; an empty tuple is not known for it."""

    source: str
    rows: str
    ratio: float
    common: float
    breslow_day: float
    tarone: float
    df: int
    tarone_p: float
    difference: float
    se: float
    interval: tuple[float, float]
    recovered: tuple[float, float]
    standard: tuple[float, float] | None = None
    share: float = 1.0
    digits: float = 1e-5


CHINA = Known(
    "Agresti, Table 3.3, eight cities; odds ratio 2.174, test 280.138, Breslow-Day 5.200 p 0.636 "
    "as printed by SAS; the rest computed with statsmodels, the difference by SAS's formulas",
    "126/226 v 35/96; 908/1596 v 497/1304; 913/1660 v 336/934; 235/407 v 58/179; "
    "402/710 v 121/336; 182/338 v 72/170; 60/159 v 11/54; 104/193 v 21/57",
    ratio=2.174482,
    common=280.13754,
    breslow_day=5.19970,
    tarone=5.19967,
    df=7,
    tarone_p=0.635611,
    difference=0.190155,
    se=0.011068,
    interval=(0.168355, 0.211743),
    recovered=(0.168147, 0.211348),
    standard=(0.556433, 0.366278),
)
MIGRAINE = Known(
    "SAS procedure FREQ, example 7: test 8.3052; the rest computed with statsmodels",
    "16/27 v 5/25; 12/28 v 7/26",
    ratio=3.31317,
    common=8.30517,
    breslow_day=1.49293,
    tarone=1.49054,
    df=1,
    tarone_p=0.2221,
    difference=0.273760,
    se=0.090439,
    interval=(0.085921, 0.441031),
    recovered=(0.0906, 0.4232),
    digits=6e-5,
)
BERKELEY = Known(
    "R mantelhaen.test(UCBAdmissions): 0.9046968, 1.5246 without correction; "
    "the rest computed with statsmodels",
    "512/825 v 89/108; 353/560 v 17/25; 120/325 v 202/593; 138/417 v 131/375; 53/191 v 94/393; "
    "22/373 v 24/341",
    ratio=0.9046968,
    common=1.52461,
    breslow_day=18.82551,
    tarone=18.82551,
    df=5,
    tarone_p=0.00207,
    difference=-0.018425,
    se=0.014825,
    interval=(-0.047367, 0.010748),
    recovered=(-0.046344, 0.010819),
    digits=1e-4,
)
CLINIC = Known(
    "an invented clinic, computed with statsmodels; the difference by SAS's formulas",
    "18/20 v 10/20; 12/20 v 6/20; 9/20 v 3/20; 4/20 v 0/0; 0/0 v 15/20",
    ratio=4.960396,
    common=14.60674,
    breslow_day=0.75835,
    tarone=0.75830,
    df=2,
    tarone_p=0.684442,
    difference=0.333333,
    se=0.080680,
    interval=(0.164173, 0.481152),
    recovered=(0.164924, 0.464547),
    standard=(0.65, 0.316667),
    share=0.75,
)
SPACING = Known(
    "an invented basket (spacing with finish), computed with statsmodels",
    "18/22 v 5/13; 4/6 v 3/9; 12/16 v 6/19; 3/5 v 3/10",
    ratio=5.625,
    common=15.22438,
    breslow_day=0.39917,
    tarone=0.39880,
    df=3,
    tarone_p=0.940491,
    difference=0.399920,
    se=0.094079,
    interval=(0.199579, 0.569630),
    recovered=(0.206650, 0.532265),
    standard=(0.739792, 0.339872),
)
KNOWN = [CHINA, MIGRAINE, BERKELEY, CLINIC, SPACING]


def mantel_haenszel_weights(rows: list[Stratum]) -> list[float]:
    return [row.seen_late * row.seen_early / (row.seen_late + row.seen_early) for row in rows]


@pytest.mark.parametrize("known", KNOWN, ids=lambda known: known.rows[:12])
def test_known_tables(known: Known) -> None:
    rows = kinds(known.rows)

    def near(*values: float) -> object:
        return pytest.approx(values, abs=known.digits)

    assert (odds_ratio(rows),) == near(known.ratio), known.source
    test, same = over_two_days(rows), same_in_all(rows)
    assert test is not None
    assert same is not None
    assert (test.z**2,) == near(known.common), known.source
    assert same.df == known.df
    assert (same.breslow_day,) == near(known.breslow_day), known.source
    assert (same.statistic, same.p) == near(known.tarone, known.tarone_p), known.source
    found = like_for_like(rows)
    assert found is not None
    assert (found.value, found.se) == near(known.difference, known.se), known.source
    assert (found.low, found.high) == near(*known.interval), known.source
    assert found.method == "Klingenberg"
    assert found.share_used == known.share
    if known.standard:
        assert (found.standard_late, found.standard_early) == near(*known.standard)
    kept = shared(rows)
    limits = mover(kept, mantel_haenszel_weights(kept))
    assert (limits.low, limits.high) == near(*known.recovered), known.source


# Computed with statsmodels: p of the common test, and the plain interval of Sato.
@pytest.mark.parametrize(
    ("known", "p", "sato"),
    [
        (CHINA, 7.008489993650939e-63, (0.168461, 0.211848)),
        (CLINIC, 0.00013243990506506945, (0.175203, 0.491463)),
        (SPACING, 9.5463082463336e-05, (0.215529, 0.584311)),
    ],
    ids=["china", "clinic", "spacing"],
)
def test_parts_of_the_known_tables(known: Known, p: float, sato: tuple[float, float]) -> None:
    rows = kinds(known.rows)
    test, found = over_two_days(rows), like_for_like(rows)
    assert test is not None
    assert found is not None
    z = float(norm.ppf(0.975))
    assert test.p == pytest.approx(p, rel=1e-6)
    around = (found.value - z * found.se, found.value + z * found.se)
    assert around == pytest.approx(sato, abs=1e-5)


def test_the_crude_number_hides_what_like_for_like_shows() -> None:
    rows = kinds(CLINIC.rows)
    crude = newcombe(43, 80, 34, 80)
    found = like_for_like(rows)
    assert found is not None
    assert str(verdict(crude, level(Question.TWO_ROUNDS, 80, 80))) == "could be either"
    at = level(Question.LIKE_FOR_LIKE, found.balls_late, found.balls_early, found.share_used)
    assert at is Level.NORMAL
    assert str(verdict(found, at)) == "clearly up"
    assert (found.strata_used, found.balls_late, found.balls_early) == (3, 60, 60)


def test_the_plain_sentence_on_the_earlier_mix() -> None:
    mix = on_the_early_mix(kinds(CLINIC.rows))  # by hand
    assert mix is not None
    assert (mix.late, mix.early) == pytest.approx((0.65, 0.316667), abs=1e-6)
    assert (mix.late_se, mix.early_se) == pytest.approx((0.056642, 0.057130), abs=1e-6)
    uneven = on_the_early_mix(kinds("9/10 v 15/30; 2/10 v 1/10"))
    assert uneven is not None
    assert (uneven.late, uneven.early) == pytest.approx((0.75 * 0.9 + 0.25 * 0.2, 0.4))


def test_where_the_interval_collapses_another_takes_over() -> None:
    found = like_for_like(kinds("5/5 v 4/4; 0/6 v 0/3"))
    assert found is not None
    assert (found.value, found.se, found.method) == (0.0, 0.0, "MOVER")
    assert -0.4 < found.low < 0.0 < found.high < 0.4


def test_all_made_against_all_missed_is_still_no_certainty() -> None:
    rows = kinds("5/5 v 0/4; 6/6 v 0/3")
    found = like_for_like(rows)
    assert found is not None
    assert (found.value, found.se, found.method) == (1.0, 0.0, "Klingenberg")
    by_hand = 1 - norm.ppf(0.975) ** 2 / (2 * sum(mantel_haenszel_weights(rows)))
    assert (found.low, found.high) == pytest.approx((by_hand, 1.0), abs=1e-9)


# Two ways of having nothing to compare, and one of each kind of edge; computed with statsmodels.
def test_edges() -> None:
    nothing = kinds("5/5 v 0/0")
    for measure in (like_for_like, odds_ratio, same_in_all, on_the_early_mix):
        assert measure(nothing) is None
        assert measure([]) is None
    both = kinds("5/5 v 6/6")
    found = like_for_like(both)
    assert odds_ratio(both) is None
    assert found is not None
    assert (found.low, found.value, found.high) == pytest.approx((-0.4345, 0, 0.3903), abs=5e-5)
    clean = kinds("5/5 v 3/6")
    ratio, found = odds_ratio(clean), like_for_like(clean)
    assert ratio == inf
    assert found is not None
    assert found.value == 0.5
    assert odds_ratio(kinds("0/5 v 3/6")) == 0.0
    assert same_in_all(clean * 2) is None
    assert same_in_all(kinds("3/5 v 2/6; 5/5 v 6/6")) is None


def rows_of(
    most: int = 25, least: int = 0, kinds_most: int = 6
) -> st.SearchStrategy[list[Stratum]]:
    side = st.integers(least, most).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n)))
    row = st.tuples(side, side).map(lambda both: Stratum(*both[0], *both[1]))
    return st.lists(row, min_size=1, max_size=kinds_most)


def table_of(rows: list[Stratum]) -> StratifiedTable:
    return StratifiedTable(
        [
            np.array(
                [
                    [row.made_late, row.seen_late - row.made_late],
                    [row.made_early, row.seen_early - row.made_early],
                ],
                dtype=float,
            )
            for row in rows
        ]
    )


@steady
@given(rows_of(least=1))
def test_the_odds_ratio_agrees_with_statsmodels(rows: list[Stratum]) -> None:
    ratio = odds_ratio(rows)
    assume(ratio not in (None, 0.0, inf))
    assert ratio == pytest.approx(table_of(rows).oddsratio_pooled, rel=1e-9)


@steady
@given(rows_of(least=2))
def test_homogeneity_agrees_with_statsmodels(rows: list[Stratum]) -> None:
    same = same_in_all(rows)
    assume(same is not None)
    assert same is not None
    varied = [
        row for row in rows if 0 < row.made_late + row.made_early < row.seen_late + row.seen_early
    ]
    table = table_of(varied)
    assume(abs(float(table.oddsratio_pooled) - 1) > 1e-6)  # their quadratic has no root at one
    plain, tarone = table.test_equal_odds(), table.test_equal_odds(adjust=True)
    assert same.df == len(varied) - 1
    assert same.breslow_day == pytest.approx(plain.statistic, abs=1e-6)
    assert same.statistic == pytest.approx(max(tarone.statistic, 0), abs=1e-6)
    assert same.p == pytest.approx(chi2.sf(same.statistic, same.df), abs=1e-9)


@steady
@given(rows_of(least=1))
def test_the_interval_solves_its_own_equation(rows: list[Stratum]) -> None:
    """Second route: the limits as roots of (D - d)^2 = z^2 (d P + Q) / W^2, found numerically."""
    found = like_for_like(rows)
    assert found is not None
    assume(found.method == "Klingenberg" and found.se > 1e-6)
    x1, n1, x2, n2 = (
        np.array([getattr(row, name) for row in rows], dtype=float)
        for name in ("made_late", "seen_late", "made_early", "seen_early")
    )
    n = n1 + n2
    w = n1 * n2 / n
    value = float(np.sum(w * (x1 / n1 - x2 / n2)) / w.sum())
    p = float(np.sum((n1**2 * x2 - n2**2 * x1 + n1 * n2 * (n2 - n1) / 2) / n**2))
    q = float(np.sum((x1 * (n2 - x2) + x2 * (n1 - x1)) / (2 * n)))
    z = float(norm.ppf(0.975))

    def off(d: float) -> float:
        return float((value - d) ** 2 - z**2 * (d * p + q) / w.sum() ** 2)

    assert found.value == pytest.approx(value, abs=1e-12)
    assert found.low == pytest.approx(max(brentq(off, -5, value), -1), abs=1e-9)
    assert found.high == pytest.approx(min(brentq(off, value, 5), 1), abs=1e-9)


def swap(row: Stratum) -> Stratum:
    return Stratum(row.made_early, row.seen_early, row.made_late, row.seen_late)


def miss_for_made(row: Stratum) -> Stratum:
    return Stratum(
        row.seen_late - row.made_late,
        row.seen_late,
        row.seen_early - row.made_early,
        row.seen_early,
    )


def twice(row: Stratum) -> Stratum:
    return Stratum(2 * row.made_late, 2 * row.seen_late, 2 * row.made_early, 2 * row.seen_early)


@steady
@given(rows_of())
def test_like_for_like_stays_in_range_turns_reflects_and_narrows(rows: list[Stratum]) -> None:
    found = like_for_like(rows)
    if found is None:
        assert not shared(rows)
        return
    assert -1 <= found.low <= found.value + 1e-12
    assert found.value - 1e-12 <= found.high <= 1
    assert found.standard_late - found.standard_early == pytest.approx(found.value, abs=1e-12)
    assert 0 < found.share_used <= 1
    opposite = pytest.approx((-found.value, -found.high, -found.low), abs=1e-9)
    for turn in (swap, miss_for_made):
        turned = like_for_like([turn(row) for row in rows])
        assert turned is not None
        assert (turned.value, turned.low, turned.high) == opposite
    more = like_for_like([twice(row) for row in rows])
    assert more is not None
    assert more.value == pytest.approx(found.value, abs=1e-12)
    assert more.high - more.low < found.high - found.low


@steady
@given(rows_of(least=1, kinds_most=1))
def test_one_kind_is_newcombe(rows: list[Stratum]) -> None:
    found = like_for_like(rows)
    row = rows[0]
    plain = newcombe(row.made_late, row.seen_late, row.made_early, row.seen_early)
    assert found is not None
    assert plain is not None
    assert found.method == "Newcombe"
    here = (found.value, found.low, found.high)
    assert here == pytest.approx((plain.value, plain.low, plain.high), abs=1e-12)


@steady
@given(rows_of(least=1), st.integers(0, 9))
def test_a_kind_of_one_day_only_changes_no_share(rows: list[Stratum], balls: int) -> None:
    more = [*rows, Stratum(0, 0, balls, balls), Stratum(balls, balls, 0, 0)]
    here, there = like_for_like(rows), like_for_like(more)
    assert here is not None
    assert there is not None
    assert (here.value, here.low, here.high) == (there.value, there.low, there.high)
    assert there.share_used <= here.share_used


@steady
@given(st.floats(0, 200), st.integers(1, 30))
def test_chi_square_tail_agrees_with_scipy(statistic: float, df: int) -> None:
    assert chi_square_tail(statistic, df) == pytest.approx(float(chi2.sf(statistic, df)), abs=1e-12)


@pytest.mark.parametrize(
    "bad", [(5, 4, 1, 2), (1, 2, 5, 4), (-1, 2, 1, 2), (float("nan"), 2, 1, 2)]
)
def test_bad_counts_end_in_one_sentence(bad: tuple[int, int, int, int]) -> None:
    with pytest.raises(ValueError, match=ONE_SENTENCE):
        Stratum(*bad)


@pytest.mark.parametrize("weights", [[], [1.0, 1.0], [0.0], [float("nan")]])
def test_bad_weights_end_in_one_sentence(weights: list[float]) -> None:
    with pytest.raises(ValueError, match=ONE_SENTENCE):
        mover([Stratum(1, 2, 1, 2)], weights)
