"""Chance that falls the same on every Python: nothing is drawn but random()."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random
from typing import TypeVar

Item = TypeVar("Item")


class Dice:
    """A seeded run of draws; the other methods of Random may change between versions."""

    def __init__(self, seed: int) -> None:
        self._random = Random(seed)

    def chance(self, share: float) -> bool:
        """Yes in this share of draws."""
        return self.share() < share

    def share(self) -> float:
        """A number from 0 up to 1."""
        return self._random.random()

    def whole(self, low: int, high: int) -> int:
        """A whole number from low to high, both included."""
        return low + int(self._random.random() * (high - low + 1))

    def one_of(self, items: Sequence[Item]) -> Item:
        """One item, each as likely as the others."""
        return items[self.whole(0, len(items) - 1)]
