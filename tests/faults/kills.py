"""`kill -9` at any moment of a burst of keys: what was on the screen is in the book."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from courtlog.coaching.on_court import feeding
from courtlog.coaching.on_court.feeding import Feeding
from tests.faults.figures import Figure, lost
from tests.terminal import books, sights
from tests.terminal.burst import MEANINGS, mixed_keys
from tests.terminal.console import Console, court, environment

KILLS, KILLS_LONG = 3, 500
BURST = 100
A_BOOK = 20
"""Kills on one book; then a new one, so that rounds do not grow without end."""


def kills(folder: Path, long: bool) -> Figure:
    """A run goes on from what the book holds after the kill before; every moment is drawn."""
    figure = Figure("kill -9 at a random moment of a burst of keys")
    dice = random.Random(9)
    for number in range(KILLS_LONG if long else KILLS):
        home = folder / f"book-{number // A_BOOK}"
        path = home / "book.db"
        if number % A_BOOK == 0:
            home.mkdir()
            books.prepare(path)
        with figure.trial(f"kill {number}"):
            _kill(path, dice, number, figure)
    return figure


def _kill(path: Path, dice: random.Random, number: int, figure: Figure) -> None:
    before = books.on_court(path)[1]
    lines = len(books.journal(path))
    keys = mixed_keys(BURST, number)
    states, written = _played(before.feeding, keys)
    with Console(court(path), environment(path.parent), 80, 24, True) as console:
        with books.reading(path) as book:
            console.wait_until_none(lambda: sights.differences(console.lines, book))
        console.press(b"".join(keys))
        books.wait_for_lines(path, lines + dice.randint(0, written), console)
        console.kill()
        seen = console.lines
    kept = books.on_court(path)[1].feeding
    shown = [
        at for at, state in enumerate(states) if sights.shows(seen, replace(before, feeding=state))
    ]
    there = [at for at, state in enumerate(states) if state == kept]
    assert shown, "the screen at the kill is none that the keys lead to:\n" + "\n".join(seen)
    if shown[0] > max(there, default=-1):
        figure.lost += max(1, lost(states[shown[0]], kept))
    assert there, "the book holds what no run of these keys leads to"
    assert shown[0] <= there[-1], "the screen was ahead of the book"
    assert books.tallies_differ(path) == []


def _played(state: Feeding, keys: Sequence[bytes]) -> tuple[list[Feeding], int]:
    """The state before the keys and after each of them, and how many journal lines they write."""
    states, lines = [state], 0
    for key in keys:
        meaning = MEANINGS[key]
        state, steps = (
            feeding.take_back_key(state) if meaning is None else feeding.press_key(state, meaning)
        )
        states.append(state)
        lines += len(steps)
    return states, lines
