"""Two ratings of the same balls, against scikit-learn and against printed values."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sklearn.metrics import cohen_kappa_score

from courtlog.coaching.answers.rater_agreement import (
    CueAgreement,
    TwiceRatedCue,
    agreements,
    doubts_of,
)
from courtlog.measures.common.enough import Level

DAY = date(2026, 5, 12)
COURT = "12 3 0 / 4 10 3 / 1 4 13"
"""Coach against assistant, invented; its values were worked out with statsmodels and irrCAC."""


def pairs(table: str) -> list[tuple[int, int]]:
    """`12 3 0 / ...`: rows are the first grades, columns the second ones."""
    return [
        (i, j)
        for i, row in enumerate(table.split("/"))
        for j, count in enumerate(row.split())
        for _ in range(int(count))
    ]


def twice(
    rated: list[tuple[int | None, int | None]],
    cue: str = "turn",
    second: str = "Bo",
    sitting: int = 1,
) -> list[TwiceRatedCue]:
    """These pairs as balls 0, 1, 2 and so on."""
    return [
        TwiceRatedCue(
            ball_id=ball,
            stroke="forehand",
            cue=cue,
            first="Ines",
            second=second,
            sitting=sitting,
            on=DAY,
            grade=one,
            again=two,
        )
        for ball, (one, two) in enumerate(rated)
    ]


def only(rated: list[TwiceRatedCue]) -> CueAgreement:
    """The one agreement of these balls."""
    (found,) = agreements(rated)
    return found


def test_a_worked_example() -> None:
    """Linear 0.6387 (0.0844), AC2 0.640180 (0.081451): statsmodels, irrCAC. Alike: 35 of 50."""
    found = only(twice(pairs(COURT)))  # type: ignore[arg-type]
    assert found.balls == 50
    assert found.level is Level.NORMAL
    assert found.alike == pytest.approx(0.7)
    assert found.weighted is not None
    assert found.ac2 is not None
    assert found.weighted.value == pytest.approx(0.6387, abs=6e-5)
    assert found.weighted.se == pytest.approx(0.0844, abs=6e-5)
    assert found.ac2.value == pytest.approx(0.640180, abs=1e-6)
    assert found.ac2.se == pytest.approx(0.081451, abs=1e-6)
    assert found.doubt is None


@settings(max_examples=60, derandomize=True, deadline=None)
@given(st.lists(st.tuples(st.integers(0, 2), st.integers(0, 2)), min_size=20, max_size=60))
def test_the_weighted_agreement_is_that_of_scikit_learn(rated: list[tuple[int, int]]) -> None:
    found = only(twice(rated))  # type: ignore[arg-type]
    one, two = zip(*rated, strict=True)
    if len(set(one) | set(two)) == 1:
        assert found.weighted is None
        return
    assert found.weighted is not None
    wanted = cohen_kappa_score(one, two, labels=[0, 1, 2], weights="linear")
    assert found.weighted.value == pytest.approx(wanted, abs=1e-9)
    assert found.ac2 is not None
    both_low = found.weighted.value < 0.4 and found.ac2.value < 0.9
    assert (found.doubt is not None) is both_low


def test_a_cue_nearly_always_made_is_not_doubted_for_its_low_kappa() -> None:
    """Gwet's paradox: 18 of 20 balls alike, and weighted kappa below zero."""
    found = only(twice([*[(2, 2)] * 18, (2, 1), (1, 2)]))
    assert found.weighted is not None
    assert found.weighted.value < 0
    assert found.doubt is None


def test_what_one_of_them_did_not_see_counts_for_nothing() -> None:
    rated = pairs(COURT)
    found = only(twice([*rated, (None, 2), (2, None), (None, None)]))
    assert found.balls == 50


@pytest.mark.parametrize(("balls", "level"), [(19, "refuse"), (20, "weak"), (50, "normal")])
def test_few_balls_bear_nothing(balls: int, level: str) -> None:
    found = only(twice([(0, 2), (2, 0)] * 25)[:balls])
    assert found.level.value == level
    assert (found.weighted is None) is (level == "refuse")
    assert (found.ac2 is None) is (level == "refuse")
    assert (found.doubt is None) is (level == "refuse")


def test_the_last_go_counts_and_each_go_has_its_drift() -> None:
    """McNemar exact, 9 against 2: p 0.065430; 6 against 0: 0.031250 (from the table's values)."""
    first = [(2, 1)] * 9 + [(1, 2)] * 2 + [(2, 2)] * 20
    again = [(2, 1)] * 6 + [(2, 2)] * 25
    found = only([*twice(again, sitting=2), *twice(first, sitting=1)])  # type: ignore[arg-type]
    assert found.alike == pytest.approx(25 / 31)
    one, two = found.sittings
    assert (one.drift.stricter, one.drift.looser, one.drift.drifted) == (9, 2, False)
    assert one.drift.p == pytest.approx(0.065430, abs=1e-6)
    assert (two.drift.stricter, two.drift.looser, two.drift.direction) == (6, 0, "stricter")
    assert two.drift.p == pytest.approx(0.031250)
    assert two.drift.drifted


def test_pairs_of_coaches_and_cues_stand_apart_and_the_worst_is_the_doubt() -> None:
    good, bad = [(0, 0), (2, 2)] * 15, [(0, 2), (2, 0)] * 15
    rated = [
        *twice(good),  # type: ignore[arg-type]
        *twice(bad, second="Ines"),  # type: ignore[arg-type]
        *twice(good, cue="finish"),  # type: ignore[arg-type]
    ]
    found = agreements(rated)
    assert [(a.cue, a.second, a.again) for a in found] == [
        ("turn", "Bo", False),
        ("turn", "Ines", True),
        ("finish", "Bo", False),
    ]
    doubts = doubts_of(found)
    assert list(doubts) == ["turn"]
    assert doubts["turn"].value == pytest.approx(-1.0)
    assert doubts["turn"].balls == 30
