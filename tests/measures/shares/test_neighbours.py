"""Neighbouring balls that go alike: found where they do, and worth fewer balls."""

from __future__ import annotations

from itertools import pairwise, permutations

import numpy as np
import pytest
from scipy.stats import norm

from courtlog.measures.shares.neighbours import Neighbours, neighbours, widened, worth_about
from courtlog.measures.shares.proportions import newcombe

MADE = 2


# Twenty balls tied at 0.2 are worth 13.3, at 0.3 10.8, by hand.
def test_tied_balls_are_worth_fewer() -> None:
    assert worth_about(20, 0.2) == pytest.approx(13.3, abs=0.05)
    assert worth_about(20, 0.3) == pytest.approx(10.8, abs=0.05)
    assert worth_about(20, -0.5) == 20
    assert Neighbours(0.3).worth(20) == worth_about(20, 0.3)


def test_the_interval_is_as_wide_as_that_of_the_balls_they_are_worth() -> None:
    """The half-width grows by the root of the inflation: 1.96 by 1.36 where 3 of 10 go alike."""
    confidence = widened(0.95, Neighbours(0.3))
    assert norm.ppf(0.5 + confidence / 2) == pytest.approx(1.959964 * (1.3 / 0.7) ** 0.5, abs=1e-5)
    wide = newcombe(300, 1000, 300, 1000, confidence)
    fewer = newcombe(round(300 / 1.857), round(1000 / 1.857), round(300 / 1.857), 538)
    assert wide is not None
    assert fewer is not None
    assert wide.high == pytest.approx(fewer.high, abs=0.002)


def test_by_hand() -> None:
    """Rounds of twenty with 12 of 19 pairs alike; a pair adds a quarter, or takes one away.

    In a random order the 19 pairs would take 19 quarters / 19 in all.
    """
    run: list[int | None] = [0, 0, MADE, MADE, 0, 0, 0, MADE, MADE, MADE] * 2
    pairs = [a == b for a, b in pairwise(run)]
    by_hand = (sum(pairs) - (19 - sum(pairs)) + 1) / 19
    found = neighbours([run] * 5)
    assert found is not None
    assert found.correlation == pytest.approx(by_hand)
    assert neighbours([run] * 4 + [run[:19]]) is None, "99 balls are too few"
    assert neighbours([[MADE] * 100]) is None
    assert neighbours([[0, MADE] * 50]) is None, "balls that go by turns are worth no more"
    streak = neighbours([[0] * 50 + [MADE] * 50])
    assert streak is not None
    assert streak.correlation == 0.5, "never worth less than a third"


def test_an_unseen_ball_parts_its_neighbours() -> None:
    apart: list[int | None] = [MADE, None, MADE, None, 0, None, 0, None]
    assert neighbours([apart] * 20) is None


def test_over_all_orders_of_a_round_there_is_no_tie_on_average(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Wald and Wolfowitz 1943: in a random order two balls correlate by -1 / (n - 1)."""
    monkeypatch.setattr("courtlog.measures.shares.neighbours.LARGEST", 1.0)
    round_ = (MADE, MADE, 0, 1, 0, MADE)
    found = [
        neighbours([order] * 17, sure=-1e9).correlation  # type: ignore[union-attr]
        for order in permutations(round_)
    ]
    assert np.mean(found) == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize(("repeats", "told"), [(0.0, 0.025), (0.3, 1.0)])
def test_streaks_are_found_and_luck_is_not(repeats: float, told: float) -> None:
    """A week of 20 rounds of 20; a ball goes as the one before it so often."""
    players = 150
    chance = np.random.default_rng(7)
    found = []
    for _ in range(players):
        rounds = []
        for _ in range(20):
            draws = chance.random(20)
            for ball in range(1, 20):
                if chance.random() < repeats:
                    draws[ball] = draws[ball - 1]
            rounds.append([MADE if draw < 0.6 else 0 for draw in draws.tolist()])
        found.append(neighbours(rounds))
    share = sum(tie is not None for tie in found) / players
    assert abs(share - told) <= 3 * (told * (1 - told) / players) ** 0.5 + 0.01
    if repeats:
        known = [tie.correlation for tie in found if tie is not None]
        assert np.mean(known) == pytest.approx(repeats, abs=0.02)
