"""What stayed overnight and what was learned, against values computed with statsmodels."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courtlog.measures.common.enough import Level, Question, level, verdict
from courtlog.measures.shares.proportions import newcombe
from courtlog.measures.shares.retention import (
    Change,
    Savings,
    learning_gain,
    overnight,
    performance_gain,
    savings,
    share_kept,
    tired_evening,
)
from tests.measures.steady import ONE_SENTENCE, steady


def one(made: int, seen: int) -> dict[str, tuple[int, int]]:
    return {"hand feed": (made, seen)}


def line(change: Change) -> str:
    found = change.difference
    if found is None:
        return f"- {change.verdict}"
    return f"{found.value:+.4f} ({found.low:.4f}, {found.high:.4f}) {change.verdict}"


# Intervals computed with statsmodels (Newcombe's method 10).
@pytest.mark.parametrize(
    ("change", "words"),
    [
        (overnight(one(14, 20), one(11, 20)), "-0.1500 (-0.4090, 0.1411) could be either"),
        (overnight(one(14, 20), one(5, 10)), "-0.2000 (-0.5054, 0.1425) too few balls to tell"),
        (learning_gain(one(6, 20), one(13, 20)), "+0.3500 (0.0416, 0.5789) clearly up"),
        (performance_gain(one(6, 20), one(17, 20)), "+0.5500 (0.2463, 0.7328) clearly up"),
        (overnight(one(14, 20), {}), "- too few balls to tell"),
        (overnight(one(9, 9), one(0, 9)), "-1.0000 (-1.0000, -0.5769) too few balls to tell"),
    ],
)
def test_known_changes(change: Change, words: str) -> None:
    assert line(change) == words


def test_a_slow_start_is_counted_apart() -> None:
    found = newcombe(1, 5, 10, 15)
    assert found is not None
    assert (found.value, found.low, found.high) == pytest.approx(
        (-0.4667, -0.7112, 0.0257), abs=5e-5
    )
    assert str(verdict(found, level(Question.TWO_ROUNDS, 5, 15))) == "too few balls to tell"


def test_only_shared_kinds_are_compared_and_most_balls_must_be_shared() -> None:
    evening = {"hand": (10, 20), "live": (0, 30)}
    change = overnight(evening, {"hand": (15, 20)})
    assert change.difference is not None
    assert change.difference.value == pytest.approx(0.25)
    assert change.level is Level.NORMAL
    evening["live"] = (0, 50)
    assert overnight(evening, {"hand": (15, 20)}).level is Level.REFUSE


def test_share_kept_by_hand() -> None:
    assert share_kept(one(6, 20), one(16, 20), one(13, 20)) == pytest.approx(0.70)
    assert share_kept(one(6, 20), one(16, 20), one(4, 20)) == pytest.approx(-0.2)
    assert share_kept(one(6, 20), one(8, 20), one(8, 20)) is None  # the evening gained nothing sure
    assert share_kept(one(6, 20), {}, one(8, 20)) is None
    mixed = {"hand": (16, 20), "live": (20, 20)}
    assert share_kept({"hand": (6, 20)}, mixed, {"hand": (13, 20), "live": (0, 20)}) == (
        pytest.approx(0.70)
    )


def test_share_kept_on_the_evening_s_mix_by_hand() -> None:
    baseline = {"hand": (5, 20), "live": (2, 20)}
    evening = {"hand": (27, 30), "live": (5, 10)}
    morning = {"hand": (7, 10), "live": (4, 20)}
    start, end, later = (0.75 * a + 0.25 * b for a, b in ((0.25, 0.1), (0.9, 0.5), (0.7, 0.2)))
    kept = share_kept(baseline, evening, morning)
    assert kept == pytest.approx((later - start) / (end - start))


def test_savings_by_hand() -> None:
    found = savings(34, 12)
    assert found is not None
    assert found.value == pytest.approx(0.6471, abs=5e-5)
    assert not found.at_least
    assert savings(40, 10, first_reached=False) == Savings(0.75, True)
    assert savings(34, 30, again_reached=False) is None
    assert savings(10, 20) == Savings(-1.0, False)


def test_a_tired_evening() -> None:
    assert [tired_evening(effort) for effort in (6, 7, 10)] == [False, True, True]


COUNT = st.integers(0, 40).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n)))
ROUND = st.dictionaries(st.sampled_from("abcd"), COUNT, max_size=4)


@steady
@given(ROUND, ROUND)
def test_swapping_evening_and_morning_turns_the_change(
    evening: dict[str, tuple[int, int]], morning: dict[str, tuple[int, int]]
) -> None:
    here, there = overnight(evening, morning), overnight(morning, evening)
    assert here.level is there.level
    assert here.verdict.direction == -there.verdict.direction
    if here.difference is not None and there.difference is not None:
        assert here.difference.value == pytest.approx(-there.difference.value, abs=1e-12)


@pytest.mark.parametrize(
    "call",
    [
        lambda: overnight(one(3, 2), one(1, 2)),
        lambda: share_kept(one(3, 2), one(1, 2), one(1, 2)),
        lambda: savings(0, 1),
        lambda: savings(1, -1),
        lambda: tired_evening(11),
    ],
)
def test_bad_arguments_end_in_one_sentence(call: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=ONE_SENTENCE):
        call()
