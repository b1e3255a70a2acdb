"""`kill -9` between any two keys costs nothing that was seen.

A seeded run of mixed keys on one book; after some keys (after every key with `--long`) the program
is killed and started again, and the same run goes on from what the book holds.
"""

from __future__ import annotations

import random
import re
from collections.abc import Iterable
from pathlib import Path

import pytest

from tests.court import written
from tests.terminal import books, sights
from tests.terminal.conftest import Opener
from tests.terminal.console import Console
from tests.terminal.mixed import BACKSPACE, covers_the_court, moment, next_key, press_and_see

pytestmark = pytest.mark.terminal

KEYS = 40
KILLS = 5


def deaths(seed: int, long_run: bool) -> list[int]:
    """How many keys are pressed before each kill."""
    points = range(1, KEYS + 1)
    return list(points) if long_run else sorted(random.Random(seed).sample(points, KILLS))


def at_rest(lines: list[str]) -> list[str]:
    """Without the mark of waiting, and the clock, which goes on while the program is down."""
    still = [re.sub(r"(rotation \d+ · )[\d:]+", r"\1-", line) for line in lines]
    return [still[0].removesuffix(sights.WAITS).rstrip(), *still[1:]]


def changed_rows(before: list[str], after: list[str]) -> list[str]:
    """Rows that differ, but for the words about the last key, which a restart may leave out."""
    rows = enumerate(zip(at_rest(before), at_rest(after), strict=True))
    changed = {at: row for at, row in rows if row[0] != row[1]}
    return [f"{changed[at]}" for at in changed if at not in words_left_out(changed, after)]


def lost_rows(before: list[str], at_death: list[str], after: list[str]) -> list[str]:
    """Rows with a sign that was neither there before the key nor is there after the restart."""
    changed = {}
    screens = map(at_rest, (before, at_death, after))
    for at, (old, seen, new) in enumerate(zip(*screens, strict=True)):
        width = max(len(old), len(seen), len(new))
        cells = zip(old.ljust(width), seen.ljust(width), new.ljust(width), strict=True)
        if any(cell not in (was, now) for was, cell, now in cells):
            changed[at] = (old, seen, new)
    return [f"{changed[at]}" for at in changed if at not in words_left_out(changed, after)]


def words_left_out(changed: Iterable[int], after: list[str]) -> set[int]:
    """The one or two rows in one place that are empty after the restart."""
    emptied = [at for at in changed if not after[at]]
    return {at for at in emptied if at - emptied[0] <= 1}


def comes_up(console: Console, path: Path) -> None:
    """The court as the book has it, and a book that agrees with itself."""
    # Drawn, it has the book's lock: whoever reads earlier looks at a dead program's log under it.
    console.wait_for(lambda: any(line.strip() for line in console.lines))
    with books.reading(path) as book:
        console.wait_until_none(lambda: sights.differences(console.lines, book))
    assert books.tallies_differ(path) == []


def test_the_same_court_is_there_after_a_kill(
    tmp_path: Path, open_court: Opener, long_run: bool
) -> None:
    dice, path, pressed = random.Random(1), tmp_path / "book.db", 0
    books.prepare(path)
    console = open_court(path)
    comes_up(console, path)
    for death in deaths(1, long_run):
        with books.reading(path) as book:
            for _ in range(pressed, death):
                press_and_see(console, book, next_key(dice, book))
        console.kill()
        seen, pressed = console.lines, death
        console = open_court(path)
        comes_up(console, path)
        console.wait_until_none(lambda: changed_rows(seen, console.lines))  # noqa: B023


def test_a_sign_on_the_screen_is_in_the_book(
    tmp_path: Path, open_court: Opener, long_run: bool
) -> None:
    dice, path, pressed = random.Random(2), tmp_path / "book.db", 0
    books.prepare(path)
    console = open_court(path)
    comes_up(console, path)
    for death in deaths(2, long_run):
        with books.reading(path) as book:
            for _ in range(pressed, death - 1):
                press_and_see(console, book, next_key(dice, book))
            key = next_key(dice, book)
            if covers_the_court(moment(book)[1], key):
                key = b" "
        before, pressed = console.lines, death
        console.press(key)
        console.wait_for_output()
        console.kill()
        at_death = console.lines
        console = open_court(path)
        comes_up(console, path)
        console.wait_until_none(lambda: lost_rows(before, at_death, console.lines))  # noqa: B023


def test_keys_of_a_life_before_can_be_taken_back(tmp_path: Path, open_court: Opener) -> None:
    path = tmp_path / "book.db"
    books.prepare(path)
    console = open_court(path)
    comes_up(console, path)
    with books.reading(path) as book:
        for key in (b"u", b"k", b".", b" ", b"t", b"o"):
            press_and_see(console, book, key)
    console.kill()
    console = open_court(path)
    comes_up(console, path)
    seen = []
    with books.reading(path) as book:
        for _ in range(6):
            press_and_see(console, book, BACKSPACE)
            seen.append(written(moment(book)[1].feeding))
    assert seen == ["012 222|.!", "012 222", "012", "|01-", "|0--", ""]
