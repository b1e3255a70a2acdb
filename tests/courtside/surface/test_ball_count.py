"""The count beside the open ball: how many are planned is never less than the ball it names."""

from __future__ import annotations

from pathlib import Path

import pytest

from courtlog.courtside.surface.parts import BallCount
from tests.court import desk_in, feed


@pytest.mark.parametrize(
    ("taken", "number", "below"),
    [(0, "1", "of 10"), (9, "10", "of 10"), (10, "11", "10 planned"), (19, "20", "10 planned")],
)
def test_a_ball_beyond_the_planned_ones_is_not_counted_among_them(
    tmp_path: Path, taken: int, number: str, below: str
) -> None:
    desk = desk_in(tmp_path)
    feed(desk, "_" * taken)
    assert BallCount.numbers(BallCount.__new__(BallCount), desk.view)[1:] == (number, below)
