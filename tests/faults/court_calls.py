"""One call of the system fails while the court runs: nobody sees a traceback or a lie, nor waits.

A fault lasts for one call or for one key, strikes the book's folder, the terminal or the program's
own files, and comes with any key of the court; afterwards the screen is the book again.
"""

from __future__ import annotations

import contextlib
import errno
import random
import time
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from tests.cli.program import PROJECT
from tests.faults.figures import Figure, lost
from tests.faults.library import MISSING, compiled
from tests.terminal import books, sights
from tests.terminal.console import Console, court, environment
from tests.terminal.mixed import moment

TRIALS, LONG_TRIALS = 3, 150

RATING = (b"u", b"k", b".", b" ", b"\r", b"t", b"a", b"b", b"p", b"\x7f", b"z")
OPENING = (
    *(b"n", b"s", b"d", b"y", b"g", b"\t", b"q", b"\x01", b"\x1bOP", b"\x1bOQ", b"\x1bOR"),
    *(b"\x1bOS", b"\x1b[15~", b"\x1b[17~", b"\x1b[18~", b"\x1b[19~", b"\x1b[20~", b"\x1b[21~"),
)
"""Keys that rate, and keys that open a screen (F1 to F10 as an xterm sends them)."""

ESCAPE = b"\x1b"
SOON = 1.0
"""Seconds after which a fault that was not met is taken away."""

PROMPT = 10.0
"""Seconds after which the court has hung."""

ON_BOOK: Mapping[str, Sequence[int]] = {
    "fcntl": (errno.EIO, errno.ENOLCK),
    "pread": (errno.EIO,),
    "pwrite": (errno.EIO, errno.ENOSPC, errno.EDQUOT),
    "fsync": (errno.EIO, errno.ENOSPC),
    "open": (errno.EIO, errno.EMFILE, errno.EACCES),
    "create": (errno.EIO, errno.EMFILE, errno.ENOSPC, errno.EROFS),
    "stat": (errno.EIO, errno.EACCES),
    "fstat": (errno.EIO,),
    "ftruncate": (errno.EIO,),
    "close": (errno.EIO, errno.ENOSPC),
    "read": (errno.EIO,),
}
ON_PROGRAM: Mapping[str, Sequence[int]] = {
    "open": (errno.EMFILE, errno.EIO),
    "read": (errno.EIO,),
    "stat": (errno.EIO,),
    "opendir": (errno.EMFILE, errno.EIO),
}
ON_TERMINAL: Mapping[str, Sequence[int]] = {"write": (errno.EIO, errno.EAGAIN)}


KEYS_A_RUN = 8
"""Keys tried on one run of the court."""


@dataclass(frozen=True, slots=True)
class Fault:
    """What fails, where (a part of the path), and whether for one call only."""

    call: str
    error: int
    where: str
    once: bool

    def __str__(self) -> str:
        length = "once" if self.once else "all the while"
        return f"{self.call} {errno.errorcode[self.error]} on {self.where} {length}"


def court_calls(folder: Path, long: bool) -> Figure:
    """A fault for one key, again and again; a court that left is opened again."""
    figure = Figure("one failing call in the running court")
    library = compiled()
    if library is None:
        figure.skipped = MISSING
        return figure
    dice = random.Random(f"court {long}")
    number = 0
    while figure.tried < (LONG_TRIALS if long else TRIALS):
        number += 1
        home = folder / f"home-{number}"
        home.mkdir()
        books.prepare(home / "book.db")
        _some(home, library, dice, figure)
    return figure


def _some(home: Path, library: Path, dice: random.Random, figure: Figure) -> None:
    """Some keys on one book, each under a fault at one place; until the court has left."""
    path = home / "book.db"
    places = {str(home): ON_BOOK, "/dev/pts/": ON_TERMINAL, str(PROJECT / "courtlog"): ON_PROGRAM}
    where = dice.choice(list(places))
    switch = home.parent / dice.choice(("once", "once", "while"))
    struck = home.parent / "struck"
    more = {
        "LD_PRELOAD": str(library),
        "COURTLOG_FAULTS": str(switch),
        "COURTLOG_FAULT_ON": where,
        "COURTLOG_STRUCK": str(struck),
    }
    with Console(court(path), environment(home, **more), 80, 24, True) as console:
        for _ in range(KEYS_A_RUN):
            call = dice.choice(list(places[where]))
            fault = Fault(call, dice.choice(places[where][call]), where, switch.name == "once")
            key = dice.choice((*RATING, *OPENING))
            struck.unlink(missing_ok=True)
            survived, stands = figure.survived, False
            with figure.trial(f"{fault} at {key!r}"):
                stands = _try(console, path, key, fault, switch, struck, figure)
            if figure.survived > survived and not struck.exists():
                figure.tried -= 1  # no such call came with this key
                figure.survived -= 1
            if not stands:
                return


def _try(
    console: Console,
    path: Path,
    key: bytes,
    fault: Fault,
    switch: Path,
    struck: Path,
    figure: Figure,
) -> bool:
    """One key under the fault; whether the court stands afterwards."""
    with books.reading(path) as book:
        console.wait_until_none(lambda: sights.differences(console.lines, book))
        before = moment(book)[1].feeding
    began = time.monotonic()
    switch.write_text(f"{fault.call} {fault.error}\n", encoding="ascii")
    with contextlib.suppress(AssertionError):  # it left, which is looked at below
        console.press(key)
        while not struck.exists() and time.monotonic() - began < SOON:
            console.read_for(SOON / 20)
        console.read_for(SOON / 4)
    switch.unlink(missing_ok=True)
    with books.reading(path) as book, contextlib.suppress(AssertionError):
        while sights.differences(console.lines, book) and time.monotonic() - began < PROMPT:
            if "Ctrl+Q quit" not in console.text or "│" in console.text:  # not the court
                console.press(ESCAPE)
            console.read_for(SOON / 4)
    if console.ended:
        code = console.read_to_end()
        said = bytes(console.sent).decode(errors="replace")
        assert "Traceback" not in said, said[-3000:]
        assert code == 1, f"it left with exit code {code}"
        with books.reading(path) as book:
            figure.lost += lost(before, moment(book)[1].feeding)
        return False
    with books.reading(path) as book:
        differences = sights.differences(console.lines, book)
    assert not differences, "\n".join([*differences, console.text])
    assert "Traceback" not in console.text
    return True
