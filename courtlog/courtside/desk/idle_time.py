"""A laptop that slept, or a court that stood empty: a long time without a key is a pause."""

from __future__ import annotations

from courtlog import times
from courtlog.courtside.desk.court_state import CourtState
from courtlog.logbook.reads import lookups
from courtlog.logbook.writes.round_writer import RoundWriter

LONGEST = 20 * 60_000
"""Milliseconds without a key that still are time of the round (common practice, no source: a round
takes five to fifteen minutes)."""


class IdleTime:
    """How long the round on court has been without a key."""

    def __init__(self, state: CourtState) -> None:
        self._state = state
        self._writer = RoundWriter(state.book)
        self._round = 0
        self._since = 0

    def restart(self) -> None:
        """Count from now on: something other than a key was done, such as the end of a pause."""
        live = self._state.view.live
        if live is not None:
            self._round, self._since = live.id, self._state.clock()

    def subtract(self) -> str:
        """Take a long time without a key off the round; returns the sentence that says so."""
        state = self._state
        live = state.open_round
        if live is None or state.view.paused:
            return ""
        if self._round != live.id:
            self._round = live.id
            self._since = lookups.last_activity(state.book, live.id, LONGEST)
        at_ms = state.clock()
        idle = at_ms - self._since
        if idle >= LONGEST:
            self._writer.subtract_idle_time(live.id, idle, at_ms)
            state.read_rotation()
        self.restart()
        if idle < LONGEST:
            return ""
        return f"No key for {times.span_words(idle)}: counted as a pause. "
