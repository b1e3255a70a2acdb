"""Runs the court screen without a terminal: keys in, the words on the screen out."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable, Sequence
from pathlib import Path

from textual._context import active_app
from textual.app import App
from textual.pilot import Pilot
from textual.screen import Screen

from courtlog.courtside.app.court_app import CourtlogApp
from courtlog.courtside.app.own_app import OwnApp
from courtlog.courtside.desk.desk import Desk
from courtlog.courtside.dialogs.own_screen import OwnScreen


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


def flat(text: str) -> str:
    """The words of a box, whatever line they stand on."""
    return " ".join(text.replace("│", " ").split())


def line_with(text: str, words: str) -> str:
    """The one line that holds these words."""
    (line,) = [line for line in text.splitlines() if words in line]
    return line


def cue_block(text: str, name: str) -> str:
    """The three lines of that cue on a court of 24 lines."""
    lines = text.splitlines()
    (top,) = [row for row, line in enumerate(lines) if line.startswith(f" {name} ")]
    return "\n".join(lines[top : top + 3])


def stands_in(strip: Sequence[str], text: str) -> bool:
    """Whether these rows stand under each other, from the same cell on."""
    lines = [line.ljust(200) for line in text.splitlines()]
    spots = ((top, left) for top in range(len(lines) - len(strip) + 1) for left in range(120))
    return any(
        all(lines[top + row].startswith(cells, left) for row, cells in enumerate(strip))
        for top, left in spots
    )


async def settled(*_: float) -> None:
    """Wait until nothing in the running application has anything left to do, by no clock.

    Textual's own wait sleeps 20 ms at a time until the processor is idle; this one lets every ready
    step run, paints what waits to be painted, and lets worker threads end.
    """
    loop = asyncio.get_running_loop()
    app = active_app.get()
    while True:
        await asyncio.sleep(0)
        if isinstance(app, OwnApp) and not app.keys.empty:
            await app.keys.emptied()
            continue
        if loop._ready:  # type: ignore[attr-defined]
            continue
        if app.screen_stack and isinstance(app.screen, OwnScreen) and app.screen.is_opening:
            continue
        if at_work(app):
            await app.workers.wait_for_complete()
        elif app.screen_stack and waits_to_be_painted(app.screen):
            app.screen._on_timer_update()
        else:
            return


def at_work(app: App[object]) -> bool:
    """Whether a worker has not come to its end."""
    return any(worker.is_running for worker in app.workers)


def waits_to_be_painted(screen: Screen[object]) -> bool:
    """Whether the next repaint would change something or call somebody."""
    return bool(
        screen._layout_required
        or screen._scroll_required
        or screen._repaint_required
        or screen._recompose_required
        or screen._dirty_widgets
        or screen._callbacks
    )
