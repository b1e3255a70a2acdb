"""Ids that stay unique when two books are joined: 23 bits name the book, 40 bits count upwards.

The count follows the clock (milliseconds since 2024), so that ids sort by time. When the clock
stands still or goes back, the count rises by one.
"""

from __future__ import annotations

import secrets

TAG_BITS = 23
COUNT_BITS = 40
_START = 1_704_067_200_000
"""2024-01-01T00:00:00Z in milliseconds; 40 bits last until 2058."""

LATEST = 2**COUNT_BITS - 2**32
"""A clock that says later than this is wrong; the count goes on by ones from here."""

LAST_COUNT = LATEST + 2**31
"""As far as it gets by ones. An id from elsewhere above this would leave no room to go on."""

LAST_TAG = 2**TAG_BITS - 2
"""The number after the ids of one tag higher is too large for SQLite."""

_STEP = 1024


def new_tag() -> int:
    """A random name for a new book, never 0; the upper half is left for higher_tag."""
    return secrets.randbelow(2 ** (TAG_BITS - 1)) + 1


def higher_tag(tag: int) -> int:
    """A number above this one, so that the ids of a copy sort after all that the copy holds.

    At random, so that two copies do not take the same; at the very top there is none left.
    """
    return int(min(tag + 1 + secrets.randbelow(_STEP), LAST_TAG))


COURTS = 16
"""The books of one clinic's courts at most: each takes every sixteenth number, and no other's."""

_COPIES = 128
"""Numbers of a court among which a copy of its book takes one at random."""


def court_tag(tag: int, court: int) -> int:
    """The lowest number above this one that only the court of that number (0 to 15) takes."""
    return min(tag + 1 + (court - tag - 1) % COURTS, _highest_of(court))


def copied_court_tag(tag: int, court: int) -> int:
    """A number above this one, of the same court, that another copy of its book hardly takes."""
    above = court_tag(tag, court) + COURTS * secrets.randbelow(_COPIES)
    return min(above, _highest_of(court))


def _highest_of(court: int) -> int:
    return int(LAST_TAG - (LAST_TAG - court) % COURTS)


class Ids:
    """Hands out the ids of one book; `last` is the highest id of this book so far."""

    def __init__(self, tag: int, last: int = 0) -> None:
        self._floor = tag << COUNT_BITS
        self._last = max(last, self._floor)

    @property
    def ceiling(self) -> int:
        """The first number above this book's ids."""
        return min(self._floor + (1 << COUNT_BITS), 2**63 - 1)

    def next(self, at_ms: int) -> int:
        """A new id, higher than all before, for something that happened at this moment."""
        self._last = max(self._last + 1, self._floor + min(max(at_ms - _START, 0), LATEST))
        return self._last

    def earlier(self, count: int) -> int | None:
        """The id of this book with that count, if `next` gives none like it any more.

        Whether it is free is for the caller to see.
        """
        row = self._floor + count
        return row if count >= 0 and row <= self._last else None

    @staticmethod
    def count_at(at_ms: int) -> int:
        """The count of an id that is given at that moment."""
        return at_ms - _START

    def continue_with_tag(self, tag: int) -> None:
        """Begin ids with this number from here on."""
        self._floor = tag << COUNT_BITS
        self._last = max(self._last, self._floor)

    def continue_after(self, last: int) -> None:
        """Continue after the last id that another program has given."""
        self._last = max(self._last, last)


def in_time(row: str, descending: bool = False) -> str:
    """The SQL that orders rows by when they were written, whichever book did; `row` is their alias.

    A round's place counts on its own court alone; what a player did on two courts of one date
    goes by this. A joining counts places again by it too.
    """
    down = " DESC" if descending else ""
    return f"{row}.id & {(1 << COUNT_BITS) - 1}{down}, {row}.id{down}"


def is_before(row: str, other: str) -> str:
    """The SQL of whether one row was written before another."""
    return f"({in_time(row)}) < ({in_time(other)})"
