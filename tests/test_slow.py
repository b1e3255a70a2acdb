"""The slow tests are there, and as many as a quick run must leave out."""

from __future__ import annotations

from pathlib import Path

from tests import slow

ROOT = Path(__file__).parents[1]


def test_every_slow_test_is_there() -> None:
    for name in slow.NAMES.read_text(encoding="utf-8").split():
        file, function = name.split("::")
        assert f"def {function}(" in (ROOT / file).read_text(encoding="utf-8"), name


def test_the_costliest_are_left_out_until_the_others_fit() -> None:
    costs = {"a": 1.0, "b": 5.0, "c": 2.0, "d": 3.0}
    assert slow.slow_functions(costs, 3.5) == ["b", "d"]
    assert slow.slow_functions(costs, 11.0) == []
