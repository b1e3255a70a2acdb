"""The first balls of a morning, which are counted apart."""

from __future__ import annotations

import pytest

from courtlog.measures.common.enough import Question, level, verdict
from courtlog.measures.shares.evening_morning import WARM_UP_BALLS
from courtlog.measures.shares.proportions import newcombe


# The interval was computed with statsmodels (Newcombe's method 10).
def test_a_slow_start_is_counted_apart() -> None:
    found = newcombe(1, WARM_UP_BALLS, 10, 15)
    assert found is not None
    assert (found.value, found.low, found.high) == pytest.approx(
        (-0.4667, -0.7112, 0.0257), abs=5e-5
    )
    assert str(verdict(found, level(Question.TWO_ROUNDS, 5, 15))) == "too few balls to tell"
