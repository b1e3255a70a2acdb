"""The disk refuses: full, failing to write or to sync; keys are refused aloud, and work goes on.

Most faults come from a library that is preloaded under the program (`failing.c`): it needs no
right but a C compiler, fails exactly one kind of call on exactly the book's files, and is
switched while the program runs. A tracer would need ptrace, and a small file system root; the
limit on file sizes needs nothing, and is here for machines without a compiler.
"""

from __future__ import annotations

import errno
import resource
import sys
from collections.abc import Iterator, Sequence
from contextlib import AbstractContextManager, contextmanager
from dataclasses import replace
from functools import partial
from pathlib import Path

from courtlog.coaching.on_court import feeding
from courtlog.coaching.on_court.live_round import LiveRound
from tests.faults.figures import Figure, lost
from tests.faults.library import MISSING, compiled
from tests.terminal import books, sights
from tests.terminal.burst import MEANINGS, mixed_keys
from tests.terminal.console import Console, court, environment
from tests.terminal.mixed import moment, press_and_see

KEYS = [b"u", b"k", b".", b" ", b"\r", b"t", b"a", b"b", b"p", b"\x7f", b"\t", b"z"]
"""Keys that write, each for itself."""

REFUSED = {
    "pwrite": ("The disk is full", "could not be used"),
    "fsync": ("could not be used",),
    "size": ("could not be used", "The disk is full"),
}
FAULTS = (
    ("pwrite", errno.ENOSPC),
    ("pwrite", errno.EIO),
    ("pwrite", errno.EDQUOT),
    ("fsync", errno.EIO),
)


SLOW = (10, 50)
"""Milliseconds that a slow disk takes for each sync."""

HURRY = 20
"""Keys typed ahead of it at once."""


def slow_disk(folder: Path, long: bool) -> Figure:
    """Keys come faster than the disk is: each is shown in its order, and waits under a mark."""
    figure = Figure("a slow disk: each key in order, and a mark while it waits")
    library = compiled()
    if library is None:
        figure.skipped = MISSING
        return figure
    for delay in SLOW:
        switch = folder / f"slow{delay}"
        home, path = _home(folder, f"slow-{delay}")
        more = _preloaded(library, switch, path)
        keys = mixed_keys(HURRY * (10 if long else 1), seed=delay)
        with (
            Console(court(path), environment(home, **more), 80, 24, True) as console,
            books.reading(path) as book,
        ):
            console.wait_until_none(lambda: sights.differences(console.lines, book))
            switch.write_text(f"slow {delay}\n", encoding="ascii")
            press_and_see(console, book, b" ")
            before, wanted = len(console.frames()), _one_by_one(moment(book)[1], keys)
            console.press(b"".join(keys))
            console.wait_for(partial(_shows, console, wanted[-1]))
            console.wait_until_none(lambda: sights.differences(console.lines, book))
            frames = console.frames()[before:]
            with figure.trial(f"{delay} ms: a mark for each key"):
                marked = [lines for lines in frames if sights.WAITS in lines[0]]
                assert len(marked) >= len(wanted), f"{len(marked)} marks for {len(wanted)} keys"
                console.wait_for(lambda: sights.WAITS not in console.lines[0])
            for live in wanted:
                with figure.trial(f"{delay} ms: ball {live.feeding.number}"):
                    while not sights.shows(frames[0], live):
                        del frames[0]
    return figure


def _shows(console: Console, live: LiveRound) -> bool:
    return sights.shows(console.lines, live)


def _one_by_one(live: LiveRound, keys: Sequence[bytes]) -> list[LiveRound]:
    """The round after each key that changed it."""
    found = [live]
    for key in keys:
        meaning, now = MEANINGS[key], found[-1]
        state, step = (
            feeding.take_back(now.feeding)
            if meaning is None
            else feeding.press(now.feeding, meaning)
        )
        if step is not None:
            found.append(replace(now, feeding=state))
    return found[1:]


def failing_disk(folder: Path, long: bool) -> Figure:
    """Every key that writes, under every error of writing and syncing."""
    figure = Figure("write and sync errors, disk full (preloaded library)")
    library = compiled()
    if library is None:
        figure.skipped = MISSING
        return figure
    switch = folder / "faults"
    home, path = _home(folder, "failing")
    more = _preloaded(library, switch, path)

    @contextmanager
    def failing(call: str, error: int) -> Iterator[None]:
        switch.write_text(f"{call} {error}\n", encoding="ascii")
        try:
            yield
        finally:
            switch.unlink()

    with Console(court(path), environment(home, **more), 80, 24, True) as console:
        for call, error in FAULTS * (5 if long else 1):
            for key in KEYS:
                with figure.trial(f"{call} {errno.errorcode[error]} at {key!r}"):
                    _refused(console, path, key, failing(call, error), REFUSED[call], figure)
    return figure


def full_file(folder: Path, _long: bool) -> Figure:
    """The book's files may not grow any more, by the system's own limit."""
    figure = Figure("no room to grow (limit of file sizes)")
    if sys.platform != "linux":
        figure.skipped = "no limits of another process here"
        return figure
    home, path = _home(folder, "full")

    @contextmanager
    def full(console: Console) -> Iterator[None]:
        before = resource.prlimit(console.process, resource.RLIMIT_FSIZE)
        resource.prlimit(console.process, resource.RLIMIT_FSIZE, (1, before[1]))
        try:
            yield
        finally:
            resource.prlimit(console.process, resource.RLIMIT_FSIZE, before)

    with Console(court(path), environment(home), 80, 24, True) as console:
        for key in KEYS:
            with figure.trial(f"{key!r}"):
                _refused(console, path, key, full(console), REFUSED["size"], figure)
    return figure


def notes(folder: Path, _long: bool) -> Figure:
    """A note typed while the disk is full is offered again until it is stored."""
    figure = Figure("a note typed while nothing can be written")
    if not hasattr(resource, "prlimit"):
        figure.skipped = "no limits of another process here"
        return figure
    home, path = _home(folder, "notes")
    with (
        Console(court(path), environment(home), 80, 24, True) as console,
        books.reading(path) as book,
        figure.trial("note"),
    ):
        console.wait_until_none(lambda: sights.differences(console.lines, book))
        press_and_see(console, book, b" ")
        before = resource.prlimit(console.process, resource.RLIMIT_FSIZE)
        console.press(b"n")
        console.wait_for("Note on")
        console.press(b"elbow quiet")
        console.wait_for("elbow quiet")
        resource.prlimit(console.process, resource.RLIMIT_FSIZE, (1, before[1]))
        console.press(b"\r")
        console.wait_for("Not stored")
        assert "elbow quiet" in console.text
        assert not book.db.execute("SELECT 1 FROM note").fetchall()
        resource.prlimit(console.process, resource.RLIMIT_FSIZE, before)
        console.press(b"\r")
        console.wait_until_none(lambda: sights.differences(console.lines, book))
        assert book.db.execute("SELECT text FROM note").fetchall() == [("elbow quiet",)]
    return figure


def _refused(
    console: Console,
    path: Path,
    key: bytes,
    fault: AbstractContextManager[None],
    words: tuple[str, ...],
    figure: Figure,
) -> None:
    """The key is refused aloud while the fault lasts, and taken when it is over."""
    with books.reading(path) as book:
        _on_court(console, path)
        press_and_see(console, book, b"i" if moment(book)[1].feeding.open.grades[0] != 1 else b"o")
        before = moment(book)
        with fault:
            console.press(key)
            console.wait_for(lambda: any(word in console.text for word in words))
            console.wait_until_none(lambda: sights.differences(console.lines, book))
            figure.lost += lost(before[1].feeding, moment(book)[1].feeding)
            assert moment(book) == before, "the book was changed"
        press_and_see(console, book, b" ")
        assert not any(word in console.text for word in words), "the refusal stands on"
    assert books.tallies_differ(path) == []


def _on_court(console: Console, path: Path) -> None:
    with books.reading(path) as book:
        console.wait_until_none(lambda: sights.differences(console.lines, book))


def _home(folder: Path, name: str) -> tuple[Path, Path]:
    home = folder / name
    home.mkdir()
    books.prepare(home / "book.db")
    return home, home / "book.db"


def _preloaded(library: Path, switch: Path, book: Path) -> dict[str, str]:
    """What makes a program's writes to this book fail as the switch says."""
    return {
        "LD_PRELOAD": str(library),
        "COURTLOG_FAULTS": str(switch),
        "COURTLOG_FAULT_ON": str(book),
    }
