"""Every key waits here until what was typed before it has been carried out.

A key belongs to the screen that is on top then. Textual alone gives a key to the screen that is on
top when it arrives. A key typed just before it may be about to open or to close one.
"""

from __future__ import annotations

import asyncio
from collections import deque
from collections.abc import Awaitable, Callable
from dataclasses import replace
from typing import Any

from textual.app import App
from textual.events import InputEvent, Key, Paste

from courtlog.courtside.app.key_press import KeyPress, RepeatWatch
from courtlog.courtside.dialogs.own_screen import OwnScreen

FRAME = 0.001
"""Seconds between two looks while something waits for the next frame of the screen."""

PATIENCE = 1000
"""Looks after which a key goes on without that frame: a screen may never be painted again."""

MOST_TURNS = 100_000
"""Turns of the event loop after which a key goes on: something may never come to rest."""


NO_KEY = KeyPress("")
"""A click, a paste, or nothing yet."""

Input = InputEvent | Paste
"""What a coach does at a terminal; Textual counts no paste among its input events."""


class KeyQueue:
    """Delivers keys, pastes and clicks one at a time, in the order in which they came.

    `now` is the key that is being delivered, `before` the one delivered last.
    """

    def __init__(self, app: App[Any], deliver: Callable[[Input], Awaitable[None]]) -> None:
        self._app = app
        self._deliver = deliver
        self._waiting: deque[tuple[Input, KeyPress]] = deque()
        self._repeats = RepeatWatch()
        self.now = self.before = NO_KEY
        self._delivery: asyncio.Task[None] | None = None
        self._closed = False
        self.delivered = 0

    def add(self, event: Input, arrived: float | None = None) -> None:
        """Deliver this event after all that came before it.

        `arrived` is the moment at which a keyboard sent it, by a steady clock in seconds.
        """
        if self._closed:
            return
        self._waiting.append((event, self._as_pressed(event, arrived)))
        if self._delivery is None:
            self._delivery = asyncio.create_task(self._deliver_all())

    def close(self) -> None:
        """Drop what still waits, and take nothing more: the application is leaving."""
        self._closed = True
        self._waiting.clear()

    async def emptied(self) -> None:
        """Wait until every event that came so far has been delivered."""
        while self._delivery is not None:
            await asyncio.wait([self._delivery])

    @property
    def empty(self) -> bool:
        """Whether every event that came so far has been delivered."""
        return self._delivery is None

    def _as_pressed(self, event: Input, arrived: float | None) -> KeyPress:
        if not isinstance(event, Key):
            return NO_KEY
        if arrived is None:
            return KeyPress(event.key)
        return KeyPress(event.key, self._repeats.press(event.key, arrived), arrived)

    async def _deliver_all(self) -> None:
        try:
            while self._waiting:
                await self._all_carried_out()
                if self._waiting:
                    event, press = self._waiting.popleft()
                    screen = id(self._app.screen) if self._app.screen_stack else 0
                    self.before, self.now = self.now, replace(press, screen=screen)
                    await self._deliver(event)
                    self.delivered += 1
        except Exception as error:  # noqa: BLE001 - as Textual treats an error of any other handler
            self._app._handle_exception(error)
        finally:
            self._delivery = None

    async def _all_carried_out(self) -> None:
        """Wait until no step of the program is ready to run, and no call waits for a frame.

        What Textual still has to do after a key is a chain of steps: messages, screens that open or
        close, answers. Each is ready when the one before it has run.
        """
        ready = asyncio.get_running_loop()._ready  # type: ignore[attr-defined]
        looks = turns = 0
        while looks < PATIENCE and turns < MOST_TURNS and not self._closed:
            if ready:
                turns += 1
                await asyncio.sleep(0)
            elif self._waits_for_frame():
                looks += 1
                await asyncio.sleep(FRAME)
            else:
                return

    def _waits_for_frame(self) -> bool:
        """Whether the screen on top is not there yet, or has calls to make with its next frame."""
        stack = self._app.screen_stack
        if not stack or stack[-1]._callbacks:
            return True
        return isinstance(stack[-1], OwnScreen) and stack[-1].is_opening
