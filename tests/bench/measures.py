"""How fast the measures are, and how often their intervals hold the truth at a clinic's counts.

Prints, and asserts nothing: run it with `python -m tests.bench.measures`.
"""

from __future__ import annotations

import warnings
from collections.abc import Callable, Sequence
from statistics import median
from time import perf_counter

import numpy as np
from scipy.stats import binom
from statsmodels.stats.contingency_tables import StratifiedTable
from statsmodels.stats.inter_rater import cohens_kappa
from statsmodels.stats.proportion import confint_proportions_2indep, proportion_confint

from courtlog.measures.court_day.schedule import shuffled_feeds
from courtlog.measures.learning.curve import skill_curve
from courtlog.measures.learning.mastery import MasteryTest
from courtlog.measures.shares.agreement import kappa
from courtlog.measures.shares.association import CueBall, keystone
from courtlog.measures.shares.proportions import newcombe, wilson
from courtlog.measures.shares.strata import Stratum, like_for_like, mover
from courtlog.measures.shares.strata_tests import (
    odds_ratio,
    same_in_all,
)
from courtlog.measures.shares.trend import cochran_armitage

Z = 1.959963984540054
MILLI, MICRO = 1e3, 1e6


def seconds(call: Callable[[], object], least: float = 0.2) -> float:
    """Median time of one call over at least `least` seconds of calls, after one to warm up."""
    call()
    times: list[float] = []
    while sum(times) < least or len(times) < 3:
        start = perf_counter()
        call()
        times.append(perf_counter() - start)
    return median(times)


def line(name: str, found: str, wanted: str = "") -> None:
    print(f"  {name:<52} {found:>16}  {wanted}")


def twelve_kinds() -> list[Stratum]:
    draw = np.random.default_rng(1)
    return [Stratum(int(draw.integers(0, 11)), 10, int(draw.integers(0, 9)), 8) for _ in range(12)]


def record(balls: int, seed: int = 1) -> list[int | None]:
    draw = np.random.default_rng(seed)
    return [int(grade) for grade in draw.integers(0, 3, balls)]


def speed() -> None:
    print("Speed (median of one call)")
    kinds = twelve_kinds()
    plan = MasteryTest()
    balls = record(400)
    clinic = [record(1000, seed) for seed in range(24)]
    micro = seconds(lambda: like_for_like(kinds)) * MICRO
    line("like-for-like, 12 kinds of ball", f"{micro:.1f} us", "wanted: under 50 us")
    milli = seconds(lambda: skill_curve(balls, (200,))) * MILLI
    line("skill curve, 400 balls", f"{milli:.1f} ms", "wanted: under 30 ms")
    whole = seconds(lambda: [skill_curve(one, (400, 700)) for one in clinic])
    line("skill curves, 3 cues x 8 players x 1000 balls", f"{whole:.2f} s", "wanted: under 1.5 s")
    milli = seconds(lambda: plan.operating(0.65)) * MILLI
    line("exact operating characteristic", f"{milli:.3f} ms", "wanted: under 5 ms")
    milli = seconds(lambda: shuffled_feeds(dict.fromkeys("abcd", 15), 2, 1)) * MILLI
    line("order of 4 feeds x 15 balls", f"{milli:.1f} ms")
    milli = seconds(lambda: cochran_armitage([20, 25, 28, 30, 31], [40] * 5)) * MILLI
    line("trend over 5 days x 40 balls with its exact p", f"{milli:.1f} ms")
    cues = ("turn", "spacing", "finish")
    marks = np.random.default_rng(2).integers(0, 3, (240, 3))
    rated = [
        CueBall(dict(zip(cues, map(int, row), strict=True)), (n % 4, n // 80))
        for n, row in enumerate(marks)
    ]
    milli = seconds(lambda: keystone(rated, cues)) * MILLI
    line("keystone, 240 balls of 12 kinds", f"{milli:.1f} ms")


def ratios() -> None:
    print("\nThe same answer from a general library (its time divided by ours)")
    kinds = twelve_kinds()
    tables = [
        np.array(
            [[k.made_late, k.seen_late - k.made_late], [k.made_early, k.seen_early - k.made_early]]
        )
        for k in kinds
    ]
    a = [int(g) for g in np.random.default_rng(3).integers(0, 3, 60)]
    b = [g if n % 4 else (g + 1) % 3 for n, g in enumerate(a)]
    counts = np.zeros((3, 3))
    np.add.at(counts, (a, b), 1)
    pairs: list[tuple[str, Callable[[], object], Callable[[], object]]] = [
        (
            "share (statsmodels)",
            lambda: wilson(16, 20),
            lambda: proportion_confint(16, 20, method="wilson"),
        ),
        (
            "difference (statsmodels)",
            lambda: newcombe(16, 20, 9, 20),
            lambda: confint_proportions_2indep(16, 20, 9, 20, method="newcomb", compare="diff"),
        ),
        (
            "odds ratio, 12 kinds (statsmodels)",
            lambda: odds_ratio(kinds),
            lambda: StratifiedTable(tables).oddsratio_pooled,
        ),
        (
            "same in all, 12 kinds (statsmodels)",
            lambda: same_in_all(kinds),
            lambda: StratifiedTable(tables).test_equal_odds(adjust=True),
        ),
        (
            "weighted kappa, 60 balls (statsmodels)",
            lambda: kappa(a, b, "linear"),
            lambda: cohens_kappa(counts, wt="linear"),
        ),
    ]
    for name, ours, theirs in pairs:
        here, there = seconds(ours), seconds(theirs)
        line(name, f"{here * MICRO:.1f} us", f"{there / here:.0f} times")


def share_coverage() -> None:
    print("\nCoverage of the 95 % interval of a share, exact, over true shares 0.05 to 0.95")
    for balls, expected in ((5, "0.957, 0.896"), (10, "0.955, 0.899"), (20, "0.954, 0.925")):
        made = np.arange(balls + 1)
        limits = [wilson(int(x), balls) for x in made]
        low = np.array([interval.low for interval in limits if interval])
        high = np.array([interval.high for interval in limits if interval])
        held = [
            float(binom.pmf(made, balls, p)[(low <= p) & (p <= high)].sum())
            for p in np.linspace(0.05, 0.95, 901)
        ]
        line(
            f"{balls} balls: mean, worst",
            f"{np.mean(held):.3f}, {min(held):.3f}",
            f"expected {expected}",
        )


Day = Sequence[tuple[int, float]]


def difference_coverage(runs: int = 6000) -> None:
    print(f"\nCoverage of the 95 % interval of a like-for-like difference, {runs} clinics each")
    scenes: list[tuple[str, Day, Day, str]] = [
        (
            "3 x 20 v 20, middling shares",
            [(20, 0.7), (20, 0.6), (20, 0.5)],
            [(20, 0.5), (20, 0.4), (20, 0.3)],
            "0.950 0.941 0.943",
        ),
        (
            "3 x 8 v 6",
            [(8, 0.7), (8, 0.6), (8, 0.5)],
            [(6, 0.5), (6, 0.4), (6, 0.3)],
            "0.956 0.937 0.933",
        ),
        (
            "4 x 5 v 5",
            [(5, 0.7), (5, 0.6), (5, 0.5), (5, 0.4)],
            [(5, 0.5), (5, 0.4), (5, 0.3), (5, 0.2)],
            "0.957 0.917 0.937",
        ),
        (
            "3 x 10 v 10, shares 0.7 to 0.95",
            [(10, 0.95), (10, 0.9), (10, 0.85)],
            [(10, 0.8), (10, 0.75), (10, 0.7)],
            "0.956 0.965 0.942",
        ),
        (
            "unbalanced 20/4, 5/10, 3/12",
            [(20, 0.7), (5, 0.6), (3, 0.5)],
            [(4, 0.5), (10, 0.4), (12, 0.3)],
            "0.957 0.918 0.912",
        ),
    ]
    line("", "Kling. MOVER Sato")
    for name, late, early, expected in scenes:
        draw = np.random.default_rng(7)
        size = [(n, m) for (n, _), (m, _) in zip(late, early, strict=True)]
        weights = [n * m / (n + m) for n, m in size]
        gains = [p - q for (_, p), (_, q) in zip(late, early, strict=True)]
        truth = sum(w * g for w, g in zip(weights, gains, strict=True)) / sum(weights)
        hits = np.zeros(3)
        for _ in range(runs):
            kinds = [
                Stratum(int(draw.binomial(n, p)), n, int(draw.binomial(m, q)), m)
                for (n, p), (m, q) in zip(late, early, strict=True)
            ]
            found, other = like_for_like(kinds), mover(kinds, weights)
            assert found is not None
            hits += (
                found.low <= truth <= found.high,
                other.low <= truth <= other.high,
                abs(found.value - truth) <= Z * found.se,
            )
        line(name, " ".join(f"{hit:.3f}" for hit in hits / runs), f"expected {expected}")


def learning_ball_errors(runs: int = 1000) -> None:
    print(f"\nHow often a learning ball is named against a reference of 0.40, {runs} records each")
    scenes = [
        (20, 0.40, "expected 0.015"),
        (40, 0.40, "expected 0.009"),
        (80, 0.40, "expected 0.014"),
        (40, 0.60, "expected 0.24"),
        (40, 0.70, "expected 0.50"),
        (40, 0.85, "expected 0.92"),
    ]
    for balls, later, expected in scenes:
        draw = np.random.default_rng(11)
        named = 0
        for _ in range(runs):
            share = np.where(np.arange(balls) < balls // 2, 0.40, later)
            made = draw.random(balls) < share
            named += skill_curve([2 if m else 0 for m in made]).learning_ball(0.40) is not None
        what = "nothing changes" if later == 0.40 else f"0.40 to {later:.2f} half-way"
        line(f"{balls} balls, {what}", f"{named / runs:.3f}", expected)
    print(
        "  (expected: one drift of 0.05, first ball centred on the reference; here the usual mix)"
    )


def main() -> None:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        speed()
        ratios()
        share_coverage()
        difference_coverage()
        learning_ball_errors()


if __name__ == "__main__":
    main()
