"""What is heard of the court: one sound for what a key did, and the next feed in words."""

from __future__ import annotations

import asyncio
import contextlib
from collections.abc import Callable, Iterator
from contextvars import copy_context
from typing import TYPE_CHECKING

from courtlog.coaching.on_court.live_round import LiveRound
from courtlog.courtside import sound as sounding
from courtlog.courtside.desk.court_state import CourtState
from courtlog.courtside.sound.sounds import Sound, heard_of

if TYPE_CHECKING:
    from courtlog.courtside.sound.loudspeaker import Loudspeaker, Request


class Ears:
    """Listens to one court; asked after each view that is shown, it never keeps a key waiting."""

    def __init__(self, state: CourtState, ring: Callable[[], None]) -> None:
        """`ring` is the terminal's bell, for a system without a player."""
        self._state = state
        self._ring = ring
        self._live = state.open_round
        self._by_clock = False
        self._refusal = ""
        self._speaker: Loudspeaker | None = None

    def listen(self) -> None:
        """Let be heard what has changed since it was asked last."""
        state = self._state
        before, self._live = self._live, state.open_round
        due = state.take_due()
        if self._told_already(due):
            due.remove(Sound.REFUSED)
        if not due and self._live is before:
            return
        settings = state.settings
        new = self._live if _next_ball(before, self._live) else None
        sound = None
        if settings.bell:
            sound = heard_of([*due, *_sounds_of(before, new, settings.taken_sound)])
        words = feed_words(new) if new is not None and settings.say_feed else ""
        if sound is not None or words:
            self._let_hear(sound, words)

    @contextlib.contextmanager
    def by_the_clock(self) -> Iterator[None]:
        """Where no key was pressed: what is refused every second alike is heard once."""
        self._by_clock = True
        try:
            yield
        finally:
            self._by_clock = False

    def close(self) -> None:
        """End what is heard, when the court is left."""
        if self._speaker is not None:
            self._speaker.close()

    def _told_already(self, due: list[Sound]) -> bool:
        refusal = self._state.view.message if Sound.REFUSED in due else ""
        before, self._refusal = self._refusal, refusal
        return self._by_clock and refusal != "" and refusal == before

    def _let_hear(self, sound: Sound | None, words: str) -> None:
        if self._speaker is None:
            bell = self._bell_of(asyncio.get_running_loop())
            self._speaker = sounding.loudspeaker.Loudspeaker(bell)
        self._speaker.ask(sounding.loudspeaker.Request(sound, words))

    def _bell_of(self, loop: asyncio.AbstractEventLoop) -> Callable[[Request], None]:
        """The bell in the place of a sound, rung from whatever thread."""
        context = copy_context()

        def ring(request: Request) -> None:
            with contextlib.suppress(RuntimeError):  # the court was left meanwhile
                if request.sound is not None:
                    loop.call_soon_threadsafe(self._ring, context=context)

        return ring


def feed_words(live: LiveRound) -> str:
    """The next feed, to be said aloud."""
    return f"Tough: {live.next_spot}" if live.next_is_tough else live.next_spot


def _next_ball(before: LiveRound | None, live: LiveRound | None) -> bool:
    """Whether another ball is in hand, or the same one goes elsewhere."""
    if live is None or live is before:
        return False
    return before is None or _feed(before) != _feed(live)


def _feed(live: LiveRound) -> tuple[int, int, str]:
    return live.id, live.feeding.number, live.next_spot


def _sounds_of(before: LiveRound | None, new: LiveRound | None, taken_too: bool) -> Iterator[Sound]:
    """What another ball in hand sounds like."""
    if new is None:
        return
    if new.next_is_tough:
        yield Sound.TOUGH
    if taken_too and before is not None and before.id == new.id:
        yield Sound.TAKEN
