"""Where the rounds of a sheet stand among the rounds that a day has already.

By time where both have one. A round without a time stands right before the next round of its sheet
that has a place of its own. One of a paper sheet stands right before the player's next sheet. Where
there is none, it stands at the end of the day.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class BookRound:
    """A round of the day: when it began (ms UTC), and whether any ball of it was taken."""

    started: int | None
    was_played: bool = True


@dataclass(frozen=True, slots=True)
class SheetRound:
    """A round of the sheet: when it began, and which round of the day it is, if it is one."""

    started: int | None
    same_as: int | None = None
    """The index of the day's round; that round keeps its place."""
    right_after: int | None = None
    """The index of the day's round whose place it takes over."""
    right_before: int | None = None
    """The index of the day's round that it comes before where it has no time."""


@dataclass(frozen=True, slots=True)
class Slot:
    """One place of the day: the round of that index, of the sheet or of the book."""

    index: int
    from_sheet: bool


def places(book: Sequence[BookRound], sheet: Sequence[SheetRound]) -> list[Slot]:
    """The rounds of the day in their new order; the book's rounds keep theirs.

    Rounds at the end that were begun and never fed stay at the end.
    """
    fed = len(book)
    while fed and not book[fed - 1].was_played:
        fed -= 1
    waiting = [Slot(index, False) for index in range(fed, len(book))]
    order = [Slot(index, False) for index in range(fed)]
    if not order:
        return [Slot(i, True) for i, one in enumerate(sheet) if one.same_as is None] + waiting
    for index, round_ in enumerate(sheet):
        if round_.same_as is None and (
            round_.started is not None or round_.right_after is not None
        ):
            order.insert(_own_place(order, book, sheet, round_), Slot(index, True))
    for index, round_ in enumerate(sheet):
        if round_.same_as is None and Slot(index, True) not in order:
            order.insert(_before_the_next(order, sheet, index), Slot(index, True))
    return order + waiting


def _own_place(
    order: Sequence[Slot],
    book: Sequence[BookRound],
    sheet: Sequence[SheetRound],
    round_: SheetRound,
) -> int:
    """After the last round that began no later, and the rounds without a time that follow it."""
    if round_.right_after is not None:
        return order.index(Slot(round_.right_after, False)) + 1
    starts = [(sheet if slot.from_sheet else book)[slot.index].started for slot in order]
    began = round_.started or 0
    place = max(
        (at + 1 for at, start in enumerate(starts) if start is not None and start <= began),
        default=0,
    )
    while 0 < place < len(order) and starts[place] is None:
        place += 1
    return place


def _before_the_next(order: Sequence[Slot], sheet: Sequence[SheetRound], index: int) -> int:
    before = sheet[index].right_before
    if before is not None and Slot(before, False) in order:
        return order.index(Slot(before, False))
    for at, later in enumerate(sheet[index + 1 :], index + 1):
        slot = Slot(at, True) if later.same_as is None else Slot(later.same_as, False)
        if slot in order:
            return order.index(slot)
    return len(order)
