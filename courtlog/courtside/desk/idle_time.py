"""A laptop that slept, or a court that stood empty: a long time without a key is a pause."""

from __future__ import annotations

from typing import TYPE_CHECKING

from courtlog import times
from courtlog.logbook.reads import lookups
from courtlog.logbook.writes.round_writer import Door

if TYPE_CHECKING:
    from courtlog.courtside.desk.desk import Desk

LONGEST = 20 * 60_000
"""Milliseconds without a key that still are time of the round (common practice, no source: a round
takes five to fifteen minutes)."""


class Quiet:
    """One desk, and when the round on court last showed a sign of life."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self._door = Door(desk.book)
        self._round = 0
        self._last = 0

    def alive(self) -> None:
        """A sign of life other than a key, such as the end of a pause."""
        live = self._desk.view.live
        if live is not None:
            self._round, self._last = live.id, self._desk.clock()

    def count(self) -> str:
        """Take a long time without a key for a pause, and say so; nothing after a short one."""
        live = self._desk.view.live
        if live is None or live.ended_at is not None or self._desk.view.paused:
            return ""
        if self._round != live.id:
            book = self._desk.book
            self._round, self._last = live.id, lookups.last_sign_of_life(book, live.id, LONGEST)
        quiet = self._desk.clock() - self._last
        if quiet >= LONGEST:
            self._door.rest(live.id, quiet)
            self._desk.rotation.look()
        self.alive()
        if quiet < LONGEST:
            return ""
        return f"No key for {times.span_words(quiet)}: counted as a pause. "
