"""How long the storage took to make the last change safe."""

from __future__ import annotations

import contextlib
from collections.abc import Iterator
from time import perf_counter

SLOW = 0.008
"""Seconds from which a commit is worth a word: half of one frame of a 60 Hz screen."""


class Commits:
    """The commits of one connection: how many were `made`, and how long the last one took."""

    def __init__(self) -> None:
        self.seconds = 0.0
        self.made = 0

    @property
    def slow(self) -> bool:
        """Whether the coach would have to wait to see the next key as well."""
        return self.seconds >= SLOW

    @contextlib.contextmanager
    def timed(self) -> Iterator[None]:
        """Time what happens in here; what fails is not timed."""
        start = perf_counter()
        yield
        self.seconds = perf_counter() - start
        self.made += 1
