"""The cue that two others go with, against counting every way there is and a log-linear model."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import permutations, product
from random import Random
from statistics import NormalDist

import numpy as np
import pytest
import statsmodels.api as sm
from hypothesis import given
from hypothesis import strategies as st

from courtlog.measures.shares.association import CueBall, Keystone, keystone
from tests.measures.steady import ONE_SENTENCE, fewer, steady

CUES = ("turn", "spacing", "finish")
Pattern = tuple[int, ...]


def balls_of(patterns: str | list[Pattern], kind: object = "H") -> list[CueBall]:
    """`110*3 001`: turn and spacing made, finish not, three times; then only finish made."""
    if isinstance(patterns, str):
        words = [word.partition("*") for word in patterns.split()]
        patterns = [tuple(map(int, w)) for w, _, times in words for _ in range(int(times or 1))]
    return [
        CueBall({cue: 2 * made for cue, made in zip(CUES, pattern, strict=True)}, kind)
        for pattern in patterns
    ]


def found(balls: list[CueBall], cues: tuple[str, ...] = CUES) -> Keystone:
    best = keystone(balls, cues)
    assert best is not None
    return best


def odd(pattern: Pattern) -> int | None:
    """The place of the cue that is unlike the two others."""
    alone = sum(pattern) == 1
    return pattern.index(alone) if sum(pattern) in (1, 2) else None


def every_way(patterns: list[Pattern]) -> Iterator[list[Pattern]]:
    """Each record with as many cues made on each ball and each cue made as often."""
    made = [sum(cue) for cue in zip(*patterns, strict=True)]
    for ways in product(*(sorted(set(permutations(pattern))) for pattern in patterns)):
        if [sum(cue) for cue in zip(*ways, strict=True)] == made:
            yield list(ways)


MIXED = st.lists(st.sampled_from([*product((0, 1), repeat=3)]), min_size=1, max_size=5)


@fewer
@given(MIXED, MIXED)
def test_the_chance_is_that_of_counting_every_way(
    hand: list[Pattern], racquet: list[Pattern]
) -> None:
    """Where one ease a ball ties the cues, all records with these margins are equally likely.

    Source: Rasch G 1960, Probabilistic Models for Some Intelligence and Attainment Tests.
    """
    best = keystone([*balls_of(hand, "H"), *balls_of(racquet, "R")], CUES)
    if all(odd(pattern) is None for pattern in (*hand, *racquet)):
        assert best is None
        return
    assert best is not None
    counts = [
        [
            sum(odd(pattern) == cue for pattern in (*one, *two))
            for one in every_way(hand)
            for two in every_way(racquet)
        ]
        for cue in range(3)
    ]
    here = [sum(odd(pattern) == cue for pattern in (*hand, *racquet)) for cue in range(3)]
    chances = [float(np.mean(np.array(counts[cue]) <= here[cue])) for cue in range(3)]
    cue = CUES.index(best.cue)
    assert chances[cue] == pytest.approx(min(chances))
    assert best.p == pytest.approx(min(3 * chances[cue], 1))
    assert best.odd == here[cue]
    assert best.odd_by_ease == pytest.approx(float(np.mean(counts[cue])))


def rasch(ease: dict[float, float], hard: tuple[float, float, float]) -> dict[Pattern, float]:
    """The chance of each pattern where only a ball's own ease ties the cues."""
    chances = dict.fromkeys(product((0, 1), repeat=3), 0.0)
    for gain, part in ease.items():
        shares = [1 / (1 + np.exp(-(gain - each))) for each in hard]
        for pattern in chances:
            made = zip(shares, pattern, strict=True)
            chances[pattern] += part * float(np.prod([s if m else 1 - s for s, m in made]))
    return chances


EASES = st.dictionaries(st.floats(-3, 3), st.floats(0.1, 1), min_size=1, max_size=4)
HARD = st.tuples(st.floats(-1, 1), st.floats(-1, 1), st.floats(-1, 1))


@steady
@given(EASES, HARD)
def test_where_one_of_two_cues_was_made_the_third_tells_nothing_of_which(
    ease: dict[float, float], hard: tuple[float, float, float]
) -> None:
    """Whatever the ease of the balls, their odds ratio is 1, though each pair goes together.

    Sources: Tjur T 1982, Scand J Stat 9:23-30; Holland PW and Rosenbaum PR 1986, Ann Stat
    14:1523-1543, that the pairs go together.
    """
    chance = rasch(ease, hard)
    assert chance[1, 1, 0] * chance[0, 0, 1] == pytest.approx(chance[1, 0, 1] * chance[0, 1, 0])
    both = chance[1, 1, 0] + chance[1, 1, 1]
    neither = chance[0, 0, 0] + chance[0, 0, 1]
    unlike = (chance[1, 0, 0] + chance[1, 0, 1]) * (chance[0, 1, 0] + chance[0, 1, 1])
    assert both * neither >= unlike * (1 - 1e-9)


def loglinear(counts: Counter[Pattern], with_turn: bool) -> tuple[float, float, float]:
    """How often turn would be odd, what turn adds to both others (z of it), by statsmodels."""
    patterns = [*product((0, 1), repeat=3)]
    columns = [[float(sum(p) == total) for p in patterns] for total in range(4)]
    columns += [[float(p[cue]) for p in patterns] for cue in range(2)]
    if with_turn:
        columns.append([float(p[0] * (p[1] + p[2])) for p in patterns])
    seen = np.array([counts[p] for p in patterns], dtype=float)
    fit = sm.GLM(seen, np.array(columns).T, family=sm.families.Poisson()).fit()
    fitted = sum(f for f, p in zip(fit.fittedvalues, patterns, strict=True) if odd(p) == 0)
    return float(fitted), float(fit.params[-1]), float(fit.params[-1] / fit.bse[-1])


TIED = "111*80 000*70 100*22 010*40 001*31 110*39 101*44 011*20"


def test_the_log_linear_form_of_one_ease_a_ball_gives_the_same() -> None:
    """A Poisson model of cue and number made (Tjur 1982), and what one cue adds to it."""
    balls = balls_of(TIED)
    counts = Counter(tuple((ball.grades[cue] or 0) // 2 for cue in CUES) for ball in balls)
    best = found(balls)
    by_ease, _, _ = loglinear(counts, with_turn=False)
    _, adds, z = loglinear(counts, with_turn=True)
    assert (best.cue, best.others) == ("turn", ("spacing", "finish"))
    assert (best.balls, best.one_odd, best.odd) == (346, 196, 42)
    assert best.odd_by_ease == pytest.approx(by_ease, abs=0.2)
    assert adds > 0
    assert best.p == pytest.approx(3 * NormalDist().cdf(-z), rel=0.4)


LEADS = "110*9 001*9 101*9 010*9 100 011"


def test_it_is_clear_where_a_cue_is_hardly_ever_the_odd_one() -> None:
    best = found(balls_of(LEADS))
    assert (best.cue, best.others, best.one_odd, best.odd) == ("turn", ("spacing", "finish"), 38, 2)
    assert best.odd_by_ease == pytest.approx(38 / 3, abs=0.5)
    assert best.p < 0.001
    assert best.clear


def test_few_balls_are_never_clear() -> None:
    best = found(balls_of("110*7 001*7 101*7 010*7 111*90"))
    assert (best.one_odd, best.p < 0.01, best.clear) == (28, True, False)
    assert replace(best, one_odd=30).clear
    assert not replace(best, one_odd=30, p=0.05).clear


def test_a_cue_that_differs_by_kind_is_compared_within_its_kind() -> None:
    """Turn is made in one drill and missed in the other: pooled, the others would go with it."""
    easy, hard = "111*20 110*10 101*10 100*3", "000*20 001*10 010*10 011*3"
    apart = [*balls_of(easy, "H"), *balls_of(hard, "R")]
    pooled = [*balls_of(easy), *balls_of(hard)]
    assert (found(apart).p, found(apart).clear) == (1, False)
    assert found(pooled).clear


GRADE = st.sampled_from([0, 1, 2, None])
BALL = st.builds(
    lambda grades, kind: CueBall(dict(zip(CUES, grades, strict=True)), kind),
    st.tuples(GRADE, GRADE, GRADE),
    st.sampled_from("HR"),
)


@steady
@given(st.lists(BALL, max_size=40), st.randoms(use_true_random=False))
def test_order_unseen_balls_and_nears_change_nothing(balls: list[CueBall], random: Random) -> None:
    mixed = [*balls, *[CueBall({**ball.grades, "finish": None}, "H") for ball in balls[:5]]]
    random.shuffle(mixed)
    missed = [
        CueBall({cue: 0 if grade == 1 else grade for cue, grade in ball.grades.items()}, ball.kind)
        for ball in mixed
    ]
    here, there = keystone(balls, CUES), keystone(missed, CUES)
    if here is None or there is None:
        assert here is there
    else:
        assert (here.balls, here.one_odd) == (there.balls, there.one_odd)
        assert here.p == pytest.approx(there.p)


def test_a_fourth_cue_makes_twelve_to_pick_from() -> None:
    balls = [
        CueBall({**ball.grades, "contact": None if number > 12 else 2 * (number < 3)}, ball.kind)
        for number, ball in enumerate(balls_of(LEADS))
    ]
    three, four = found(balls), found(balls, (*CUES, "contact"))
    assert (four.cue, four.others) == (three.cue, three.others)
    assert four.p == pytest.approx(4 * three.p)


@pytest.mark.parametrize("cues", [(), ("turn",), ("turn", "spacing")])
def test_with_two_cues_an_easy_ball_is_not_told_from_a_cue_that_leads(
    cues: tuple[str, ...],
) -> None:
    assert keystone(balls_of(LEADS), cues) is None


def test_nothing_is_told_of_no_balls_or_of_balls_on_which_all_cues_are_alike() -> None:
    assert keystone([], CUES) is None
    assert keystone(balls_of("111*40 000*40"), CUES) is None


def test_a_season_of_balls_of_one_kind_is_no_trouble() -> None:
    best = found(balls_of(LEADS) * 20)
    assert (best.one_odd, best.odd) == (760, 40)
    assert 0 <= best.p < 1e-9


@pytest.mark.parametrize(
    "call",
    [
        lambda: keystone([], ("turn", "turn")),
        lambda: keystone([CueBall({"turn": 5, "spacing": 2, "finish": 2})], CUES),
    ],
)
def test_bad_arguments_end_in_one_sentence(call: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=ONE_SENTENCE):
        call()
