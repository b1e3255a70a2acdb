"""Load of an arm: which rungs of the shipped ladders are full speed, and a week's words."""

from __future__ import annotations

import pytest

from courtlog.coaching.care.arm_load import at_full_speed, week_words
from tests.court import LIBRARY


def full_speed(stroke: str) -> list[str]:
    """The keys of the stroke's full-speed drills, in rung order."""
    ladder = LIBRARY.ladder(stroke)
    return [d.key for d in ladder.in_rung_order() if at_full_speed(stroke, d.feed, d.rung)]


def test_serves_from_the_service_line_on_and_other_strokes_by_their_feed() -> None:
    assert full_speed("serve") == ["service-line", "baseline", "first-ball"]
    for stroke in sorted(set(LIBRARY.ladders) - {"serve"}):
        ladder = LIBRARY.ladder(stroke)
        fast = [d.key for d in ladder.in_rung_order() if d.feed in ("racquet", "live")]
        assert full_speed(stroke) == fast
        assert fast


@pytest.mark.parametrize(
    ("loads", "words"),
    [
        (
            [360, 0, 450, 240, 0, 600, 0],
            "week: load 1650, monotony 0.96, strain 1586"
            " (days differ by a sample's standard deviation, n - 1)",
        ),
        ([300] * 7, "week: load 2100, every day the same"),
        ([0] * 7, "week: load 0, every day the same"),
        (
            [None] * 4 + [420, 360, 480],
            "week: monotony needs a full week of logged days (3 of 7 so far)",
        ),
        (
            [None, 400, 420, 0, 420, 360, 480],
            "week: monotony needs a full week of logged days (6 of 7 so far)",
        ),
    ],
)
def test_a_week_in_words(loads: list[float | None], words: str) -> None:
    """Values by Python's statistics module; a three-day clinic gets no number."""
    assert week_words(loads) == words
