"""Runs the court screen without a terminal: keys in, the words on the screen out."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable, Sequence
from pathlib import Path

from textual.pilot import Pilot
from textual.screen import Screen

from courtlog.courtside.app import CourtlogApp
from courtlog.courtside.desk import Desk


def shown(screen: Screen[object]) -> str:
    """What the screen shows, line by line."""
    lines = screen._compositor.render_strips()
    return "\n".join("".join(segment.text for segment in line).rstrip() for line in lines)


def on_court(
    desk: Desk,
    keys: Sequence[str] = (),
    size: tuple[int, int] = (80, 24),
    settings_path: Path | None = None,
    then: Callable[[Pilot[None], CourtlogApp], Awaitable[None]] | None = None,
) -> str:
    """The screen after these keys; `then` may go on with the running application."""

    async def run() -> str:
        app = CourtlogApp(desk, settings_path, "Europe/Lisbon")
        async with app.run_test(size=size) as pilot:
            await pilot.press(*keys)
            await pilot.pause()
            if then is not None:
                await then(pilot, app)
                await pilot.pause()
            return shown(app.screen)

    return asyncio.run(run())


def line_with(text: str, words: str) -> str:
    """The one line that holds these words."""
    (line,) = [line for line in text.splitlines() if words in line]
    return line
