"""One line of the report: a fault, how often it was tried, and what it cost."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from itertools import zip_longest

from courtlog.coaching.on_court.feeding import Feeding


@dataclass
class Figure:
    """Trials of one fault.

    `lost` counts ratings that had been shown or told and are not in the book; `left_behind` counts
    drafts, half written files and locks that nobody asked for.
    """

    fault: str
    tried: int = 0
    survived: int = 0
    lost: int = 0
    left_behind: int = 0
    skipped: str = ""
    troubles: list[str] = field(default_factory=list)

    @property
    def good(self) -> bool:
        """Whether nothing was lost or left behind, and every trial went as it should."""
        return not self.lost and not self.left_behind and self.survived == self.tried

    @contextmanager
    def trial(self, what: str) -> Iterator[None]:
        """One trial; an expectation that fails in it is written down, and the next one begins."""
        self.tried += 1
        try:
            yield
        except Exception as error:  # noqa: BLE001 - whatever goes wrong is what is looked for
            self.troubles.append(f"{what}: {type(error).__name__}: {error}")
        else:
            self.survived += 1

    def line(self) -> str:
        """The line of the report."""
        if self.skipped:
            return f"{self.fault:<58} left out: {self.skipped}"
        return (
            f"{self.fault:<58}{self.tried:>7}{self.survived:>10}{self.lost:>6}{self.left_behind:>6}"
        )


def lost(seen: Feeding, kept: Feeding) -> int:
    """How many ratings of what was seen are not in what was kept, or are other ones there."""
    balls = zip_longest((*seen.taken, seen.open), (*kept.taken, kept.open))
    return sum(
        grade is not None and (after is None or after.grades[row] is not grade)
        for before, after in balls
        if before is not None
        for row, grade in enumerate(before.grades)
    )


HEAD = f"{'fault':<58}{'tried':>7}{'survived':>10}{'lost':>6}{'left':>6}"
