"""A seeded hand on the keys: one key at a time, each changing something in the book."""

from __future__ import annotations

import random

from courtlog.coaching.on_court.live_round import Bookmark, LiveRound
from courtlog.logbook.file.book import Book
from courtlog.logbook.reads import lookups
from tests.terminal import sights
from tests.terminal.console import Console

PAD = ("uio", "jkl", "m,.")
BACKSPACE, NOTE = b"\x7f", b"n"
WORDS = "elbow tight"
ENDS = (b"\t", b"z")
"""Keys that end an open round; its review lies over the court then, and `q` closes it."""

Moment = tuple[Bookmark, LiveRound, int, int]


def moment(book: Book) -> Moment:
    """All that a key can change: bookmark, round on court, how many journal lines and notes."""
    mark = lookups.bookmark(book)
    assert mark is not None
    assert mark.round_id is not None
    lines, notes = book.db.execute(
        "SELECT (SELECT count(*) FROM journal), (SELECT count(*) FROM note)"
    ).fetchone()
    return mark, lookups.live_round(book, mark.round_id), lines, notes


def next_key(dice: random.Random, book: Book) -> bytes:
    """A key that changes something: often a grade, sometimes anything else."""
    mark, live, _, _ = moment(book)
    if live.ended_at is not None:
        return dice.choice((b"\r", b"\t", BACKSPACE))
    if dice.random() < 0.5:
        rows = zip(PAD, live.feeding.open.grades, strict=True)
        grades = [key for row, now in rows for grade, key in enumerate(row) if grade != now]
        return dice.choice(grades).encode()
    others = [b" ", b" ", b" ", b"\r", b"t", b"a", b"p", NOTE, *ENDS]
    before = lookups.last_round_before(book, live.id) if live.empty else None
    if live.feeding.steps or before is not None:
        others += [BACKSPACE] * 5
    if live.feeding.taken:
        others.append(b"=")
    if mark.basket.left < mark.basket.size:
        others.append(b"b")
    return dice.choice(others)


def covers_the_court(live: LiveRound, key: bytes) -> bool:
    """Whether something else than the court is on the screen after this key."""
    reviewed = live.ended_at is None and bool(live.feeding.taken)
    return key == NOTE or (key in ENDS and reviewed)


def press_and_see(console: Console, book: Book, key: bytes) -> None:
    """Press a key, and wait until the book has it and the court shows it again."""
    before = moment(book)
    console.press(key)
    if key == NOTE:
        console.wait_for("Note on")
        console.press(WORDS.encode())
        console.wait_for(WORDS)
        console.press(b"\r")
    # A clip mark is kept to the second: a second one on the same ball may change nothing.
    if key != b"a" or before[1].feeding.in_hand[1].clip is None:
        console.wait_for(lambda: moment(book) != before)
    if key in ENDS and covers_the_court(before[1], key):
        console.wait_for(lambda: "next up" not in console.text)
        console.press(b"q")
    console.wait_until_none(lambda: sights.differences(console.lines, book))
