"""Two thousand keys on a real terminal: none is lost, and their order is kept."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

import pytest

from courtlog.coaching.on_court import feeding
from courtlog.coaching.on_court.feed_order import EVERY_BALL
from courtlog.coaching.on_court.feeding import Feeding, Step
from courtlog.coaching.on_court.live_round import Basket
from courtlog.logbook.rows.journal import state_text
from courtlog.logbook.writes.round_writer import BASKET
from tests.doses import dose
from tests.terminal import books, sights
from tests.terminal.burst import MEANINGS, mixed_keys
from tests.terminal.conftest import Opener
from tests.terminal.console import Console

pytestmark = pytest.mark.terminal

KEYS = 2000
PACE = 30
"""Keys a second of the long run; the ordinary run does not wait between keys at all."""


@dataclass
class Played:
    """What the keys should have left behind: the round, every journal line, the basket."""

    state: Feeding = field(default_factory=lambda: Feeding.fresh(3))
    journal: list[tuple[str, int, str, str]] = field(default_factory=list)
    left: int = BASKET

    def key(self, key: bytes) -> None:
        """One more key."""
        meaning = MEANINGS[key]
        if meaning is None:
            self.state, step = feeding.take_back(self.state)
            self._note("undo", step.reversed() if step else None)
        else:
            self.state, step = feeding.press(self.state, meaning)
            self._note("key", step)

    def _note(self, kind: str, step: Step | None) -> None:
        if step is None:
            return
        before = state_text(step.before, step.was_open)
        self.journal.append((kind, step.number, before, state_text(step.after, step.is_open)))
        if step.was_open is not step.is_open:
            self.left = max(0, min(BASKET, self.left - 1 if step.took else self.left + 1))


def played(keys: Sequence[bytes], lines: int | None = None) -> Played:
    """These keys on a fresh round, all or until the journal has so many lines."""
    expected = Played()
    for key in keys:
        if lines is None or len(expected.journal) < lines:
            expected.key(key)
    return expected


def test_no_key_is_lost_and_every_key_keeps_its_place(
    tmp_path: Path, open_court: Opener, long_run: bool
) -> None:
    keys = mixed_keys(dose(700, KEYS), seed=7)
    expected = played(keys)
    path = tmp_path / "book.db"
    books.prepare(path)
    console = open_court(path)
    console.wait_for("next up")
    if long_run:
        for key in keys:
            console.press(key)
            console.read_for(1 / PACE)
    else:
        console.press(b"".join(keys))
    console.press(b"p")  # the pause is the last key: once it shows, all before it are done
    console.wait_for("PAUSED")
    with books.reading(path) as book:
        console.wait_until_none(lambda: sights.differences(console.lines, book))

    mark, live = books.on_court(path)
    assert replace(live.feeding, feeds=EVERY_BALL) == expected.state
    assert books.journal(path) == expected.journal
    assert mark.basket == Basket(expected.left, BASKET)
    assert books.tallies_differ(path) == []


def test_a_kill_in_a_burst_leaves_the_first_keys_and_no_gap(
    tmp_path: Path, open_court: Opener
) -> None:
    keys = mixed_keys(KEYS, seed=8)
    path = tmp_path / "book.db"
    books.prepare(path)
    console = open_court(path)
    console.wait_for("next up")
    console.press(b"".join(keys))
    books.wait_for_lines(path, 300, console)
    console.kill()

    kept = books.journal(path)
    assert len(kept) >= 300
    first = played(keys, lines=len(kept))
    mark, live = books.on_court(path)
    assert kept == first.journal
    assert replace(live.feeding, feeds=EVERY_BALL) == first.state
    assert mark.basket == Basket(first.left, BASKET)
    assert live.feeding.number >= at_ball(console)
    assert books.tallies_differ(path) == []
    console = open_court(path)
    with books.reading(path) as book:
        console.wait_until_none(lambda: sights.differences(console.lines, book))


def at_ball(console: Console) -> int:
    """The ball's number on the screen; 0 while there is none."""
    return int((sights.numbers(console.lines) or ["0"])[0])
