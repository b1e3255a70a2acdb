"""How many cases a test takes: a short dose in every run, the whole one with `--long`."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest

_LONG: list[bool] = []


def take_the_whole(long: bool) -> None:
    """Say, before any test is loaded, whether the whole doses are asked for."""
    _LONG[:] = [True] if long else []


def dose(short: int, whole: int) -> int:
    """The number of cases for this run."""
    return whole if _LONG else short


_MANY = 8
_COSTLY = ("courtside", "terminal", "cli", "pages")
"""Where a case starts a screen, a terminal or a program."""


def left_for_long(items: Sequence[pytest.Item], folder: Path) -> set[pytest.Item]:
    """The combinations that an ordinary run leaves out; every value of each parameter is tried.

    Only where a case is costly and a function has more than 8 of two parameters or more. What may
    never fail in any combination is marked `every_case`.
    """
    families: dict[str, list[pytest.Item]] = {}
    for item in items:
        many = len(_values(item)) > 1
        costly = item.path.relative_to(folder).parts[0] in _COSTLY
        if many and costly and item.get_closest_marker("every_case") is None:
            families.setdefault(item.nodeid.partition("[")[0], []).append(item)
    left: set[pytest.Item] = set()
    for cases in families.values():
        if len(cases) > _MANY and not _LONG:
            left |= set(cases) - _one_of_each(cases)
    return left


def _one_of_each(cases: Sequence[pytest.Item]) -> set[pytest.Item]:
    """Few cases in which every value occurs: always the one next that brings most new values."""
    unseen = {value for case in cases for value in _values(case)}
    chosen = set()
    while unseen:
        best = max(cases, key=lambda case: len(unseen & _values(case)))
        chosen.add(best)
        unseen -= _values(best)
    return chosen


def _values(case: pytest.Item) -> set[tuple[str, int]]:
    """Which value each parameter has in this case: values need no hash, so which object it is."""
    spec = getattr(case, "callspec", None)
    return set() if spec is None else {(name, id(value)) for name, value in spec.params.items()}
