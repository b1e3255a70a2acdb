"""Feed orders, rotations, pairs and fading, against counts known from outside and brute force."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from fractions import Fraction
from itertools import accumulate, combinations, groupby, pairwise, permutations
from math import floor

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import chisquare

from courtlog.measures.court_day.schedule import (
    Turn,
    ball_spread,
    late_start,
    orders_count,
    pairs,
    queue,
    shuffled_feeds,
    speak_now,
    speak_outside_band,
    tough_plan,
    tough_plans_count,
    usual_max_run,
    williams,
)
from tests.measures.steady import ONE_SENTENCE, fewer, steady


def feeds(*counts: int) -> dict[str, int]:
    return {"abcdefgh"[place]: count for place, count in enumerate(counts)}


def longest_run(order: tuple[str, ...]) -> int:
    return max(len(list(run)) for _, run in groupby(order))


# Binary words with runs of at most two: sequence A003440 of the integer-sequence encyclopedia
# (from memory). The others by recursion and by brute-force permutation.
@pytest.mark.parametrize(
    ("counts", "max_run", "expected"),
    [
        *[((n, n), 2, k) for n, k in enumerate([2, 6, 14, 34, 84, 208, 518, 1296], 1)],
        ((5, 5), 3, 194),
        ((4, 4, 4), 2, 21084),
        ((3, 3, 3), 2, 1314),
        ((3, 3, 3), 1, 174),
        ((2, 2, 2), 1, 30),
        ((10, 10), 3, 66486),
        ((4, 1), 2, 1),
        ((6, 1), 2, 0),
    ],
)
def test_counts_of_orders(counts: tuple[int, ...], max_run: int, expected: int) -> None:
    assert orders_count(feeds(*counts), max_run) == expected


@fewer
@given(st.lists(st.integers(0, 3), min_size=1, max_size=4).filter(any), st.integers(1, 4))
def test_counts_equal_brute_force(counts: list[int], max_run: int) -> None:
    pool = [name for name, count in feeds(*counts).items() for _ in range(count)]
    if len(pool) > 8:
        pool = pool[:8]
    every = {order for order in permutations(pool) if longest_run(order) <= max_run}
    assert orders_count(Counter(pool), max_run) == len(every)


def test_every_order_is_drawn_equally_often() -> None:
    drawn = Counter(shuffled_feeds(feeds(3, 3), 2, seed) for seed in range(14_000))
    assert len(drawn) == 14
    assert chisquare(list(drawn.values())).pvalue > 0.001


def test_every_order_of_uneven_feeds_is_drawn_equally_often() -> None:
    total = orders_count(feeds(3, 2, 1), 2)
    drawn = Counter(shuffled_feeds(feeds(3, 2, 1), 2, seed) for seed in range(total * 300))
    assert len(drawn) == total
    assert chisquare(list(drawn.values())).pvalue > 0.001


@steady
@given(
    st.lists(st.integers(0, 12), min_size=1, max_size=4).filter(any),
    st.integers(1, 4),
    st.integers(0, 2**32),
)
def test_an_order_keeps_its_counts_and_runs(counts: list[int], max_run: int, seed: int) -> None:
    asked = feeds(*counts)
    order = shuffled_feeds(asked, max_run, seed)
    if order is None:
        assert orders_count(asked, max_run) == 0
    else:
        assert Counter(order) == Counter(asked)
        assert longest_run(order) <= max_run
        assert shuffled_feeds(asked, max_run, seed) == order


def test_a_basket_of_one_feed_needs_no_mixing() -> None:
    assert shuffled_feeds({"forehand": 12}, None, 1) == ("forehand",) * 12
    assert shuffled_feeds({"forehand": 12}, 2, 1) is None


def test_the_usual_longest_run() -> None:
    assert [usual_max_run(n) for n in (1, 2, 3, 4)] == [3, 3, 2, 2]
    assert orders_count(feeds(5, 5)) == 194


# The square of four is the one printed by the R package crossdes; six is by hand.
WILLIAMS = {
    4: "1243 2314 3421 4132",
    6: "126354 231465 342516 453621 564132 615243",
}


@pytest.mark.parametrize(("n", "rows"), WILLIAMS.items())
def test_williams_squares_as_printed(n: int, rows: str) -> None:
    assert williams(n) == tuple(tuple(int(digit) for digit in row) for row in rows.split())


@pytest.mark.parametrize("n", range(2, 13))
def test_every_drill_follows_every_other_equally_often(n: int) -> None:
    rows = williams(n)
    follows = Counter(pair for row in rows for pair in pairwise(row))
    times = 1 if n % 2 == 0 else 2
    assert follows == {(a, b): times for a in range(1, n + 1) for b in range(1, n + 1) if a != b}
    for column in zip(*rows, strict=True):
        assert set(Counter(column).values()) == {times}


def plans(balls: int, tough: int) -> set[tuple[bool, ...]]:
    """Every plan by trying all placements."""
    tried = (
        tuple(place in at for place in range(balls)) for at in combinations(range(balls), tough)
    )
    return {plan for plan in tried if not plan[0] and not any(map(all, pairwise(plan)))}


@pytest.mark.parametrize("balls", range(1, 13))
def test_tough_plans_equal_brute_force(balls: int) -> None:
    for tough in range(balls + 1):
        every = plans(balls, tough)
        assert tough_plans_count(balls, tough) == len(every)
        drawn = {tough_plan(balls, tough, seed) for seed in range(20)}
        assert drawn <= every if every else drawn == {None}


@pytest.mark.parametrize(("balls", "tough", "count"), [(10, 2, 28), (8, 3, 10), (6, 3, 1)])
def test_every_tough_plan_is_drawn_equally_often(balls: int, tough: int, count: int) -> None:
    drawn = Counter(tough_plan(balls, tough, seed) for seed in range(count * 300))
    assert len(drawn) == count == len(plans(balls, tough))
    assert count == 1 or chisquare(list(drawn.values())).pvalue > 0.001


def test_a_tough_plan_does_not_go_with_the_spots_of_its_seed() -> None:
    """All pairs of a plan and an order of 3 and 3 are drawn equally often: 6 plans, 14 orders."""
    drawn = Counter(
        (tough_plan(6, 2, seed), shuffled_feeds(feeds(3, 3), 2, seed)) for seed in range(84 * 200)
    )
    assert len(drawn) == 6 * 14
    assert chisquare(list(drawn.values())).pvalue > 0.001


# The circle method as it is usually printed (common practice, no source); - is a bye.
PAIRS = {
    4: "14 23 | 13 42 | 12 34",
    5: "1- 25 34 | 15 4- 23 | 14 53 2- | 13 42 5- | 12 3- 45",
    6: "16 25 34 | 15 64 23 | 14 53 62 | 13 42 56 | 12 36 45",
}


@pytest.mark.parametrize(("n", "rounds"), PAIRS.items())
def test_pairs_as_printed(n: int, rounds: str) -> None:
    printed = " | ".join(" ".join(f"{a}{b or '-'}" for a, b in met) for met in pairs(n))
    assert printed == rounds


@pytest.mark.parametrize("n", range(2, 14))
def test_each_pair_meets_once(n: int) -> None:
    met = Counter(frozenset(pair) for turn in pairs(n) for pair in turn if None not in pair)
    assert met == {frozenset((a, b)): 1 for a in range(1, n + 1) for b in range(a + 1, n + 1)}
    for turn in pairs(n):
        assert sorted(player for pair in turn for player in pair if player) == [*range(1, n + 1)]


# A rotation of six with one leaving after turn eight, played through by hand.
def test_a_player_who_leaves_breaks_nothing() -> None:
    turns = [Turn(name, 10) for name in "ABCDEFABCEFABCEFABCE"]
    shares = ball_spread(turns, "ABCEF")
    assert shares.balls == {"A": 40, "B": 40, "C": 40, "E": 40, "F": 30}
    assert (shares.spread, shares.unfair) == (10, False)
    assert ball_spread(turns, "ABCDEF").unfair


def test_a_late_comer_starts_at_the_median() -> None:
    assert late_start([Turn(name, 10) for name in "ABCABC"], "ABC") == 20
    assert late_start([], "") == 0
    assert late_start([Turn("A", 10)], "AB", {"B": 8}) == 9


# By hand: fewest balls, then longest since a turn, then the order given, then by name.
@pytest.mark.parametrize(
    ("turns", "present", "head_start", "order", "expected"),
    [
        ("", "BCA", {}, "", "ABC"),
        ("", "BCA", {}, "CB", "CBA"),
        ("A10 B8", "ABC", {}, "", "CAB"),
        ("A10 B8", "ABC", {"C": 20.0}, "", "ACB"),
        ("B5 A5 C9", "ABC", {}, "AB", "BAC"),
        ("A10", "AB", {"B": 30.0}, "", "BA"),
        ("A10 B10 A2", "B", {}, "", "B"),
        ("A4 B10 A4 C9", "ABC", {}, "", "ABC"),
    ],
)
def test_the_queue(
    turns: str, present: str, head_start: dict[str, float], order: str, expected: str
) -> None:
    played = [Turn(turn[0], int(turn[1:])) for turn in turns.split()]
    assert "".join(queue(played, present, head_start, order)) == expected


def test_one_turn_apart_is_fair_and_more_is_not() -> None:
    assert not ball_spread([Turn("A", 10)], "AB").unfair
    assert ball_spread([Turn("A", 10), Turn("A", 1)], "AB").unfair
    assert ball_spread([], "AB", {"A": 1}).unfair, "no turn has been played"
    nobody = ball_spread([Turn("A", 10)], "")
    assert (nobody.balls, nobody.spread, nobody.unfair) == ({}, 0, False)


# 100, 75, 50 and 25 per cent over four blocks of eight: 8 + 6 + 4 + 2, by hand.
def test_feedback_fades_by_block() -> None:
    spoken = [speak_now(ball, 32) for ball in range(1, 33)]
    assert [sum(spoken[start : start + 8]) for start in (0, 8, 16, 24)] == [8, 6, 4, 2]


@steady
@given(
    st.integers(1, 24),
    st.integers(1, 24),
    st.fractions(0, 1, max_denominator=8),
    st.fractions(0, 1, max_denominator=8),
)
def test_what_was_spoken_is_the_whole_part_of_the_summed_shares(
    balls: int, blocks: int, start: Fraction, end: Fraction
) -> None:
    """Worked out from exact fractions; a block's share lies on the line from start to end."""
    steps = max(blocks - 1, 1)
    shares = [
        start + (end - start) * Fraction(ball * blocks // balls, steps) for ball in range(balls)
    ]
    due = [floor(total) for total in accumulate(shares)]
    spoken = [
        speak_now(ball, balls, float(start), float(end), blocks) for ball in range(1, balls + 1)
    ]
    assert list(accumulate(spoken)) == due


def test_feedback_fades_in_a_line() -> None:
    spoken = [speak_now(ball, 40, 1.0, 0.25, blocks=40) for ball in range(1, 41)]
    assert sum(spoken) == 25  # forty balls at a mean share of 0.625
    assert sum(spoken[:20]) > sum(spoken[20:])


@pytest.mark.parametrize(
    ("grades", "speak"),
    [
        ([0], True),
        ([1], False),
        ([2], False),
        ([1, 1, 1], True),
        ([1, None, 1, 1], True),
        ([1, 1, 2], False),
        ([0, None], False),
        ([], False),
    ],
)
def test_speak_on_a_miss_or_three_nears(grades: list[int | None], speak: bool) -> None:
    assert speak_outside_band(grades) is speak


@pytest.mark.parametrize(
    "call",
    [
        lambda: orders_count({}, 2),
        lambda: orders_count({"a": -1}, 2),
        lambda: orders_count({"a": 501}, 2),
        lambda: orders_count({"a": 2}, 0),
        lambda: shuffled_feeds({"a": 0}, 2, 1),
        lambda: williams(1),
        lambda: pairs(1),
        lambda: speak_now(0, 10),
        lambda: speak_now(11, 10),
        lambda: speak_now(1, 10, 1.5),
        lambda: speak_outside_band([3]),
        lambda: ball_spread([Turn("A", -1)], "A"),
    ],
)
def test_bad_arguments_end_in_one_sentence(call: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=ONE_SENTENCE):
        call()
